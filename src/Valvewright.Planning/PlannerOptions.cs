using NodaTime;

namespace Valvewright.Planning;

/// <summary>What a plan is measured by; the defaults are explained in docs/planning.md.</summary>
public sealed record PlannerOptions
{
    /// <summary>Water that a plan may spend to save settings or come nearer to dawn, as a share of the least water found.</summary>
    public double WaterWorthFewerSettings { get; init; } = 0.005;

    /// <summary>Time kept between controllers that take turns on one supply: clocks drift between visits.</summary>
    public int GuardSeconds { get; init; } = 120;

    /// <summary>The first date the plan is in force, from which intervals are counted; null: the 1 January after the last training
    /// year.</summary>
    public LocalDate? InForceFrom { get; init; }

    /// <summary>Longest interval considered, in days.</summary>
    public int LongestIntervalDays { get; init; } = 30;

    /// <summary>
    /// The percent that a season sets on a date, by controller: run times and programs are then chosen for it. Null, or null for a
    /// controller: as if every zone could have a percent of its own every month.
    /// </summary>
    public Func<string, LocalDate, double?>? PercentOn { get; init; }

    /// <summary>Only programs are wanted, for a season to begin with: dates and start times do not matter.</summary>
    internal bool WithoutHours { get; init; }

    /// <summary>
    /// Effort the solver may spend on one supply, in the solver's deterministic seconds (counted work, not clock time, so
    /// that a busy machine finds the same plan).
    /// </summary>
    public double EffortSeconds { get; init; } = 8;

    /// <summary>How many sets of programs are tried before the search for hours that fit them is given up.</summary>
    public int MostProgramTrials { get; init; } = 24;

    /// <summary>Of permitted hours over midnight on some dates only, those alone that are permitted by either reading of the
    /// rule.</summary>
    internal bool BothReadings { get; init; }

    /// <summary>
    /// The part of a tank's room, and of a pump's starts, that the plan counts on: less where the proof showed that all of it is not there
    /// at the hours that were chosen. 0: tank and pump are not looked at.
    /// </summary>
    public double StorageShare { get; init; } = 1;

    /// <summary>Only whether there is a plan is asked, not which is best: the least water and the first start times found will
    /// do.</summary>
    internal bool OnlyWhether { get; init; }
}
