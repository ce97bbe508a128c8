using Valvewright.Engine.Plants;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Needs;

/// <summary>What a zone wants: how much, how often, how long at a time.</summary>
public sealed record ZoneNeed
{
    /// <summary>The controller that waters it.</summary>
    public required string Controller { get; init; }

    /// <summary>The station that waters it.</summary>
    public required int Station { get; init; }

    /// <summary>The zone's name.</summary>
    public required string Zone { get; init; }

    /// <summary>How far along its planting is.</summary>
    public required PlantStage Stage { get; init; }

    /// <summary>Years of record behind the ranges.</summary>
    public required int Years { get; init; }

    /// <summary>Water that the root zone holds between field capacity and wilting point, mm.</summary>
    public required Figure StorageMm { get; init; }

    /// <summary>Water that may be used before the next watering, mm.</summary>
    public required Figure ReadilyMm { get; init; }

    /// <summary>
    /// "Every n days" that the root zone bears at the year's hardest time: from field capacity, no day between two waterings ends past
    /// allowed depletion. At least 1.
    /// </summary>
    public required YearRange LongestGapDays { get; init; }

    /// <summary>Where <see cref="LongestGapDays"/> comes from.</summary>
    public required Sentence LongestGapFrom { get; init; }

    /// <summary>Waterings a day that it needs at the year's hardest time: 1, but for seedbeds.</summary>
    public required Figure WateringsPerDay { get; init; }

    /// <summary>The least gross depth that does some good, mm.</summary>
    public required Figure ShortestUsefulMm { get; init; }

    /// <summary>The same as run time, s, rounded up.</summary>
    public required int ShortestUsefulSeconds { get; init; }

    /// <summary>The longest run before water runs off or a rule is broken, s, rounded down; null where nothing limits it.</summary>
    public required int? LongestCycleSeconds { get; init; }

    /// <summary>Where <see cref="LongestCycleSeconds"/> comes from.</summary>
    public required Sentence LongestCycleFrom { get; init; }

    /// <summary>How long the surface needs to drain after a longest cycle, s, rounded up; 0 where none is needed.</summary>
    public required int SoakSeconds { get; init; }

    /// <summary>Where <see cref="SoakSeconds"/> comes from.</summary>
    public required Sentence SoakFrom { get; init; }

    /// <summary>The most that a rule lets run in a day, s, rounded down; null where no rule does.</summary>
    public required int? LongestDaySeconds { get; init; }

    /// <summary>Gross over net: how much longer the zone must run so that its dry spots are served.</summary>
    public required Figure RunTimeMultiplier { get; init; }

    /// <summary>Gross depth that refills the root zone from allowed depletion, mm.</summary>
    public required Figure RefillMm { get; init; }

    /// <summary>Net water use on the hardest day of the year, 8 years in 10, mm/day.</summary>
    public required Figure PeakUseMm { get; init; }

    /// <summary>Gross depth of the week that asks most, 8 years in 10, mm.</summary>
    public required Figure PeakWeekMm { get; init; }

    /// <summary>The 52 weeks.</summary>
    public required ListOf<WeekDemand> Weeks { get; init; }

    /// <summary>The part of the year in which irrigation is asked for (a seedbed: while it is one); null when rain is enough all
    /// year.</summary>
    public required PeriodOfYear? Season { get; init; }

    /// <summary>Minimum water of a year (a seedbed: of its weeks), gross mm.</summary>
    public required YearRange LeastWaterMm { get; init; }
}
