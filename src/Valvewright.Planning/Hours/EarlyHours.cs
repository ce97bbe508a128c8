using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Hours;

/// <summary>
/// The hours for overhead water by a controller's clock, in seconds after midnight: before sunrise wind and evaporation are least, and the
/// sun dries leaves that are wet with dew at that hour anyway.
/// </summary>
/// <param name="Opens">Two hours after midnight: leaves wet from the evening on stay wet all night, which is what turf diseases
/// need.</param>
/// <param name="Sunrise">On the longest day: what ends before it ends before every other sunrise too.</param>
/// <param name="Closes">07:30 by the watch at every time of the year; later the sun is up and people are about.</param>
internal sealed record EarlyHours(int Opens, int Sunrise, int Closes)
{
    private const int TwoHours = 2 * 3600;
    private const int HalfPastSeven = 15 * 1800;
    private const int SecondsPerMinute = 60;

    /// <summary>By the clock of a controller.</summary>
    public static EarlyHours Of(Site site, Profile profile, LocalDate from)
    {
        int closes = HalfPastSeven - PermittedSpan.ClockBehind(site, profile, from).Max();
        LocalDate longest = new(from.Year, site.Place.LatitudeDeg >= 0 ? 6 : 12, 21);
        Instant sunrise = SunTimes.Of(site.Place, longest).Sunrise;
        LocalTime clock = profile.ClockKnowsDaylightSaving
            ? sunrise.InZone(site.Zone()).TimeOfDay
            : sunrise.WithOffset(StandardTime.OffsetAt(site.Zone(), sunrise)).TimeOfDay;
        int seconds = (int)(clock.NanosecondOfDay / NodaConstants.NanosecondsPerMinute) * SecondsPerMinute;
        return new EarlyHours(TwoHours, Math.Clamp(seconds, 2 * TwoHours, closes), closes);
    }
}
