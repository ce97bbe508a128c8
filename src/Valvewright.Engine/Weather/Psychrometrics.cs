namespace Valvewright.Engine.Weather;

/// <summary>Air and the water in it. Equation numbers are those of FAO Irrigation and Drainage Paper 56 (Allen and others 1998), chapter
/// 3.</summary>
public static class Psychrometrics
{
    /// <summary>FAO-56's rounded 1 / 2.45, mm of water per MJ/m2.</summary>
    public const double MmPerMj = 0.408;

    /// <summary>Factor of a ventilated (aspirated) psychrometer, 1/K (with eq. 16).</summary>
    public const double VentilatedPsychrometer = 0.000662;

    /// <summary>Standard air pressure at an elevation, kPa (eq. 7).</summary>
    public static double PressureKpa(double elevationM) => 101.3 * Math.Pow((293 - 0.0065 * elevationM) / 293, 5.26);

    /// <summary>Psychrometric constant, kPa/K (eq. 8).</summary>
    public static double PsychrometricConstant(double pressureKpa) => 0.665e-3 * pressureKpa;

    /// <summary>Saturation vapour pressure at a temperature, kPa (eq. 11).</summary>
    public static double SaturationKpa(double temperatureC) => 0.6108 * Math.Exp(17.27 * temperatureC / (temperatureC + 237.3));

    /// <summary>Dew point of a vapor pressure, degrees C (eq. 11 turned around).</summary>
    public static double DewPointC(double vapourKpa)
    {
        double power = Math.Log(vapourKpa / 0.6108);
        return 237.3 * power / (17.27 - power);
    }

    /// <summary>Mean saturation vapour pressure of a day, kPa (eq. 12).</summary>
    public static double MeanSaturationKpa(double tmaxC, double tminC) => (SaturationKpa(tmaxC) + SaturationKpa(tminC)) / 2;

    /// <summary>Slope of the saturation curve, kPa/K (eq. 13).</summary>
    public static double SlopeKpaPerK(double temperatureC)
    {
        double above = temperatureC + 237.3;
        return 4098 * SaturationKpa(temperatureC) / (above * above);
    }

    /// <summary>Actual vapour pressure from the dew point, kPa (eq. 14).</summary>
    public static double VapourFromDewPointKpa(double dewPointC) => SaturationKpa(dewPointC);

    /// <summary>Actual vapour pressure from a dry and a wet bulb, kPa (eq. 15 and 16).</summary>
    public static double VapourFromWetBulbKpa(double dryC, double wetC, double pressureKpa, double psychrometer = VentilatedPsychrometer) =>
        SaturationKpa(wetC) - psychrometer * pressureKpa * (dryC - wetC);

    /// <summary>Actual vapour pressure from highest and lowest relative humidity, kPa (eq. 17).</summary>
    public static double VapourFromHumidityRangeKpa(double tmaxC, double tminC, double rhMaxPercent, double rhMinPercent) =>
        (SaturationKpa(tminC) * rhMaxPercent + SaturationKpa(tmaxC) * rhMinPercent) / 200;

    /// <summary>Actual vapour pressure from the highest relative humidity alone, kPa (eq. 18).</summary>
    public static double VapourFromHighestHumidityKpa(double tminC, double rhMaxPercent) => SaturationKpa(tminC) * rhMaxPercent / 100;

    /// <summary>Actual vapour pressure from mean relative humidity, kPa (eq. 19).</summary>
    public static double VapourFromMeanHumidityKpa(double tmaxC, double tminC, double rhMeanPercent) =>
        MeanSaturationKpa(tmaxC, tminC) * rhMeanPercent / 100;

    /// <summary>Wind speed at 2 m from that at another height over short grass, m/s (eq. 47).</summary>
    public static double WindAt2M(double windMs, double heightM) => windMs * WindFactor(heightM);

    /// <summary>What wind at a height over short grass is multiplied with to be that at 2 m (eq. 47, table 2.9).</summary>
    public static double WindFactor(double heightM) => 4.87 / Math.Log(67.8 * heightM - 5.42);
}
