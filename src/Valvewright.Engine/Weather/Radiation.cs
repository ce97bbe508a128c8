namespace Valvewright.Engine.Weather;

/// <summary>Radiation at the ground over a day, MJ/m2. Equation numbers are those of FAO-56, chapter 3, where not said otherwise.</summary>
public static class Radiation
{
    /// <summary>Stefan-Boltzmann constant, MJ/K4/m2 in a day (eq. 39).</summary>
    public const double StefanBoltzmann = 4.903e-9;

    /// <summary>Freezing point as eq. 39 takes it, K.</summary>
    public const double FreezingK = 273.16;

    /// <summary>Radiation under a clear sky from elevation alone (eq. 37).</summary>
    public static double ClearSkySimple(double extraterrestrial, double elevationM) => (0.75 + 2e-5 * elevationM) * extraterrestrial;

    /// <summary>
    /// Radiation under a clear sky from the sun's height, the air pressure and the water in the air
    /// (ASCE-EWRI 2005, appendix D, eq. D.1 to D.6). FAO-56 annex 3 has the same form with older figures: 0.091, 0.25 and 0.35 - 0.33 KB.
    /// </summary>
    /// <param name="extraterrestrial">Radiation above the air, MJ/m2.</param>
    /// <param name="latitudeDeg">Latitude.</param>
    /// <param name="dayOfYear">Day of the year.</param>
    /// <param name="pressureKpa">Air pressure.</param>
    /// <param name="vapourKpa">Actual vapour pressure.</param>
    /// <param name="clearness">1 for clean air, 0.5 for very turbid or dusty air.</param>
    public static double ClearSkyFull(
        double extraterrestrial, double latitudeDeg, int dayOfYear, double pressureKpa, double vapourKpa, double clearness = 1)
    {
        double latitude = SolarGeometry.Radians(latitudeDeg);
        double angle = 0.85 + 0.3 * latitude * Math.Sin(2 * Math.PI / 365 * dayOfYear - 1.39) - 0.42 * latitude * latitude;
        double sine = Math.Max(Math.Sin(angle), LowestSine);
        double precipitableMm = 0.14 * vapourKpa * pressureKpa + 2.1;
        double beam = 0.98 * Math.Exp(-0.00146 * pressureKpa / (clearness * sine) - 0.075 * Math.Pow(precipitableMm / sine, 0.4));
        double diffuse = beam >= 0.15 ? 0.35 - 0.36 * beam : 0.18 + 0.82 * beam;
        return (beam + diffuse) * extraterrestrial;
    }

    /// <summary>Radiation from hours of bright sunshine (Angstrom, eq. 35).</summary>
    public static double FromSunshine(
        double extraterrestrial, double sunshineHours, double daylightHours, double overcast, double perSunshine) =>
        daylightHours <= 0 ? 0 : (overcast + perSunshine * Math.Min(1, sunshineHours / daylightHours)) * extraterrestrial;

    /// <summary>Radiation from the day's range of temperature (Hargreaves, eq. 50), at most that under a clear sky.</summary>
    public static double FromTemperatureRange(double extraterrestrial, double clearSky, double tmaxC, double tminC, double factor) =>
        Math.Min(clearSky, factor * Math.Sqrt(Math.Max(0, tmaxC - tminC)) * extraterrestrial);

    /// <summary>Net short-wave radiation (eq. 38).</summary>
    public static double NetShortwave(double radiation, double albedo) => (1 - albedo) * radiation;

    /// <summary>Long-wave radiation of a black body at a temperature (table 2.8).</summary>
    public static double BlackBody(double temperatureC) => StefanBoltzmann * Math.Pow(temperatureC + FreezingK, 4);

    /// <summary>Net long-wave radiation, outwards positive (eq. 39).</summary>
    /// <param name="tmaxC">Highest temperature.</param>
    /// <param name="tminC">Lowest temperature.</param>
    /// <param name="vapourKpa">Actual vapour pressure.</param>
    /// <param name="relativeShortwave">Rs/Rso, already kept within its limits.</param>
    public static double NetLongwave(double tmaxC, double tminC, double vapourKpa, double relativeShortwave) =>
        (BlackBody(tmaxC) + BlackBody(tminC)) / 2 * (0.34 - 0.14 * Math.Sqrt(vapourKpa)) * (1.35 * relativeShortwave - 0.35);

    /// <summary>Soil heat flux over a month, from the mean temperatures of the month before and the month after (eq. 43).</summary>
    public static double MonthlySoilHeat(double monthBeforeC, double monthAfterC) => 0.07 * (monthAfterC - monthBeforeC);

    /// <summary>Soil heat flux over a month when the month after is not known (eq. 44).</summary>
    public static double MonthlySoilHeatSoFar(double monthBeforeC, double monthC) => 0.14 * (monthC - monthBeforeC);

    // In the polar night the formula's mean sun would stand below the horizon; there is no radiation then, only a ratio to define.
    private const double LowestSine = 0.01;
}
