using NodaTime;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Season;

/// <summary>How a season is to be planned.</summary>
public sealed record SeasonOptions
{
    /// <summary>What one day at wilting, over a whole zone, weighs against water over it, mm, unless the person says otherwise.</summary>
    public const double UsualStressWeightMm = 150;

    /// <summary>What a keyed setting must save unless the person says otherwise, L a year: it costs a minute, and may be keyed in wrong.</summary>
    public const double UsualSettingWorthLitres = 500;

    /// <summary>Visits a year, 1 to 12; winter shutdown and spring start are visits too.</summary>
    public int Visits { get; init; } = 4;

    /// <summary>
    /// The exchange rate between stress and water: the depth of water, mm, that one stress day weighs. A stress day is a day with the
    /// whole zone at wilting, or two days half way from allowed depletion to wilting. The larger, the more stress comes first.
    /// </summary>
    public double StressWeightMm { get; init; } = UsualStressWeightMm;

    /// <summary>
    /// Instead of an exchange rate: the most stress days a year that are borne, mean over the years it is chosen with. The exchange rate
    /// that gives the least water within it is then found; null where <see cref="StressWeightMm"/> holds.
    /// </summary>
    public double? MostStressDays { get; init; }

    /// <summary>
    /// Whether <see cref="MostStressDays"/> is meant for years that the season was not chosen with: what such years suffer is found by leaving out a
    /// part of the years at a time, and the limit for the years that are known is lowered accordingly.
    /// </summary>
    public bool StressOfUnseenYears { get; init; }

    /// <summary>
    /// Instead of an exchange rate: the water of a mean year that there is, m3, for the controllers that the season is planned for. The season of least stress within it is
    /// found; null where it is not limited. Not together with <see cref="MostStressDays"/>.
    /// </summary>
    public double? MostWaterM3 { get; init; }

    /// <summary>For which share of years the season is chosen.</summary>
    public SeasonAim Aim { get; init; } = SeasonAim.MeanYear;

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

    /// <summary>A winter shutdown on fixed dates; its two visits count among the visits. Null: when it is off is found like all else.</summary>
    public Shutdown? Shutdown { get; init; }

    /// <summary>
    /// Whether visits may change programs beside the percent: fewer water days for one of them, or none. A percent scales all programs alike.
    /// </summary>
    public bool ProgramChanges { get; init; }

    /// <summary>What one setting that a visit keys in beside the percent must save in a year, L of water (or stress at its weight), to be worth it.</summary>
    public double SettingWorthLitres { get; init; } = UsualSettingWorthLitres;

    /// <summary>Whether percents above 100 may be set, where the plan keeps every rule at them.</summary>
    public bool AboveFull { get; init; }

    /// <summary>
    /// Whether to work out the nearer bound, which knows for how long the percent before each stretch had been set. It takes a few
    /// seconds a zone.
    /// </summary>
    public bool NearBound { get; init; }

    /// <summary>How many threads share the work; the result does not depend on it.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;
}

/// <summary>A winter shutdown: two visits on fixed dates, off between them.</summary>
/// <param name="Off">The visit that turns controllers off.</param>
/// <param name="On">The visit that turns them on again.</param>
public sealed record Shutdown(AnnualDate Off, AnnualDate On);

/// <summary>For which share of years a season is chosen.</summary>
public enum SeasonAim
{
    /// <summary>Least cost in the mean of the years.</summary>
    MeanYear,

    /// <summary>Least cost of what 8 years in 10 do not exceed.</summary>
    EightYearsInTen,

    /// <summary>Least cost in the worst year of record.</summary>
    WorstYear,
}
