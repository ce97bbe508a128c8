using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts.Ghcn;

/// <summary>
/// Rain that was measured once for several days (MDPR, with the number of days in DAPR). It is spread in equal parts over the days it
/// covers that have no rain of their own. Where DAPR is missing, it covers its own day and the days without rain right before it.
/// </summary>
internal sealed class MultiDayTotals
{
    /// <summary>Longer waits between two readings are gaps in the record, not one reading.</summary>
    public const int LongestDays = 31;

    private readonly SortedDictionary<LocalDate, double> totalsMm = [];
    private readonly Dictionary<LocalDate, int> daysCovered = [];

    public void AddTotal(LocalDate date, double mm) => totalsMm[date] = mm;

    public void AddDays(LocalDate date, int days) => daysCovered[date] = days;

    /// <summary>Spreads the totals, once everything has been read.</summary>
    public void Spread(ReadingJob job)
    {
        int spread = 0, daysFilled = 0, unused = 0;
        LocalDate first = FirstDate(job.Days);
        foreach ((LocalDate date, double mm) in totalsMm)
        {
            List<LocalDate> covered = Covered(job.Days, date, first);
            if (covered.Count == 0 || !Plausible.Holds(Quantity.RainMm, mm))
            {
                unused++;
                continue;
            }

            foreach (LocalDate day in covered)
            {
                job.Days.Set(job.Days.RowOf(day), Quantity.RainMm, mm / covered.Count);
            }

            spread++;
            daysFilled += covered.Count;
        }

        if (spread > 0)
        {
            job.Assumed($"{spread} multi-day totals of rain spread in equal parts over the {daysFilled} days they cover.");
        }

        if (unused > 0)
        {
            job.Warn($"{unused} multi-day totals of rain left out: it is not known which days they cover.");
        }
    }

    private List<LocalDate> Covered(DayTable days, LocalDate date, LocalDate first)
    {
        bool counted = daysCovered.TryGetValue(date, out int count);
        if (HasRain(days, date) || (counted && count is < 1 or > LongestDays))
        {
            return [];
        }

        List<LocalDate> covered = [date];
        for (int back = 1; counted ? back < count : back <= LongestDays; back++)
        {
            LocalDate day = date.PlusDays(-back);
            if (HasRain(days, day))
            {
                if (counted)
                {
                    continue;
                }

                return covered;
            }

            if (!counted && (day < first || back == LongestDays))
            {
                return day < first ? covered : [];
            }

            covered.Add(day);
        }

        return covered;
    }

    private static bool HasRain(DayTable days, LocalDate date)
    {
        int row = days.Find(date);
        return row >= 0 && !double.IsNaN(days.Get(row, Quantity.RainMm));
    }

    private static LocalDate FirstDate(DayTable days)
    {
        LocalDate first = LocalDate.MaxIsoValue;
        for (int row = 0; row < days.Count; row++)
        {
            first = LocalDate.Min(first, days.DateOf(row));
        }

        return first;
    }
}
