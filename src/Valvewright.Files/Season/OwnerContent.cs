using NodaTime;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Files.Season;

/// <summary>What the owner's page says.</summary>
/// <param name="Site">The site's name.</param>
/// <param name="Units">Its units.</param>
/// <param name="SeasonVisits">How many visits a year has, but for those that are only there for a seedbed.</param>
/// <param name="Visits">All visits, by date.</param>
/// <param name="Controllers">The controllers, in the plan's order.</param>
/// <param name="Year">Water week by week.</param>
/// <param name="Years">How many years that is the mean of.</param>
/// <param name="Ways">This plan first, then the ways of watering beside it.</param>
/// <param name="LeastM3">Least possible water, m3 a year.</param>
/// <param name="Adequacy">The part of the plants' demand that was met, mean of the zones by area.</param>
public sealed record OwnerContent(
    string Site, UnitSystem Units, int SeasonVisits, ListOf<OwnerVisit> Visits, ListOf<string> Controllers, YearOfWater Year, int Years,
        ListOf<OwnerWay> Ways, double LeastM3, double Adequacy)
{
    /// <summary>Visits at which other programs are set beside the percent.</summary>
    public ListOf<AnnualDate> ProgramChanges { get; init; } = [];

    /// <summary>Gathers it.</summary>
    /// <param name="site">The site.</param>
    /// <param name="plan">The plan with its visits.</param>
    /// <param name="years">The years that the proof was made on.</param>
    /// <param name="proof">The proof, its comparison with this plan first.</param>
    public static OwnerContent Of(Site site, Plan plan, IReadOnlyList<Climate> years, ProofReport proof)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(years);
        ArgumentNullException.ThrowIfNull(proof);
        Practice[] all = [.. proof.Comparison];

        // The practices are the last two; what is between is this plan at one percent.
        OwnerWayKind KindOf(int i) => i == 0 ? OwnerWayKind.ThisPlan
            : i == all.Length - 2 ? OwnerWayKind.PeakAllYear
            : i == all.Length - 1 ? OwnerWayKind.EveryMonth
            : OwnerWayKind.OnePercent;
        VisitDates dates = VisitDates.Of(site, plan);
        return new OwnerContent(
            site.Name,
            site.Units,
            dates.Yearly.Count,
            dates.All
                .Select(d => new OwnerVisit(d, plan.Controllers.Select(c => c.Visits.FirstOrDefault(v => v.Date == d)?.Percent).ToListOf()))
                .ToListOf(),
            plan.Controllers.Select(c => c.Controller).ToListOf(),
            YearOfWater.Of(site, plan, years),
            years.Count,
            all.Select((p, i) => new OwnerWay(KindOf(i), p.CubicMetresPerYear, p.UseMet)).ToListOf(),
            all[0].MinimumCubicMetresPerYear,
            all[0].UseMet)
        {
            ProgramChanges = plan.Controllers
                .SelectMany(c => ProgramChange.ByVisit(c).Select((changes, v) => (c.Visits[v].Date, changes.Count)))
                .Where(v => v.Count > 0).Select(v => v.Date).Distinct().Order().ToListOf(),
        };
    }
}

/// <summary>One visit.</summary>
/// <param name="Date">Its date.</param>
/// <param name="Percents">By controller; null where that controller is left as it is.</param>
public sealed record OwnerVisit(AnnualDate Date, ListOf<int?> Percents);

/// <summary>One way of watering.</summary>
/// <param name="Kind">Which.</param>
/// <param name="WaterM3">Water per year, m3.</param>
/// <param name="UseMet">The part of the plants' use that is met.</param>
public sealed record OwnerWay(OwnerWayKind Kind, double WaterM3, double UseMet);

/// <summary>The ways of watering that the page compares.</summary>
public enum OwnerWayKind
{
    /// <summary>The plan with its visits.</summary>
    ThisPlan,

    /// <summary>The same programs at one percent.</summary>
    OnePercent,

    /// <summary>The setting of the month that asks most, kept all year.</summary>
    PeakAllYear,

    /// <summary>A percent set every month from mean ETo.</summary>
    EveryMonth,
}
