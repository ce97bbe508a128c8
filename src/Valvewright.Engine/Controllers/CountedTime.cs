using NodaTime;

namespace Valvewright.Engine.Controllers;

/// <summary>
/// Converts between true time and the seconds that a controller counts. The count begins, where the clock is set, at
/// what the display shows then, and no later setting makes it jump; only drift makes it differ from true seconds.
/// </summary>
public sealed class CountedTime
{
    private const long MillisecondsPerDay = 86_400_000;
    private readonly Instant setAt;
    private readonly long countThen;
    private readonly long countedPerDay;

    /// <summary>The clock of a controller in a time zone.</summary>
    /// <param name="zone">The time zone of the site.</param>
    /// <param name="setAt">Site time at which the clock was set.</param>
    /// <param name="shows">What it was set to.</param>
    /// <param name="driftMillisecondsPerDay">What it gains in a true day.</param>
    public CountedTime(DateTimeZone zone, LocalDateTime setAt, LocalDateTime shows, int driftMillisecondsPerDay)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentOutOfRangeException.ThrowIfLessThan(driftMillisecondsPerDay, -MillisecondsPerDay / 2);
        Zone = zone;
        this.setAt = zone.AtLeniently(setAt).ToInstant();
        countThen = ClockSeconds.From(shows);
        countedPerDay = MillisecondsPerDay + driftMillisecondsPerDay;
    }

    /// <summary>The time zone of the site.</summary>
    public DateTimeZone Zone { get; }

    /// <summary>The true time of a counted second, to the nearest whole second.</summary>
    public Instant InstantOf(long counted) =>
        setAt + Duration.FromSeconds(
            FloorDivide((Int128)(counted - countThen) * MillisecondsPerDay * 2 + countedPerDay, (Int128)countedPerDay * 2));

    /// <summary>The first counted second that begins at or after an instant.</summary>
    public long CountAt(Instant instant)
    {
        Int128 milliseconds = (instant - setAt).BclCompatibleTicks / NodaConstants.TicksPerMillisecond;
        return countThen - FloorDivide(-milliseconds * countedPerDay, (Int128)MillisecondsPerDay * 1000);
    }

    /// <summary>The first counted second that begins at or after a site time.</summary>
    public long CountAt(LocalDateTime site) => CountAt(Zone.AtLeniently(site).ToInstant());

    private static long FloorDivide(Int128 value, Int128 by)
    {
        (Int128 quotient, Int128 rest) = Int128.DivRem(value, by);
        return (long)(rest < 0 ? quotient - 1 : quotient);
    }
}
