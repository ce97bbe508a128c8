using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Weather;

/// <summary>One year of a record, from its first day to its last, both included.</summary>
/// <param name="From">1 January north of the equator, 1 July south of it.</param>
/// <param name="To">The day before the next year begins.</param>
public readonly record struct YearSpan(LocalDate From, LocalDate To)
{
    /// <summary>How a person says it: <c>2012</c>, or <c>2012/13</c> where the year begins in July.</summary>
    public string Name => From.Year == To.Year ? $"{From.Year}" : $"{From.Year}/{To.Year % 100:00}";

    /// <summary>Days of the year before that set how wet the soil is on the first day.</summary>
    private const int DaysBefore = 92;

    /// <summary>This year's days of a climate, with the last three months before them; where the record begins with the year, its own last
    /// months stand in.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The climate does not hold the whole year.</exception>
    public Climate Of(Climate climate)
    {
        ArgumentNullException.ThrowIfNull(climate);
        Climate year = climate.Between(From, To);
        LocalDate before = From.PlusDays(-DaysBefore);
        return year.Days <= DaysBefore
            ? year
            : new Climate(From, year.EtoMm, year.RainMm, year.MeanC, year.LeastC)
            {
                Before = climate.First <= before ? climate.Between(before, From.PlusDays(-1))
                    : Moved(year.Between(To.PlusDays(1 - DaysBefore), To), before),
            };
    }

    private static Climate Moved(Climate days, LocalDate first) => new(first, days.EtoMm, days.RainMm, days.MeanC, days.LeastC);
}

/// <summary>
/// The years that a plan is made with and the years, unseen by it, that it is proven on.
/// </summary>
/// <param name="Training">Years to plan with, by rising date; at least one.</param>
/// <param name="HeldBack">Years to prove on, by rising date; at least one.</param>
/// <param name="IsUnseen">True when no year is in both lists.</param>
/// <param name="Explanation">One sentence for the reader of a proof: which years are which, and why.</param>
public sealed record YearSplit(ListOf<YearSpan> Training, ListOf<YearSpan> HeldBack, bool IsUnseen, Sentence Explanation)
{
    /// <summary>From this many whole years on, some can be held back.</summary>
    public const int FewestYearsToSplit = 3;

    /// <summary>Every so many years is held back.</summary>
    public const int HeldBackEvery = 3;

    /// <summary>Fewer years than these make a short record: it can spare fewer to prove on, and its last year is planned with.</summary>
    public const int FewYears = 9;

    /// <summary>Older years than these say little of today's climate: thirty years make a normal (World Meteorological Organization,
    /// WMO-No. 1203).</summary>
    public const int MostYears = 30;

    /// <summary>
    /// Splits a climate into whole years: of the latest thirty, the last and every third before it are held back; of a short record, the
    /// last but one and every third before it. Alternating, rather than cutting the record in two, keeps a warming or wetter trend out of
    /// the comparison.
    /// </summary>
    /// <remarks>
    /// A part year at either end is left out. With fewer than three whole years all of them serve both purposes; with none,
    /// the whole record stands for a year; with none that is usable, all count. Each is said in <see cref="Explanation"/>.
    /// </remarks>
    /// <param name="climate">A climate without gaps.</param>
    /// <param name="latitudeDeg">South of the equator (negative) years begin on 1 July, so that a growing season is whole.</param>
    /// <param name="isUsable">False for a year that should count as absent, such as one that is mostly filled; null takes all.</param>
    /// <exception cref="ArgumentException">The climate has no days.</exception>
    public static YearSplit Of(Climate climate, double latitudeDeg, Func<YearSpan, bool>? isUsable = null)
    {
        ArgumentNullException.ThrowIfNull(climate);
        if (climate.Days == 0)
        {
            throw new ArgumentException("A record without days cannot be split into years.", nameof(climate));
        }

        List<YearSpan> whole = [.. WholeYears(climate, latitudeDeg)];
        List<YearSpan> usable = [.. whole.Where(y => isUsable is null || isUsable(y))];
        Sentence caveat = usable.Count == 0 && whole.Count > 0 ? " Every year of the record is largely filled." : (Sentence)"";
        List<YearSpan> years = [.. (usable.Count == 0 ? whole : usable).TakeLast(MostYears)];
        if (years.Count == 0)
        {
            YearSpan all = new(climate.First, climate.Last);
            return new([all], [all], false,
                $"The record holds no whole year ({climate.First:uuuu-MM-dd} to {climate.Last:uuuu-MM-dd}): planned and proven on the same days.");
        }

        ListOf<YearSpan> every = years.ToListOf();
        if (years.Count < FewestYearsToSplit)
        {
            return new(every, every, false, years.Count == 1
                ? (Sentence)$"Only 1 whole year of record ({Names(every)}): planned and proven on the same days.{caveat}"
                : (Sentence)$"Only {years.Count} whole years of record ({Names(every)}): planned and proven on the same days.{caveat}");
        }

        ListOf<YearSpan> training = years.Where((_, i) => !IsHeldBack(years.Count, i)).ToListOf();
        ListOf<YearSpan> heldBack = years.Where((_, i) => IsHeldBack(years.Count, i)).ToListOf();
        return new(training, heldBack, true, heldBack.Count == 1
            ? (Sentence)$"Planned with {training.Count} years ({Names(training)}), proven on 1 other ({Names(heldBack)}).{caveat}"
            : (Sentence)$"Planned with {training.Count} years ({Names(training)}), proven on {heldBack.Count} others ({Names(heldBack)}).{caveat}");
    }

    private static bool IsHeldBack(int count, int year) => (count - 1 - year) % HeldBackEvery == (count < FewYears ? 1 : 0);

    private static IEnumerable<YearSpan> WholeYears(Climate climate, double latitudeDeg)
    {
        int firstMonth = latitudeDeg < 0 ? 7 : 1;
        for (LocalDate from = new(climate.First.Year, firstMonth, 1); from <= climate.Last; from = from.PlusYears(1))
        {
            YearSpan year = new(from, from.PlusYears(1).PlusDays(-1));
            if (year.From >= climate.First && year.To <= climate.Last)
            {
                yield return year;
            }
        }
    }

    private static string Names(ListOf<YearSpan> years) =>
        years.Count <= 6 ? string.Join(", ", years.Select(y => y.Name)) : $"{years[0].Name}, {years[1].Name} ... {years[^1].Name}";
}
