using NodaTime;

namespace Valvewright.Engine.Weather.Gaps;

/// <summary>
/// Puts rain where none was measured: that of the same dates in the year whose rain on them is the median of all years that
/// have them complete.
/// </summary>
/// <remarks>
/// A mean spread over every day would be a drizzle that no root zone ever sees; a real year keeps the wet and dry spells. For a
/// day or two the median is nearly always dry, which errs on the side of watering. Runs are cut at month ends, so that a long
/// one need not find a single year that has all of it.
/// </remarks>
internal static class RainFill
{
    /// <summary>Fills every NaN of the series.</summary>
    public static void Fill(LocalDate first, double[] rainMm, GapCollector gaps)
    {
        double[] measured = [.. rainMm];
        foreach ((int start, int length) in Series.Runs(measured))
        {
            int day = start;
            while (day < start + length)
            {
                LocalDate date = first.PlusDays(day);
                int toMonthEnd = date.Calendar.GetDaysInMonth(date.Year, date.Month) - date.Day + 1;
                int days = Math.Min(toMonthEnd, start + length - day);
                FillPart(first, measured, rainMm, day, days, gaps);
                day += days;
            }
        }
    }

    private static void FillPart(LocalDate first, double[] measured, double[] rainMm, int start, int length, GapCollector gaps)
    {
        double[]? donor = MedianYear(first, measured, start, length);
        for (int i = 0; i < length; i++)
        {
            rainMm[start + i] = donor?[i] ?? 0;
            gaps.Add(WeatherVariable.Rain, start + i, donor is null ? FillMethod.TakenAsNone : FillMethod.MedianYear);
        }
    }

    private static double[]? MedianYear(LocalDate first, double[] measured, int start, int length)
    {
        LocalDate from = first.PlusDays(start);
        LocalDate last = first.PlusDays(measured.Length - 1);
        List<double[]> donors = [];
        for (int year = first.Year; year <= last.Year; year++)
        {
            double[] rain = [.. Enumerable.Range(0, length).Select(i => RainOn(from.PlusDays(i), year))];
            if (!rain.Any(double.IsNaN))
            {
                donors.Add(rain);
            }
        }

        // Of an even number the drier of the middle two; the sort is stable, so that equal totals go by year.
        return donors.Count == 0 ? null : donors.OrderBy(r => r.Sum()).ElementAt((donors.Count - 1) / 2);

        double RainOn(LocalDate date, int year)
        {
            int day = Period.DaysBetween(first, date.PlusYears(year - date.Year));
            return day >= 0 && day < measured.Length ? measured[day] : double.NaN;
        }
    }
}
