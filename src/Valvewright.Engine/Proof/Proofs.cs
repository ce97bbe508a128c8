using System.Globalization;
using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Proof.Rules;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Season;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Proof;

/// <summary>Replays a plan, as set, and judges the outcome. It trusts nothing that made the plan.</summary>
public static class Proofs
{
    /// <summary>Replays a plan.</summary>
    /// <param name="site">The survey.</param>
    /// <param name="plan">What is set, and the visits of the year.</param>
    /// <param name="heldBack">Stretches of weather, usually whole years, that the plan was not made with; at least one.</param>
    /// <param name="options">Dates and what is known.</param>
    /// <exception cref="ArgumentException">No weather.</exception>
    public static ProofReport Replay(Site site, Plan plan, IReadOnlyList<Climate> heldBack, ProofOptions options)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(heldBack);
        ArgumentNullException.ThrowIfNull(options);
        if (heldBack.Count == 0)
        {
            throw new ArgumentException("A proof needs weather to replay.", nameof(heldBack));
        }

        RulesCheck rules = RulesCheck.Of(site, plan, options.From, options.From.PlusYears(options.CalendarYears).PlusDays(-1));
        Site lawns = SeedbedVisits.AsLawns(site, plan);
        ListOf<ZoneProof> zones = WaterReplay.Run(lawns, plan, heldBack);
        ListOf<ZoneProof> seedbeds = WaterReplay.Run(SeedbedVisits.SeedbedsOf(site, plan), plan, heldBack);
        return new ProofReport
        {
            Site = site.Name,
            Verdict = Judge(rules.Breaches, [.. zones, .. seedbeds]),
            Replayed = heldBack.Select(c => new ReplayedYear(c.First, c.Last, c.EtoMm.Sum(), c.RainMm.Sum())).ToListOf(),
            RulesFrom = rules.From,
            RulesTo = rules.To,
            Breaches = rules.Breaches,
            Zones = zones,
            Seedbeds = seedbeds,
            Supplies = rules.Supplies,
            Workloads = rules.Workloads,
            Rulers = Rulers.Of(lawns, heldBack, zones),
            Comparison = Compare(lawns, plan, heldBack, options, zones),
            Next = plan.Controllers
                .Where(c => site.Controllers.Any(s => s.Name == c.Controller))
                .SelectMany(c => NextWaterings.Of(site, c, options.From, options.NextWaterings))
                .ToListOf(),
        };
    }

    /// <summary>The rules that a plan breaks from one date to another, both included.</summary>
    public static ListOf<Breach> Breaches(Site site, Plan plan, LocalDate from, LocalDate to)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        return RulesCheck.Of(site, plan, from, to).Breaches;
    }

    private static ListOf<Practice> Compare(
        Site site, Plan plan, IReadOnlyList<Climate> heldBack, ProofOptions options, ListOf<ZoneProof> zones)
    {
        IReadOnlyList<Climate> known = options.Known.Count > 0 ? options.Known : heldBack;
        Site unhindered = CommonPractice.Unhindered(site);
        string month = CommonPractice.PeakMonth(site) == 7 ? "July" : "January";
        return
        [
            Practice.Of(options.PlanName, "plan", zones),
            .. options.Beside.Select(o => Practice.Of(o.Name, o.ShortName, WaterReplay.Run(site, o.Plan, heldBack))),
            Practice.Of($"{month} setting kept all year", month,
                WaterReplay.Run(unhindered, CommonPractice.PeakMonthAllYear(site, plan, known), heldBack, neverRunsOff: true)),
            Practice.Of("percent set every month", "monthly",
                WaterReplay.Run(unhindered, CommonPractice.MonthlyPercent(site, plan, known), heldBack, neverRunsOff: true)),
        ];
    }

    private static Verdict Judge(ListOf<Breach> breaches, IReadOnlyList<ZoneProof> zones)
    {
        List<string> reasons = [.. breaches.Select(b => b.ToString())];
        reasons.AddRange(zones.Where(z => !z.IsServed).Select(z => string.Create(
            CultureInfo.InvariantCulture,
            $"{z.Controller}, station {z.Station} ({z.Zone}): low quarter has {Math.Floor(1000 * z.UseMet) / 10:0.#}% of its use met; {100 * z.LeastUseMet:0}% is the goal.")));
        return new Verdict(breaches.Count == 0, zones.All(z => z.IsServed), reasons.ToListOf());
    }
}
