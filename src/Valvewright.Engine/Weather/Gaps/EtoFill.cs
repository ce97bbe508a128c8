using NodaTime;

namespace Valvewright.Engine.Weather.Gaps;

/// <summary>Puts reference ET where a day has too little to compute it: a line across a short gap, the mean of the time of year in a long
/// one.</summary>
internal static class EtoFill
{
    /// <summary>Days that a straight line may span; beyond, weather has forgotten what it was before.</summary>
    public const int LongestLine = 5;

    /// <summary>Fills every NaN of the series and says how in <paramref name="days"/>.</summary>
    public static void Fill(LocalDate first, double[] etoMm, DailyEto[] days, GapCollector gaps)
    {
        double[] known = [.. etoMm];
        double[] means = Series.TimeOfYearMeans(first, known);
        foreach ((int start, int length) in Series.Runs(known))
        {
            for (int day = start; day < start + length; day++)
            {
                double mean = means[first.PlusDays(day).DayOfYear];
                bool line = length <= LongestLine || double.IsNaN(mean);
                etoMm[day] = line ? Series.OnLine(known, start, length, day) : mean;
                days[day] = new(first.PlusDays(day), etoMm[day], line ? EtoMethod.Interpolated : EtoMethod.TimeOfYearMean);
                gaps.Add(WeatherVariable.ReferenceEvapotranspiration, day, line ? FillMethod.Interpolated : FillMethod.TimeOfYearMean);
            }
        }
    }
}
