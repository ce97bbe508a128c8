using NodaTime;
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

    /// <summary>Water and weighed unmet use of a mean year, over the years it was chosen with, L.</summary>
    public required double CostLitres { get; init; }

    /// <summary>What no season of as many visits on the same possible days goes below with these programs; null under a limit.</summary>
    public required double? BoundLitres { get; init; }

    /// <summary>How far above the bound it is, as a part of the bound; null without a bound.</summary>
    public double? Gap => BoundLitres is > 0 and { } bound ? (CostLitres - bound) / bound : null;

    /// <summary>Mean water of a year, m3.</summary>
    public required double WaterM3 { get; init; }

    /// <summary>Minimum water of a year, m3, mean of the same years.</summary>
    public required double MinimumM3 { get; init; }

    /// <summary>Water over minimum water; NaN where none is needed.</summary>
    public double WaterRatio => MinimumM3 > 0 ? WaterM3 / MinimumM3 : double.NaN;

    /// <summary>The part of the low quarters' use that is met, mean over zones by area and years.</summary>
    public required double UseMet { get; init; }

    /// <summary>What zones lack of the use that their quality asks for, L in a mean year; 0 where all have it.</summary>
    public required double ShortLitres { get; init; }

    /// <summary>How it was asked for.</summary>
    public required SeasonOptions Options { get; init; }

    /// <summary>First by what zones lack, then by what the goal makes least.</summary>
    public bool IsBetterThan(SeasonPlan other)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (Math.Abs(ShortLitres - other.ShortLitres) > LeastGain * Math.Max(1, other.CostLitres))
        {
            return ShortLitres < other.ShortLitres;
        }

        return Options.Goal switch
        {
            Goal.WaterWithin limit =>
                Better(Math.Max(0, WaterM3 - limit.CubicMeters), Math.Max(0, other.WaterM3 - limit.CubicMeters), -UseMet, -other.UseMet),
            Goal.UnmetWithin limit =>
                Better(Math.Max(0, 1 - UseMet - limit.Share), Math.Max(0, 1 - other.UseMet - limit.Share), WaterM3, other.WaterM3),
            _ => CostLitres < other.CostLitres * (1 - LeastGain),
        };

        static bool Better(double over, double otherOver, double least, double otherLeast) =>
            over < otherOver - LeastGain || (over <= otherOver + LeastGain && least < otherLeast - (LeastGain * Math.Abs(otherLeast)));
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

    /// <summary>A controller is visited where its percent changes; one that never changes keeps a single visit.</summary>
    private ControllerPlan VisitedBy(ControllerSeason own, ControllerPlan plan)
    {
        Visit[] all = [.. Dates.Select((date, v) => new Visit(date, own.Percents[v]))];
        Visit[] changes = [.. all.Where((visit, v) => visit.Percent != all[(v + all.Length - 1) % all.Length].Percent)];
        return plan with { Visits = (changes.Length > 0 ? changes : all[..1]).OrderBy(v => v.Date).ToListOf() };
    }
}

/// <summary>What one controller is left at, visit by visit.</summary>
/// <param name="Controller">Its name.</param>
/// <param name="Percents">The percent from each visit on; 0 means off.</param>
public sealed record ControllerSeason(string Controller, ListOf<int> Percents);
