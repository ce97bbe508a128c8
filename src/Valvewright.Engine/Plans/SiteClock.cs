using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Plans;

/// <summary>What a controller's clock shows at a moment of site time.</summary>
/// <remarks>
/// The convention of plans, cards and proofs: a clock that knows nothing of daylight saving is set to the zone's <em>standard</em>
/// time and stays there all year; while daylight saving is in force it is behind local time. No one has to drive out
/// because the clocks change, and the plan holds within permitted hours at both. A clock that knows daylight saving shows local time.
/// Laws on hours mean local time.
/// </remarks>
public sealed class SiteClock
{
    private readonly DateTimeZone zone;

    /// <summary>The clock of a controller in a time zone.</summary>
    public SiteClock(DateTimeZone zone, Profile profile)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(profile);
        this.zone = zone;
        FollowsDaylightSaving = profile.ClockKnowsDaylightSaving;
    }

    /// <summary>Whether it shows local time all year.</summary>
    public bool FollowsDaylightSaving { get; }

    /// <summary>Site time is this many seconds ahead of the clock at one moment or another of the dates: 0, 3600, or both.</summary>
    public ListOf<int> SecondsBehind(LocalDate from, LocalDate to)
    {
        if (FollowsDaylightSaving)
        {
            return [0];
        }

        Interval dates = new(zone.AtStartOfDay(from).ToInstant(), zone.AtStartOfDay(to.PlusDays(1)).ToInstant());
        return zone.GetZoneIntervals(dates).Select(i => StandardTime
            .BehindAt(zone, i.HasStart && i.Start > dates.Start ? i.Start : dates.Start).Seconds).Distinct().Order().ToListOf();
    }

    /// <summary>The moment at which the clock shows a time.</summary>
    /// <param name="clockSeconds">Seconds of the clock since <see cref="ClockSeconds.Epoch"/>.</param>
    /// <remarks>
    /// A clock that follows daylight saving never shows the missing hour: the moment is then as far after the change as the time
    /// lies in the hour. Of the doubled hour the first is meant.
    /// </remarks>
    public Instant MomentOf(long clockSeconds)
    {
        LocalDateTime shown = ClockSeconds.ToDateTime(clockSeconds);
        if (FollowsDaylightSaving)
        {
            return zone.AtLeniently(shown).ToInstant();
        }

        return shown.WithOffset(StandardTime.OffsetAt(zone, shown.InUtc().ToInstant())).ToInstant();
    }

    /// <summary>Local time at a moment.</summary>
    public LocalDateTime SiteTime(Instant moment) => moment.InZone(zone).LocalDateTime;
}
