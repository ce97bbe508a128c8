using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Hours;

/// <summary>Sunrise by the controllers' clocks, on the longest day: watering that ends before it ends before every other sunrise too.</summary>
internal static class Dawn
{
    private const int SecondsPerMinute = 60;
    private const int SecondsPerDay = 86_400;

    /// <summary>Seconds after midnight, standard time, to the minute.</summary>
    public static int SecondsAfterMidnight(Site site, int year)
    {
        LocalDate longest = new(year, site.Place.LatitudeDeg >= 0 ? 6 : 12, 21);
        Instant sunrise = SunTimes.Of(site.Place, longest).Sunrise;
        LocalTime clock = sunrise.WithOffset(StandardTime.OffsetAt(site.Zone(), sunrise)).TimeOfDay;
        long seconds = clock.NanosecondOfDay / NodaConstants.NanosecondsPerSecond;
        return (int)((seconds + SecondsPerMinute / 2) / SecondsPerMinute * SecondsPerMinute % SecondsPerDay);
    }
}
