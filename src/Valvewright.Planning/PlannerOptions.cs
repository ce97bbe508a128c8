using NodaTime;

namespace Valvewright.Planning;

/// <summary>What a plan is measured by; the defaults are explained in docs/planning.md.</summary>
public sealed record PlannerOptions
{
    /// <summary>
    /// Stress that isn't worth any water: spot-days a year past allowed depletion, each weighted by its depth
    /// (<see cref="Engine.Balance.ZoneOutcome.StressDays"/>). Below it plans are ranked by water alone.
    /// </summary>
    public double StressToleratedDaysPerYear { get; init; } = 1;

    /// <summary>Stress that no plan may exceed, in the same measure; above it the site counts as one that cannot be done.</summary>
    public double StressBearableDaysPerYear { get; init; } = 10;

    /// <summary>The share of training years in which the stress must stay within bounds: 0.8 is eight years in ten.</summary>
    public double ShareOfYearsKept { get; init; } = 0.8;

    /// <summary>Water that a plan may spend to save settings or come nearer to dawn, as a share of the least water found.</summary>
    public double WaterWorthFewerSettings { get; init; } = 0.005;

    /// <summary>Time kept between controllers that take turns on one supply: clocks drift between visits.</summary>
    public int GuardSeconds { get; init; } = 120;

    /// <summary>The first date the plan is in force, from which intervals are counted; null: the 1 January after the last training year.</summary>
    public LocalDate? InForceFrom { get; init; }

    /// <summary>Longest interval considered, in days.</summary>
    public int LongestIntervalDays { get; init; } = 30;

    /// <summary>
    /// The part of a run time that is set on a date, by controller: the percents of a season. Null, or null for a controller: all of it whenever
    /// the controller is on.
    /// </summary>
    public Func<string, LocalDate, double?>? ShareOn { get; init; }

    /// <summary>
    /// Effort the solver may spend on one supply, in the solver's deterministic seconds (counted work, not clock time, so
    /// that a busy machine finds the same plan).
    /// </summary>
    public double EffortSeconds { get; init; } = 8;

    /// <summary>How many sets of programs are tried before the search for hours that fit them is given up.</summary>
    public int MostProgramTrials { get; init; } = 24;

    /// <summary>Of permitted hours over midnight on some dates only, those alone that are permitted by either reading of the rule.</summary>
    internal bool BothReadings { get; init; }

    /// <summary>Only whether there is a plan is asked, not which is best: the least water and the first start times found will do.</summary>
    internal bool OnlyWhether { get; init; }
}
