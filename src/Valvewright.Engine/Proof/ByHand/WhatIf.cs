using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Proof.Rules;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Proof.ByHand;

/// <summary>What settings changed by hand would do: rules, flow and the year's water, soon enough to follow each touch.</summary>
/// <param name="Plan">The plan asked about.</param>
/// <param name="Breaches">Rules that it breaks on a year of calendar; the proof looks at four.</param>
/// <param name="Supplies">How each supply is used.</param>
/// <param name="Zones">The year's water, mean of the years of record; seedbeds are left out.</param>
public sealed record WhatIf(Plan Plan, ListOf<Breach> Breaches, ListOf<SupplyProof> Supplies, ListOf<WhatIfZone> Zones)
{
    /// <summary>Water of a mean year, m3.</summary>
    public double WaterM3 => Zones.Sum(z => z.AppliedMm * z.AreaM2) / 1000;

    /// <summary>The part of their use that low quarters have met, mean by area.</summary>
    public double UseMet => Zones.Sum(z => z.DemandMm * z.AreaM2) is > 0 and var demand
        ? 1 - (Zones.Sum(z => z.UnmetMm * z.AreaM2) / demand) : 1;
}

/// <summary>A zone's year.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Station">The station.</param>
/// <param name="Zone">Its name.</param>
/// <param name="AreaM2">Its area.</param>
/// <param name="AppliedMm">Water applied, gross.</param>
/// <param name="DemandMm">What its plants would use.</param>
/// <param name="UnmetMm">What of it the low quarter lacks.</param>
/// <param name="LeastUseMet">The part that its quality asks for.</param>
public sealed record WhatIfZone(string Controller, int Station, string Zone, double AreaM2, double AppliedMm, double DemandMm,
    double UnmetMm, double LeastUseMet)
{
    /// <summary>The part of its use that the low quarter has met.</summary>
    public double UseMet => DemandMm > 0 ? 1 - (UnmetMm / DemandMm) : 1;

    /// <summary>Whether that is what its quality asks for.</summary>
    public bool IsServed => UseMet >= LeastUseMet;
}

/// <summary>A site with its years of record, kept while a person tries settings: what does not change is not worked out again.</summary>
/// <param name="site">The survey.</param>
/// <param name="years">Whole years of record.</param>
/// <param name="from">First date of the calendar on which rules are checked.</param>
public sealed class WhatIfYears(Site site, IReadOnlyList<Climate> years, LocalDate from)
{
    private readonly Dictionary<Zone, ZoneDays[]> days = [];
    private readonly Dictionary<string, (ControllerPlan Plan, ListOf<WhatIfZone> Zones)> last = [];
    private readonly DateTimeZone zone = RulesNowInForce.Of(site.Zone());

    /// <summary>What a plan would do. Controllers that are as in the plan asked about before are taken from there.</summary>
    public WhatIf Of(Plan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        RulesCheck rules = RulesCheck.Of(site, plan, from, from.PlusYears(1).PlusDays(-1));
        return new WhatIf(plan, rules.Breaches, rules.Supplies, site.Controllers
            .SelectMany(c => ZonesOf(c, plan.Controllers.FirstOrDefault(p => p.Controller == c.Name))).ToListOf());
    }

    private ListOf<WhatIfZone> ZonesOf(SiteController controller, ControllerPlan? plan)
    {
        if (plan is null)
        {
            return [];
        }

        if (last.TryGetValue(controller.Name, out (ControllerPlan Plan, ListOf<WhatIfZone> Zones) known) && known.Plan == plan)
        {
            return known.Zones;
        }

        ILookup<int, Opening>[] openings = [.. years
            .Select(y => Watered.Of(zone, controller, plan, (y.Before ?? y).First.PlusDays(-1), y.Last).Openings.ToLookup(o =>
            o.Run.Station))];
        ListOf<WhatIfZone> zones = controller.Zones.Where(z => z.Lasts).Select(z => OfZone(controller, z, openings)).ToListOf();
        last[controller.Name] = (plan, zones);
        return zones;
    }

    private WhatIfZone OfZone(SiteController controller, Zone planted, ILookup<int, Opening>[] openings)
    {
        ZoneDays[] all = days.TryGetValue(planted, out ZoneDays[]? known) ? known
            : days[planted] = [.. years.Select(y => ZoneDays.Of(planted, y))];
        double applied = 0, demand = 0, unmet = 0;
        for (int year = 0; year < all.Length; year++)
        {
            ZoneDays own = all[year];
            double[] water = new double[own.Steps];
            foreach (Opening opening in openings[year][planted.Station])
            {
                int step = own.Lead + own.Climate.DayOf(opening.SiteTime(zone).Date);
                if (step >= 0 && step < water.Length)
                {
                    water[step] += opening.DepthMm;
                }
            }

            SpotStore column = new(RootZone.Of(planted), 0);
            double before = 0;
            for (int step = 0; step < own.Steps; step++)
            {
                before = step == own.Lead ? column.UnmetMm : before;
                column.Step(own, step, water[step] * planted.ReachingShare);
                applied += step >= own.Lead ? water[step] : 0;
            }

            unmet += column.UnmetMm - before;
            demand += own.DemandMm;
        }

        return new WhatIfZone(
            controller.Name, planted.Station, planted.Name, planted.AreaM2, applied / all.Length, demand / all.Length, unmet / all.Length,
                QualityGoal.Of(planted.Quality).LeastUseMet);
    }
}
