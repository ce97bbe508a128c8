using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Season;

/// <summary>The visits of a year and the percent to set at each.</summary>
public sealed record SeasonPlan
{
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

    /// <summary>How it was asked for.</summary>
    public required SeasonOptions Options { get; init; }

    /// <summary>The plan with these visits.</summary>
    public Plan ApplyTo(Plan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return plan with
        {
            Controllers = plan.Controllers
                .Select(c => Controllers.FirstOrDefault(s => s.Controller == c.Controller) is { } own ? c with { Visits = VisitsOf(own) } : c)
                .ToListOf(),
        };
    }

    private ListOf<Visit> VisitsOf(ControllerSeason own) =>
        Dates.Select((date, v) => new Visit(date, own.Percents[v])).OrderBy(v => v.Date).ToListOf();
}

/// <summary>What one controller is left at, visit by visit.</summary>
/// <param name="Controller">Its name.</param>
/// <param name="Percents">The percent from each visit on; 0 means off.</param>
public sealed record ControllerSeason(string Controller, ListOf<int> Percents);
