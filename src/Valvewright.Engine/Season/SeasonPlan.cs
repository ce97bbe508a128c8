using System.Text.Json.Serialization;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Season;

/// <summary>The visits of a year and the percent to set at each.</summary>
public sealed record SeasonPlan
{
    /// <summary>A season must save this part of the cost to count as better.</summary>
    private const double LeastGain = 1e-6;

    /// <summary>The visits, by date from the beginning of the year (1 January, or 1 July south of the equator).</summary>
    public required ListOf<AnnualDate> Dates { get; init; }

    /// <summary>One entry a controller, with a percent for each visit; 0 means off.</summary>
    public required ListOf<ControllerSeason> Controllers { get; init; }

    /// <summary>Water and weighed stress under the aim, over the years it was chosen with.</summary>
    public required double CostLitres { get; init; }

    /// <summary>
    /// What no season with as many visits on the same possible days can go below; null where the aim is not the mean year.
    /// </summary>
    public required double? BoundLitres { get; init; }

    /// <summary>How far above the bound it is, as a part of the bound; null without a bound.</summary>
    public double? Gap => BoundLitres is > 0 and { } bound ? (CostLitres - bound) / bound : null;

    /// <summary>Mean water of a year, m3.</summary>
    public required double WaterM3 { get; init; }

    /// <summary>Least possible water of a year, m3, mean of the same years.</summary>
    public required double LeastM3 { get; init; }

    /// <summary>Water over least possible water; NaN where none is needed.</summary>
    public double WaterRatio => LeastM3 > 0 ? WaterM3 / LeastM3 : double.NaN;

    /// <summary>Stress days of a year, mean over spots, zones by area, and years.</summary>
    public required double StressDays { get; init; }

    /// <summary>
    /// Under a limit of stress: the water of a mean year, m3, below which no season of as many visits on the same possible days keeps to the limit; else null.
    /// </summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? LeastWithinStressM3 { get; init; }

    /// <summary>
    /// Under a limit of water: the stress days of a mean year below which no season of as many visits on the same possible days keeps to the limit; else null.
    /// </summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? LeastStressDaysWithinWater { get; init; }

    /// <summary>Where asked for: the stress days of a year that such a season has in years that it was not chosen with (found by leaving years out); else null.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? UnseenStressDays { get; init; }

    /// <summary>Settings that the visits key in beside the percents, a year.</summary>
    public int KeyedSettings { get; init; }

    /// <summary>Where visits change programs: the best season of percents alone, to compare with; else null.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public PercentsAlone? PercentsAlone { get; init; }

    /// <summary>How it was asked for.</summary>
    public required SeasonOptions Options { get; init; }

    /// <summary>By cost; under a limit, whose weights differ from season to season, first by what lies beyond it, then by the other of water and stress.</summary>
    public bool IsBetterThan(SeasonPlan other)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (Options.MostWaterM3 is { } water)
        {
            double over = Math.Max(0, WaterM3 - water), otherOver = Math.Max(0, other.WaterM3 - water);
            return over < otherOver || (over <= otherOver && StressDays < other.StressDays - LeastGain);
        }

        if (Options.MostStressDays is not { } most)
        {
            return CostLitres < other.CostLitres * (1 - LeastGain);
        }

        double beyond = Math.Max(0, StressDays - most), otherBeyond = Math.Max(0, other.StressDays - most);
        return beyond < otherBeyond || (beyond <= otherBeyond && WaterM3 < other.WaterM3 * (1 - LeastGain));
    }

    /// <summary>The plan with these visits.</summary>
    public Plan ApplyTo(Plan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return plan with
        {
            Controllers = plan.Controllers
                .Select(c => Controllers.FirstOrDefault(s => s.Controller == c.Controller) is { } own ? VisitedBy(own, c) : c)
                .ToListOf(),
        };
    }

    private ControllerPlan VisitedBy(ControllerSeason own, ControllerPlan plan)
    {
        // Programs that are other ones all year are simply the plan's.
        ListOf<Program>? steady = own.Programs.Count(p => p.Count > 0) == 1 ? own.Programs.Single(p => p.Count > 0) : null;
        ListOf<Program>? At(int visit) => steady is not null || own.Programs.Count == 0 || own.Programs[visit].Count == 0 ? null : own.Programs[visit];
        return plan with
        {
            Settings = steady is null ? plan.Settings : plan.Settings with { Programs = steady },
            Visits = Dates.Select((date, v) => new Visit(date, own.Percents[v], At(v))).OrderBy(v => v.Date).ToListOf(),
        };
    }
}

/// <summary>What one controller is left at, visit by visit.</summary>
/// <param name="Controller">Its name.</param>
/// <param name="Percents">The percent from each visit on; 0 means off.</param>
public sealed record ControllerSeason(string Controller, ListOf<int> Percents)
{
    /// <summary>
    /// By visit, all programs from then on where it keys in other ones, empty where they stay as they are; empty where no visit does. Where one visit alone
    /// has some, they hold all year.
    /// </summary>
    public ListOf<ListOf<Program>> Programs { get; init; } = [];
}

/// <summary>The best season of as many visits that set the percent alone.</summary>
/// <param name="CostLitres">Water and weighed stress.</param>
/// <param name="WaterM3">Mean water of a year.</param>
/// <param name="StressDays">Stress days of a year.</param>
public sealed record PercentsAlone(double CostLitres, double WaterM3, double StressDays);
