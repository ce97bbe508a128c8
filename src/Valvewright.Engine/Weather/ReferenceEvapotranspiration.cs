using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Weather;

/// <summary>
/// Reference evapotranspiration of a day (short, well-watered grass), mm.
/// Standardized Penman-Monteith: ASCE-EWRI 2005 eq. 1 with Cn 900 and Cd 0.34, for daily steps the same as FAO-56 eq. 6.
/// </summary>
public static class ReferenceEvapotranspiration
{
    /// <summary>Numerator constant of the short reference, daily steps (ASCE-EWRI 2005, table 1).</summary>
    public const double Cn = 900;

    /// <summary>Denominator constant of the short reference, daily steps (ASCE-EWRI 2005, table 1).</summary>
    public const double Cd = 0.34;

    /// <summary>Penman-Monteith from its own terms, mm in a day; below 0 on a day of dew.</summary>
    /// <param name="meanC">(Tmax + Tmin) / 2.</param>
    /// <param name="netRadiation">Net radiation less soil heat flux, MJ/m2.</param>
    /// <param name="deficitKpa">Saturation less actual vapour pressure.</param>
    /// <param name="wind2Ms">Wind at 2 m.</param>
    /// <param name="psychrometricConstant">kPa/K.</param>
    public static double PenmanMonteith(double meanC, double netRadiation, double deficitKpa, double wind2Ms, double psychrometricConstant)
    {
        double slope = Psychrometrics.SlopeKpaPerK(meanC);
        double radiationPart = Psychrometrics.MmPerMj * slope * netRadiation;
        double windPart = psychrometricConstant * Cn / (meanC + 273) * wind2Ms * deficitKpa;
        return (radiationPart + windPart) / (slope + psychrometricConstant * (1 + Cd * wind2Ms));
    }

    /// <summary>Hargreaves and Samani 1985 (FAO-56 eq. 52), mm in a day.</summary>
    public static double HargreavesSamani(double tmaxC, double tminC, double extraterrestrialMjM2) =>
        HargreavesSamani(tmaxC, tminC, (tmaxC + tminC) / 2, extraterrestrialMjM2);

    /// <summary>The same, where the mean temperature is known apart.</summary>
    public static double HargreavesSamani(double tmaxC, double tminC, double meanC, double extraterrestrialMjM2) =>
        0.0023 * (meanC + 17.8) * Math.Sqrt(Math.Max(0, tmaxC - tminC)) * Psychrometrics.MmPerMj * extraterrestrialMjM2;

    /// <summary>
    /// A day's reference ET from what the day has: Penman-Monteith if anything beyond temperatures is measured, the missing
    /// inputs estimated as FAO-56 chapter 3 says. Never below 0.
    /// </summary>
    /// <param name="day">The day; without both temperatures the result is NaN with <see cref="EtoMethod.None"/>, or the published
    /// value.</param>
    /// <param name="place">Latitude and elevation.</param>
    /// <param name="windHeightM">Height of the wind measurement.</param>
    /// <param name="options">Stated choices; null takes the defaults.</param>
    public static DailyEto Of(DailyWeather day, Place place, double windHeightM, EtoOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(place);
        options ??= EtoOptions.Default;
        if (double.IsNaN(day.TmaxC) || double.IsNaN(day.TminC))
        {
            return double.IsNaN(day.PublishedEtoMm)
                ? new(day.Date, double.NaN, EtoMethod.None)
                : new(day.Date, Math.Max(0, day.PublishedEtoMm), EtoMethod.Published);
        }

        if (options.TemperatureOnly == TemperatureOnlyForm.HargreavesSamani && EtoInputs.HasOnlyTemperatures(day, options))
        {
            double extraterrestrial = SolarGeometry.ExtraterrestrialMjM2(place.LatitudeDeg, day.Date.DayOfYear);
            return new(day.Date, Math.Max(0, HargreavesSamani(day.TmaxC, day.TminC, extraterrestrial)), EtoMethod.HargreavesSamani);
        }

        EtoInputs inputs = EtoInputs.Of(day, place, windHeightM, options);
        return new(day.Date, Math.Max(0, inputs.PenmanMonteithMm()), EtoMethod.PenmanMonteith | inputs.Sources);
    }
}
