using NodaTime;
using Valvewright.Engine.Season;
using Valvewright.Engine.Values;

namespace Valvewright.Records.Jobs;

/// <summary>When visits can be made, and what counts; what is not given is as <see cref="SeasonOptions"/> has it.</summary>
/// <param name="OnlyOn">Days of the week on which visits can be made.</param>
/// <param name="NotIn">Times of the year without visits; a month is one of them.</param>
/// <param name="OnlyFirstWeekOfMonth">Visits only on the first seven days of a month.</param>
/// <param name="Agreed">Visits that are agreed already; they count among the visits.</param>
/// <param name="LeastDaysBetween">The fewest days between two visits.</param>
/// <param name="UnmetWeight">What 1 mm of use weighs at normal quality, mm of water.</param>
/// <param name="MostUnmet">Instead: the largest part of the use that may stay unmet, above 0 and below 1.</param>
/// <param name="MostWaterM3">Instead: the most water of a mean year, m3; the least unmet use within it is found.</param>
/// <param name="Shutdown">A winter shutdown on fixed dates; its two visits count among the visits.</param>
public sealed record SeasonWishes(
    ListOf<IsoDayOfWeek>? OnlyOn = null, ListOf<PeriodOfYear>? NotIn = null, bool? OnlyFirstWeekOfMonth = null,
        ListOf<AnnualDate>? Agreed = null,
    int? LeastDaysBetween = null, double? UnmetWeight = null, double? MostUnmet = null, double? MostWaterM3 = null,
        Shutdown? Shutdown = null)
{
    /// <summary>Limits that exclude each other and are both given, by the names of their members; null where none do.</summary>
    public (string First, string Second)? Contradiction
    {
        get
        {
            string[] given = [.. new[]
                { (UnmetWeight, nameof(UnmetWeight)), (MostUnmet, nameof(MostUnmet)), (MostWaterM3, nameof(MostWaterM3)) }
                .Where(g => g.Item1 is not null).Select(g => g.Item2)];
            return given.Length > 1 ? (given[0], given[1]) : null;
        }
    }

    /// <summary>The options that they stand for: the one place where limits and preferences are read, no matter who asks.</summary>
    /// <param name="visits">Visits a year.</param>
    /// <param name="year">The year whose calendar decides weekdays.</param>
    public SeasonOptions ToOptions(int visits, int year)
    {
        SeasonOptions usual = new();
        return usual with
        {
            Visits = visits,
            OnlyOn = OnlyOn ?? usual.OnlyOn,
            NotIn = NotIn ?? usual.NotIn,
            OnlyFirstWeekOfMonth = OnlyFirstWeekOfMonth ?? usual.OnlyFirstWeekOfMonth,
            Agreed = Agreed ?? usual.Agreed,
            LeastDaysBetween = LeastDaysBetween ?? usual.LeastDaysBetween,
            Goal = MostWaterM3 is { } water ? new Goal.WaterWithin(water)
                : MostUnmet is { } unmet ? new Goal.UnmetWithin(unmet)
                : UnmetWeight is { } weight ? new Goal.Weigh(weight)
                : null,
            Shutdown = Shutdown,
            Year = year,
        };
    }
}
