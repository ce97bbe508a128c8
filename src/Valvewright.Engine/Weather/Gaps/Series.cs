using NodaTime;

namespace Valvewright.Engine.Weather.Gaps;

/// <summary>Ways to fill a daily series in which NaN stands for "not known".</summary>
internal static class Series
{
    /// <summary>Days on either side of a day of the year that count as the same time of year.</summary>
    public const int TimeOfYearReach = 7;

    // A mean of fewer values than this says little about a time of year; a line across the gap says as much.
    private const int FewestForMean = 8;
    private const int DaysOfYear = 366;

    /// <summary>Runs of NaN as (first, length).</summary>
    public static List<(int Start, int Length)> Runs(ReadOnlySpan<double> values)
    {
        List<(int, int)> runs = [];
        for (int day = 0; day < values.Length; day++)
        {
            int start = day;
            while (day < values.Length && double.IsNaN(values[day]))
            {
                day++;
            }

            if (day > start)
            {
                runs.Add((start, day - start));
            }
        }

        return runs;
    }

    /// <summary>The value on a straight line between the known days around a run; at an end of the series the nearest known
    /// value.</summary>
    public static double OnLine(ReadOnlySpan<double> values, int start, int length, int day)
    {
        int before = start - 1;
        int after = start + length;
        if (before < 0)
        {
            return after < values.Length ? values[after] : double.NaN;
        }

        if (after >= values.Length)
        {
            return values[before];
        }

        double part = (double)(day - before) / (after - before);
        return values[before] + part * (values[after] - values[before]);
    }

    /// <summary>Mean by day of the year (index 1 to 366) over a window of fifteen days; NaN where the record says too little.</summary>
    public static double[] TimeOfYearMeans(LocalDate first, ReadOnlySpan<double> values)
    {
        double[] sums = new double[DaysOfYear + 1];
        int[] counts = new int[DaysOfYear + 1];
        LocalDate date = first;
        foreach (double value in values)
        {
            if (!double.IsNaN(value))
            {
                sums[date.DayOfYear] += value;
                counts[date.DayOfYear]++;
            }

            date = date.PlusDays(1);
        }

        double[] means = new double[DaysOfYear + 1];
        means[0] = double.NaN;
        for (int dayOfYear = 1; dayOfYear <= DaysOfYear; dayOfYear++)
        {
            double sum = 0;
            int count = 0;
            for (int shift = -TimeOfYearReach; shift <= TimeOfYearReach; shift++)
            {
                int near = (dayOfYear - 1 + shift + DaysOfYear) % DaysOfYear + 1;
                sum += sums[near];
                count += counts[near];
            }

            means[dayOfYear] = count < FewestForMean ? double.NaN : sum / count;
        }

        return means;
    }
}
