using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Weather.Gaps;

/// <summary>A value that cannot be right, or hardly.</summary>
/// <param name="Date">Its day.</param>
/// <param name="Variable">What it claims to be.</param>
/// <param name="Found">The value, with its unit.</param>
/// <param name="Expected">What would be possible.</param>
/// <param name="Refused">True when it counts as not measured; false when it was used all the same.</param>
public sealed record WeatherQuestion(LocalDate Date, WeatherVariable Variable, string Found, string Expected, bool Refused);

/// <summary>
/// Looks at every value before it is used. What is physically impossible counts as not measured, what is merely unlikely is
/// used and questioned.
/// </summary>
/// <remarks>
/// Limits: air temperatures -90 to 60 degrees C and rain 1825 mm in a day lie beyond the records that the World Meteorological
/// Organization keeps; radiation cannot exceed that above the air; the rest is arithmetic. The limits of "unlikely" are common practice.
/// </remarks>
internal sealed class Screening(Place place, List<WeatherQuestion> questions)
{
    private const double ColdestC = -90;
    private const double HottestC = 60;
    private const double MostRainMm = 1900;
    private const double UnlikelyRainMm = 500;
    private const double StrongestWindMs = 75;

    // Humidity sensors read a little past 100 when wet; sunshine recorders a little past the day's length, clear skies a little past the formula's.
    private const double HumiditySlackPercent = 5;
    private const double SunshineSlackHours = 1;
    private const double DewPointSlackK = 1;

    /// <summary>The day with impossible values taken out.</summary>
    public DailyWeather Screen(DailyWeather day)
    {
        day = Temperatures(day);
        day = day with
        {
            RainMm = Within(day, WeatherVariable.Rain, day.RainMm, 0, MostRainMm, "mm of rain"),
            RhMaxPercent = Humidity(day, day.RhMaxPercent),
            RhMinPercent = Humidity(day, day.RhMinPercent),
            RhMeanPercent = Humidity(day, day.RhMeanPercent),
            VapourPressureKpa = Vapour(day),
            DewPointC = DewPoint(day),
            WindMs = Within(day, WeatherVariable.Wind, day.WindMs, 0, StrongestWindMs, "m/s of wind"),
            PublishedEtoMm = Within(day, WeatherVariable.ReferenceEvapotranspiration, day.PublishedEtoMm, -5, 30, "mm of ETo"),
        };
        if (day.RainMm > UnlikelyRainMm)
        {
            Question(day, WeatherVariable.Rain, $"{day.RainMm:0.#} mm of rain", $"seldom more than {UnlikelyRainMm:0} mm in a day", refused: false);
        }

        return Sun(day);
    }

    private DailyWeather Temperatures(DailyWeather day)
    {
        day = day with
        {
            TmaxC = Within(day, WeatherVariable.Temperature, day.TmaxC, ColdestC, HottestC, "degrees C"),
            TminC = Within(day, WeatherVariable.Temperature, day.TminC, ColdestC, HottestC, "degrees C"),
        };
        if (day.TmaxC < day.TminC)
        {
            Question(day, WeatherVariable.Temperature, $"highest {day.TmaxC:0.#}, lowest {day.TminC:0.#} degrees C", "a highest at or above the lowest", refused: true);
            day = day with { TmaxC = double.NaN, TminC = double.NaN };
        }

        return day;
    }

    private DailyWeather Sun(DailyWeather day)
    {
        if (double.IsNaN(day.RadiationMjM2) && double.IsNaN(day.SunshineHours))
        {
            return day;
        }

        double above = SolarGeometry.ExtraterrestrialMjM2(place.LatitudeDeg, day.Date.DayOfYear);
        double daylight = SolarGeometry.DaylightHours(place.LatitudeDeg, day.Date.DayOfYear);
        return day with
        {
            // The daily formulas put the sun out a few days early near the polar night, hence 1 MJ/m2 of slack.
            RadiationMjM2 = Within(day, WeatherVariable.Radiation, day.RadiationMjM2, 0, above + 1, "MJ/m2 of radiation"),
            SunshineHours = Math.Min(daylight, Within(day, WeatherVariable.Radiation, day.SunshineHours, 0, daylight + SunshineSlackHours, "hours of sunshine")),
        };
    }

    private double Humidity(DailyWeather day, double percent) =>
        Math.Min(100, Within(day, WeatherVariable.Humidity, percent, 0, 100 + HumiditySlackPercent, "percent humidity"));

    private double Vapour(DailyWeather day)
    {
        double most = double.IsNaN(day.TmaxC) ? Psychrometrics.SaturationKpa(HottestC) : 1.05 * Psychrometrics.SaturationKpa(day.TmaxC) + 0.05;
        return Within(day, WeatherVariable.Humidity, day.VapourPressureKpa, 0, most, "kPa of vapour pressure");
    }

    private double DewPoint(DailyWeather day)
    {
        double most = double.IsNaN(day.TmaxC) ? HottestC : day.TmaxC + DewPointSlackK;
        return Within(day, WeatherVariable.Humidity, day.DewPointC, ColdestC - 20, most, "degrees C of dew point");
    }

    private double Within(DailyWeather day, WeatherVariable variable, double value, double least, double most, string unit)
    {
        if (double.IsNaN(value) || (value >= least && value <= most))
        {
            return value;
        }

        Question(day, variable, $"{value:0.###} {unit}", $"{least:0.#} to {most:0.#}", refused: true);
        return double.NaN;
    }

    private void Question(DailyWeather day, WeatherVariable variable, string found, string expected, bool refused) =>
        questions.Add(new(day.Date, variable, found, expected, refused));
}
