using NodaTime;
using Valvewright.Engine.Survey;

namespace Valvewright.Planning.Hours;

/// <summary>Sunrise by the controllers' clocks, on the longest day: watering that ends before it ends before every other sunrise too.</summary>
internal static class Dawn
{
    /// <summary>Seconds after midnight, standard time.</summary>
    public static int SecondsAfterMidnight(Site site, int year)
    {
        bool north = site.Place.LatitudeDeg >= 0;
        LocalDate longest = new(year, north ? 6 : 12, 21);
        double latitude = site.Place.LatitudeDeg * Math.PI / 180;

        // FAO-56 eq. 24 and 25: declination of the sun and sunset hour angle.
        double declination = 0.409 * Math.Sin(2 * Math.PI / 365 * longest.DayOfYear - 1.39);
        double hourAngle = Math.Acos(Math.Clamp(-Math.Tan(latitude) * Math.Tan(declination), -1, 1));
        double solarHour = 12 - hourAngle * 12 / Math.PI;
        double standard = site.Zone().GetZoneInterval(longest.AtMidnight().InUtc().ToInstant()).StandardOffset.Seconds / 3600.0;
        double clock = solarHour - site.Place.LongitudeDeg / 15 + standard;
        return (int)Math.Round(((clock % 24) + 24) % 24 * 60) % 1440 * 60;
    }
}
