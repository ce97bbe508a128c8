using NodaTime;
using NodaTime.TimeZones;

namespace Valvewright.Engine.Proof.Water;

/// <summary>Dates of moments by the time people live by, as days since 1970. Moments near each other share their offset from UTC, so it is
/// looked up seldom.</summary>
internal sealed class SiteDays(DateTimeZone zone)
{
    private static readonly LocalDate First = new(1970, 1, 1);
    private long since = long.MaxValue;
    private long until = long.MinValue;
    private long offset;

    /// <summary>The date of a moment.</summary>
    public int Of(long unix)
    {
        Find(unix);
        return (int)Math.Floor((unix + offset) / (double)NodaConstants.SecondsPerDay);
    }

    /// <summary>A date.</summary>
    public static int Of(LocalDate date) => Period.DaysBetween(First, date);

    /// <summary>A day as a date.</summary>
    public static LocalDate DateOf(int day) => First.PlusDays(day);

    /// <summary>How far clocks are from UTC between two moments: the same, or before and after a change so many seconds on.</summary>
    public (long Before, long After, long Change) Offsets(long from, long to)
    {
        Find(from);
        return until >= to ? (offset, offset, 0)
            : (offset, zone.GetUtcOffset(Instant.FromUnixTimeSeconds(until)).Seconds, until - from);
    }

    private void Find(long unix)
    {
        if (unix < since || unix >= until)
        {
            ZoneInterval interval = zone.GetZoneInterval(Instant.FromUnixTimeSeconds(unix));
            since = interval.HasStart ? interval.Start.ToUnixTimeSeconds() : long.MinValue;
            until = interval.HasEnd ? interval.End.ToUnixTimeSeconds() : long.MaxValue;
            offset = interval.WallOffset.Seconds;
        }
    }
}
