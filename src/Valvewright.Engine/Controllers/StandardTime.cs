using NodaTime;
using NodaTime.TimeZones;

namespace Valvewright.Engine.Controllers;

/// <summary>The time that a clock without daylight saving keeps all year: the zone's winter time.</summary>
/// <remarks>
/// Offsets are compared rather than "savings" asked for. The IANA time zone database, as NodaTime reads it, says of Ireland that summer
/// time is standard and winter an hour of negative saving (Standard Time Act 1968, amended 1971), and the same of Morocco's Ramadan; a
/// clock kept an hour ahead all winter is not what anybody means.
/// </remarks>
public static class StandardTime
{
    /// <summary>Its distance from UTC, around a moment.</summary>
    public static Offset OffsetAt(DateTimeZone zone, Instant moment)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return OffsetIn(zone, zone.GetZoneInterval(moment));
    }

    /// <summary>How far it is behind local time, at a moment; zero while it is standard time.</summary>
    public static Offset BehindAt(DateTimeZone zone, Instant moment)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ZoneInterval around = zone.GetZoneInterval(moment);
        return around.WallOffset - OffsetIn(zone, around);
    }

    /// <summary>A zone that moves for good, with another standard time, is not thereby saving daylight: only offsets of one standard are
    /// compared.</summary>
    private static Offset OffsetIn(DateTimeZone zone, ZoneInterval around)
    {
        if (around.Savings > Offset.Zero)
        {
            return around.StandardOffset;
        }

        Offset standard = around.WallOffset;
        if (around.HasStart && zone.GetZoneInterval(around.Start - Duration.Epsilon) is var before
            && before.StandardOffset == around.StandardOffset)
        {
            standard = Offset.Min(standard, before.WallOffset);
        }

        if (around.HasEnd && zone.GetZoneInterval(around.End) is var after && after.StandardOffset == around.StandardOffset)
        {
            standard = Offset.Min(standard, after.WallOffset);
        }

        return standard;
    }
}
