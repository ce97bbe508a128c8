using Valvewright.Engine.Survey;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Weather.Gaps;

/// <summary>What shows only over many days: a stuck wind gauge, a pyranometer or humidity sensor that drifts, humidity in the wrong
/// unit.</summary>
public static class WholeRecord
{
    /// <summary>Humidity that never passes this on any day of a record is a fraction, not a percent.</summary>
    public const double HighestFraction = 1.5;

    // A desert's lowest humidity may be 1 percent on a day; a month of that is no weather.
    private const int DaysThatShowLowestHumidity = 30;

    // Six stations, 68,000 days: never more than two days without any wind, six days with the same mean to a tenth.
    private const int DaysWithoutWind = 4;
    private const int DaysOfSameWind = 10;
    private const double NoWindMs = 0.05;

    // The mean of a year's clearest twenty days, by station and year: 0.82 (Moore Park 2008) to 1.05, and 1.07 and 1.09 where a sensor
    // drifted.
    private const int DaysOfYear = 300;
    private const int ClearestDays = 20;
    private const double LeastOfClearSky = 0.80;
    private const double MostOfClearSky = 1.06;

    // The dampest percent of a year's days comes near 100 wherever dew forms; drier deserts are questioned in vain.
    private const int DampestDays = 4;
    private const double LeastDampest = 95;

    /// <summary>Whether relative humidity is written as a fraction (0.93) and not in percent (93).</summary>
    public static bool HasHumidityAsFraction(IReadOnlyCollection<DailyWeather> days)
    {
        ArgumentNullException.ThrowIfNull(days);
        double[] telling = [.. days.SelectMany(d => new[] { d.RhMaxPercent, d.RhMeanPercent }).Where(h => h > 0)];
        double[] lowest = telling.Length > 0 ? [] : [.. days.Select(d => d.RhMinPercent).Where(h => h > 0)];
        return (telling.Length > 0 && telling.Max() <= HighestFraction)
            || (lowest.Length >= DaysThatShowLowestHumidity && lowest.Max() <= HighestFraction);
    }

    /// <summary>Takes out the wind of a gauge that does not turn, and questions one that does not change.</summary>
    internal static void ScreenWind(DailyWeather[] days, List<WeatherQuestion> questions)
    {
        for (int from = 0, to; from < days.Length; from = to)
        {
            double wind = days[from].WindMs;
            for (to = from + 1; to < days.Length && IsSame(days[to].WindMs, wind); to++)
            {
            }

            bool still = wind < NoWindMs && to - from >= DaysWithoutWind;
            if (!still && !(wind >= NoWindMs && to - from >= DaysOfSameWind))
            {
                continue;
            }

            for (int day = from; day < to; day++)
            {
                Sentence expected = still ? $"some wind within {DaysWithoutWind} days"
                    : (Sentence)$"another wind within {DaysOfSameWind} days";
                questions.Add(new(days[day].Date, WeatherVariable.Wind, WeatherFault.WindStuck,
                    $"{wind:0.##} m/s on {to - from} days in a row", expected, Refused: still));
                days[day] = still ? days[day] with { WindMs = double.NaN } : days[day];
            }
        }
    }

    /// <summary>Questions the years in which a sensor reads high or low throughout.</summary>
    internal static void QuestionSensors(DailyWeather[] days, Place place, List<WeatherQuestion> questions)
    {
        foreach (IGrouping<int, DailyWeather> year in days.GroupBy(d => d.Date.Year))
        {
            double[] ofClearSky = [.. year.Where(d => !double.IsNaN(d.RadiationMjM2)).Select(d => d.RadiationMjM2 / ClearSky(d, place))
                .Where(double.IsFinite).OrderDescending()];
            if (ofClearSky.Length >= DaysOfYear && ofClearSky.Take(ClearestDays).Average() is var clearest
                && clearest is < LeastOfClearSky or > MostOfClearSky)
            {
                Question(year, WeatherVariable.Radiation,
                    $"the {ClearestDays} clearest days of {year.Key} have {clearest:0.00} of clear sky",
                        $"{LeastOfClearSky:0.00} to {MostOfClearSky:0.00}; have the pyranometer checked");
            }

            double[] dampest = [.. year.Select(d => d.RhMaxPercent).Where(h => !double.IsNaN(h)).OrderDescending()];
            if (dampest.Length >= DaysOfYear && dampest.Take(DampestDays).Average() is var damp && damp < LeastDampest)
            {
                Question(year, WeatherVariable.Humidity, $"the {DampestDays} dampest days of {year.Key} reach {damp:0.#} percent",
                    $"about 100, at least {LeastDampest:0}; have the humidity sensor checked");
            }
        }

        void Question(IGrouping<int, DailyWeather> year, WeatherVariable variable, Sentence found, Sentence expected) =>
            questions.Add(new(year.First().Date, variable, WeatherFault.SensorDrift, found, expected, Refused: false));
    }

    private static bool IsSame(double one, double other) => one < NoWindMs ? other < NoWindMs : one == other;

    private static double ClearSky(DailyWeather day, Place place) =>
        Radiation.ClearSkySimple(SolarGeometry.ExtraterrestrialMjM2(place.LatitudeDeg, day.Date.DayOfYear), place.ElevationM);
}
