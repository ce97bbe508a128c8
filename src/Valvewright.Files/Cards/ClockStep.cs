using Valvewright.Engine.Controllers;

namespace Valvewright.Files.Cards;

/// <summary>How to set a controller's clock on a date.</summary>
/// <param name="Kind">Which time it is to keep.</param>
/// <param name="StandardOffset">Standard time's distance from UTC.</param>
/// <param name="Summer">How far standard time is behind local time while summer time is in force; zero where it never is.</param>
/// <param name="Now">How far standard time is behind local time on the card's date.</param>
public sealed record ClockStep(ClockKind Kind, Offset StandardOffset, Offset Summer, Offset Now)
{
    /// <summary>The step for a clock in a zone, judged over the year from a date on.</summary>
    public static ClockStep Of(DateTimeZone zone, Profile profile, LocalDate from)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(profile);
        Instant noon = zone.AtLeniently(from.At(new LocalTime(12, 0))).ToInstant();
        Offset winter = StandardTime.OffsetAt(zone, noon);
        Offset summer = zone.GetZoneIntervals(new Interval(noon, noon + Duration.FromDays(365))).Max(i => i.WallOffset) - winter;
        ClockKind kind = summer == Offset.Zero
            ? ClockKind.NoChange
            : profile.ClockKnowsDaylightSaving ? ClockKind.ChangesByItself : ClockKind.StandardTime;
        return new ClockStep(kind, winter, summer, zone.GetUtcOffset(noon) - winter);
    }
}

/// <summary>Which time a clock keeps.</summary>
public enum ClockKind
{
    /// <summary>Standard time all year, for a clock that knows nothing of summer time.</summary>
    StandardTime,

    /// <summary>Local time; the clock follows summer time by itself.</summary>
    ChangesByItself,

    /// <summary>Local time, which has no summer time within the next year.</summary>
    NoChange,
}
