using Valvewright.Engine.Survey;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Weather.Gaps;

/// <summary>
/// Looks at every value before it is used. What cannot be right counts as not measured, so that an estimate takes its place; what is
/// only unlikely is used and questioned.
/// </summary>
/// <remarks>
/// Air temperature and rain: beyond the records that the World Meteorological Organization keeps. Wind and humidity: the limits of the
/// Desert Research Institute's quality control for agricultural stations. Radiation: held against clear sky and dew point against
/// the lowest temperature, as FAO-56 annex 5 and ASCE-EWRI 2005 appendix D ask; how far each may stray is our judgment, tried on six
/// stations (docs/evapotranspiration.md). "Unlikely" is a rule of thumb throughout.
/// </remarks>
internal sealed class Screening(Place place, double windHeightM, List<WeatherQuestion> questions)
{
    private const double ColdestC = -90;
    private const double HottestC = 60;
    private const double MostRainMm = 1900;
    private const double UnlikelyRainMm = 500;
    private const double StrongestWindMs = 35;
    private const double UnlikelyWind2Ms = 15;
    private const double DriestPercent = 1;

    // Humidity sensors read a little past 100 when wet; sunshine recorders a little past the day's length.
    private const double HumiditySlackPercent = 5;
    private const double SunshineSlackHours = 1;
    private const double DewPointSlackK = 1;

    // The simple clear sky is up to about a tenth low in dry air, and a little more under a low sun.
    private const double UnlikelyOfClearSky = 1.05;
    private const double MostOfClearSky = 1.15;
    private const double ClearSkySlackMjM2 = 1;

    // Thick fog under a low winter sun lets less through than any cloud of summer.
    private const double LeastOfExtraterrestrial = 0.03;
    private const double LeastUnderLowSun = 0.005;
    private const double LowSunMjM2 = 12;
    private const double NoSunMjM2 = 2;

    // 4 of 34,000 days above freezing had more than 6 K, none of 43,000 in all more than 10 K.
    private const double DewPointAboveLowestK = 6;
    private const double DewPointAboveLowestInFrostK = 10;

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
            WindMs = Wind(day),
            PublishedEtoMm = Within(day, WeatherVariable.ReferenceEvapotranspiration, day.PublishedEtoMm, -5, 30, "mm of ETo"),
        };
        if (day.RhMaxPercent < day.RhMinPercent)
        {
            Refuse(day, WeatherVariable.Humidity, WeatherFault.HumidityReversed,
                $"highest {day.RhMaxPercent:0.#}, lowest {day.RhMinPercent:0.#} percent", "a highest at or above the lowest");
            day = day with { RhMaxPercent = double.NaN, RhMinPercent = double.NaN };
        }

        if (day.RainMm > UnlikelyRainMm)
        {
            Doubt(day, WeatherVariable.Rain, $"{day.RainMm:0.#} mm of rain", $"seldom more than {UnlikelyRainMm:0} mm in a day");
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
            Refuse(day, WeatherVariable.Temperature, WeatherFault.TemperaturesReversed,
                $"highest {day.TmaxC:0.#}, lowest {day.TminC:0.#} degrees C", "a highest at or above the lowest");
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
            RadiationMjM2 = Radiated(day, above),
            SunshineHours = Math.Min(
                daylight, Within(day, WeatherVariable.Radiation, day.SunshineHours, 0, daylight + SunshineSlackHours, "hours of sunshine")),
        };
    }

    private double Radiated(DailyWeather day, double above)
    {
        // The daily formulas put the sun out a few days early near the polar night, hence 1 MJ/m2 of slack.
        double radiation = Within(day, WeatherVariable.Radiation, day.RadiationMjM2, 0, above + ClearSkySlackMjM2, "MJ/m2 of radiation");
        double clear = Radiation.ClearSkySimple(above, place.ElevationM);
        if (radiation > clear + ClearSkySlackMjM2 && radiation > clear * UnlikelyOfClearSky)
        {
            Sentence found = $"{radiation:0.0#} MJ/m2 of radiation, {radiation / clear:0.00} of clear sky";
            if (radiation <= clear * MostOfClearSky)
            {
                Doubt(day, WeatherVariable.Radiation, found, $"at most {UnlikelyOfClearSky:0.00} of clear sky");
                return radiation;
            }

            Refuse(day, WeatherVariable.Radiation, WeatherFault.AboveClearSky, found,
                $"at most {clear * MostOfClearSky:0.0}, {MostOfClearSky:0.00} of clear sky");
            return double.NaN;
        }

        double least = above * (above >= LowSunMjM2 ? LeastOfExtraterrestrial : above >= NoSunMjM2 ? LeastUnderLowSun : 0);
        if (radiation < least)
        {
            Refuse(day, WeatherVariable.Radiation, WeatherFault.BelowCloud,
                $"{radiation:0.0##} MJ/m2 of radiation, {radiation / clear:0.000} of clear sky",
                    $"at least {least:0.0#} under the thickest cloud");
            return double.NaN;
        }

        return radiation;
    }

    private double Humidity(DailyWeather day, double percent) =>
        Math.Min(100, Within(day, WeatherVariable.Humidity, percent, DriestPercent, 100 + HumiditySlackPercent, "percent humidity"));

    private double Vapour(DailyWeather day)
    {
        double most = double.IsNaN(day.TmaxC) ? Psychrometrics.SaturationKpa(HottestC) : 1.05 * Psychrometrics.SaturationKpa(
            day.TmaxC) + 0.05;
        double vapour = Within(day, WeatherVariable.Humidity, day.VapourPressureKpa, 0, most, "kPa of vapor pressure");
        return IsTooMoist(day, Psychrometrics.DewPointC(vapour), $"{vapour:0.##} kPa of vapor pressure, a dew point of")
            ? double.NaN : vapour;
    }

    private double DewPoint(DailyWeather day)
    {
        double most = double.IsNaN(day.TmaxC) ? HottestC : day.TmaxC + DewPointSlackK;
        double dewPoint = Within(day, WeatherVariable.Humidity, day.DewPointC, ColdestC - 20, most, "degrees C of dew point");
        return IsTooMoist(day, dewPoint, "dew point") ? double.NaN : dewPoint;
    }

    private bool IsTooMoist(DailyWeather day, double dewPointC, Sentence name)
    {
        double most = day.TminC + (day.TminC > 0 ? DewPointAboveLowestK : DewPointAboveLowestInFrostK);
        if (!(dewPointC > most))
        {
            return false;
        }

        Refuse(day, WeatherVariable.Humidity, WeatherFault.DewPointAboveLowest,
            $"{name} {dewPointC:0.#} degrees C where the lowest temperature is {day.TminC:0.#}", $"a dew point of at most {most:0.#}");
        return true;
    }

    private double Wind(DailyWeather day)
    {
        double wind = Within(day, WeatherVariable.Wind, day.WindMs, 0, StrongestWindMs, "m/s of wind");
        double at2M = Psychrometrics.WindAt2M(wind, windHeightM);
        if (at2M > UnlikelyWind2Ms)
        {
            Doubt(day, WeatherVariable.Wind, $"{wind:0.#} m/s of wind measured at {windHeightM:0.#} m, {at2M:0.#} m/s at 2 m",
                $"seldom more than {UnlikelyWind2Ms:0} m/s at 2 m over a day");
        }

        return wind;
    }

    private double Within(DailyWeather day, WeatherVariable variable, double value, double least, double most, Sentence unit)
    {
        if (double.IsNaN(value) || (value >= least && value <= most))
        {
            return value;
        }

        Refuse(day, variable, WeatherFault.OutOfRange, $"{value:0.###} {unit}", $"{least:0.#} to {most:0.#}");
        return double.NaN;
    }

    private void Refuse(DailyWeather day, WeatherVariable variable, WeatherFault flag, Sentence found, Sentence expected) =>
        questions.Add(new(day.Date, variable, flag, found, expected, Refused: true));

    private void Doubt(DailyWeather day, WeatherVariable variable, Sentence found, Sentence expected) =>
        questions.Add(new(day.Date, variable, WeatherFault.Unlikely, found, expected, Refused: false));
}
