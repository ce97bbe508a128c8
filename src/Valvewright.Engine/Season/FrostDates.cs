using NodaTime;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Season;

/// <summary>When to shut a site down before frost and when to start it up after, by the years of record.</summary>
/// <param name="ShutDown">The last date that is ahead of the first hard frost of autumn in <paramref name="ShutDownYears"/> of the
/// years.</param>
/// <param name="ShutDownYears">At least <see cref="Share"/> of the years.</param>
/// <param name="StartUp">The first date after the last hard frost of spring in <paramref name="StartUpYears"/> of the years.</param>
/// <param name="StartUpYears">At least <see cref="Share"/> of the years.</param>
/// <param name="Years">How many years.</param>
public sealed record FrostDates(AnnualDate ShutDown, int ShutDownYears, AnnualDate StartUp, int StartUpYears, int Years)
{
    /// <summary>Hard frost, degrees C: 28 °F (common practice; the US weather service's word is hard freeze).</summary>
    public const double HardFrostC = -2.2;

    /// <summary>The share of years that dates are to fit.</summary>
    public const double Share = 0.9;

    private const int HalfYear = 183;

    /// <summary>The dates for whole years that begin in midwinter; null where fewer than half of them have hard frost at both ends, or
    /// where temperatures are not known.</summary>
    /// <param name="years">Whole years: from 1 January, or 1 July south of the equator.</param>
    public static FrostDates? Of(IReadOnlyList<Climate> years)
    {
        ArgumentNullException.ThrowIfNull(years);
        if (years.Count == 0 || years.Any(y => y.LeastC is null || y.Days < 365))
        {
            return null;
        }

        // A year without frost at an end fits any date there.
        int[] last = [.. years.Select(y => Array.FindLastIndex(y.LeastC!, HalfYear - 1, IsHard)).Order()];
        int[] first = [.. years.Select(y => Array.FindIndex(y.LeastC!, HalfYear, IsHard)).Select(d => d < 0 ? int.MaxValue : d)
            .OrderDescending()];
        int fitted = (int)Math.Ceiling(Share * years.Count), half = (years.Count + 1) / 2;
        if (last.Count(d => d >= 0) < half || first.Count(d => d < int.MaxValue) < half
            || last[fitted - 1] < 0 || first[fitted - 1] == int.MaxValue)
        {
            return null;
        }

        int startUp = last[fitted - 1] + 1, shutDown = first[fitted - 1] - 1;
        return new FrostDates(
            DateOf(years[0], shutDown), first.Count(d => d > shutDown), DateOf(years[0], startUp), last.Count(d => d < startUp),
                years.Count);
    }

    private static bool IsHard(double leastC) => leastC <= HardFrostC;

    private static AnnualDate DateOf(Climate year, int day) => year.DateOf(day) is var date && (date.Month, date.Day) == (2, 29)
        ? new AnnualDate(2, 28) : new AnnualDate(date.Month, date.Day);
}
