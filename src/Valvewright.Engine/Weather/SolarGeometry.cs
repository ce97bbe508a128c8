namespace Valvewright.Engine.Weather;

/// <summary>
/// The sun over a place on a day of the year: radiation above the air, length of daylight.
/// Equation numbers are those of FAO-56, chapter 3; good to about a minute of daylight and 0.1 MJ/m2.
/// </summary>
public static class SolarGeometry
{
    /// <summary>Solar constant, MJ/m2 in a minute (eq. 21).</summary>
    public const double SolarConstant = 0.0820;

    /// <summary>Degrees to radians (eq. 22).</summary>
    public static double Radians(double degrees) => degrees * (Math.PI / 180);

    /// <summary>Inverse relative distance of earth and sun (eq. 23).</summary>
    public static double InverseDistance(int dayOfYear) => 1 + 0.033 * Math.Cos(2 * Math.PI / 365 * dayOfYear);

    /// <summary>Declination of the sun, radians (eq. 24).</summary>
    public static double Declination(int dayOfYear) => 0.409 * Math.Sin(2 * Math.PI / 365 * dayOfYear - 1.39);

    /// <summary>Hour angle of sunset, radians: 0 in the polar night, pi in the polar day (eq. 25).</summary>
    public static double SunsetHourAngle(double latitudeRad, double declinationRad) =>
        Math.Acos(Math.Clamp(-Math.Tan(latitudeRad) * Math.Tan(declinationRad), -1, 1));

    /// <summary>Radiation above the air in a day, MJ/m2 (eq. 21).</summary>
    public static double ExtraterrestrialMjM2(double latitudeDeg, int dayOfYear)
    {
        double latitude = Radians(latitudeDeg);
        double declination = Declination(dayOfYear);
        double sunset = SunsetHourAngle(latitude, declination);
        double sum = sunset * Math.Sin(latitude) * Math.Sin(declination) + Math.Cos(latitude) * Math.Cos(declination) * Math.Sin(sunset);
        return 24 * 60 / Math.PI * SolarConstant * InverseDistance(dayOfYear) * Math.Max(0, sum);
    }

    /// <summary>Hours of daylight, 0 to 24 (eq. 34).</summary>
    public static double DaylightHours(double latitudeDeg, int dayOfYear) =>
        24 / Math.PI * SunsetHourAngle(Radians(latitudeDeg), Declination(dayOfYear));
}
