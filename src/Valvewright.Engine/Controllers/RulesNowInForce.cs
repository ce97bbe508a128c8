using NodaTime;
using NodaTime.TimeZones;

namespace Valvewright.Engine.Controllers;

/// <summary>A time zone that follows today's rules in every year: past weather is replayed under the clocks that a plan will
/// meet.</summary>
/// <remarks>The calendar repeats after 400 years, weekdays included: a past moment takes the rules of the same date 400 years on, when only
/// rules now known hold.</remarks>
public sealed class RulesNowInForce : DateTimeZone
{
    private const int Years = 400;
    private static readonly Duration Ahead = Duration.FromDays(146_097);
    private readonly DateTimeZone zone;

    private RulesNowInForce(DateTimeZone zone)
        : base(zone.Id, isFixed: false, zone.MinOffset, zone.MaxOffset) => this.zone = zone;

    /// <summary>The zone under the rules now in force.</summary>
    public static DateTimeZone Of(DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return zone is RulesNowInForce ? zone : new RulesNowInForce(zone);
    }

    /// <inheritdoc/>
    public override ZoneInterval GetZoneInterval(Instant instant)
    {
        // Beyond what can be moved the calendar has no weather.
        if (instant.InUtc().Year is < 1 or > 9999 - Years)
        {
            return zone.GetZoneInterval(instant);
        }

        ZoneInterval then = zone.GetZoneInterval(instant + Ahead);
        return new ZoneInterval(
            then.Name, then.HasStart && then.Start > Instant.MinValue + Ahead ? then.Start - Ahead : null,
                then.HasEnd ? then.End - Ahead : null, then.WallOffset, then.Savings);
    }
}
