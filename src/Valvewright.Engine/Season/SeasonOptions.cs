using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Season;

/// <summary>How a season is to be planned.</summary>
public sealed record SeasonOptions
{
    /// <summary>Visits a year, 1 to 12; winter shutdown and spring start are visits too.</summary>
    public int Visits { get; init; } = 4;

    /// <summary>What is made least; null: water plus the site's own weight of unmet use.</summary>
    public Goal? Goal { get; init; }

    /// <summary>Standard deviations by which years not seen may be harder than those known, with every zone still having the use that it
    /// must have met.</summary>
    public double Prudence { get; init; } = 1;

    /// <summary>The fewest days between two visits.</summary>
    public int LeastDaysBetween { get; init; } = 14;

    /// <summary>The year whose calendar decides weekdays; null where none matter.</summary>
    public int? Year { get; init; }

    /// <summary>Days of the week on which visits can be made; empty: any. Needs <see cref="Year"/>.</summary>
    public ListOf<IsoDayOfWeek> OnlyOn { get; init; } = [];

    /// <summary>Times of the year without visits.</summary>
    public ListOf<PeriodOfYear> NotIn { get; init; } = [];

    /// <summary>Visits only on the first seven days of a month.</summary>
    public bool OnlyFirstWeekOfMonth { get; init; }

    /// <summary>Visits that are agreed already; they count among the visits.</summary>
    public ListOf<AnnualDate> Agreed { get; init; } = [];

    /// <summary>A winter shutdown on fixed dates; its two visits count among the visits. Null: when it is off is found like all
    /// else.</summary>
    public Shutdown? Shutdown { get; init; }

    /// <summary>How many threads share the work; the result does not depend on it.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;
}

/// <summary>A winter shutdown: two visits on fixed dates, off between them.</summary>
/// <param name="Off">The visit that turns controllers off.</param>
/// <param name="On">The visit that turns them on again.</param>
public sealed record Shutdown(AnnualDate Off, AnnualDate On);
