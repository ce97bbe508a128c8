using NodaTime;
using NodaTime.TimeZones;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Tests.Twin;

/// <summary>
/// Surroundings given in site time. A counted second is so many seconds after the settings were keyed in; what is true
/// at it is found by asking whether each moment of the circumstances has passed.
/// </summary>
public sealed class TwinWorldOnSite : ITwinWorld
{
    private const decimal Day = 86_400_000m;
    private readonly Profile profile;
    private readonly Settings settings;
    private readonly Circumstances told;
    private readonly DateTimeZone zone;
    private readonly List<(long At, DateTime Shows, ClockChangeCause? Cause)> display = [];
    private readonly SortedSet<long> changes = [];
    private readonly List<(long At, Settings Settings)> keyed = [];
    private readonly List<(LostReason Cause, long From, long To, bool Stuck)> spells = [];

    public TwinWorldOnSite(Profile profile, Settings settings, Circumstances told, DateTimeZone zone)
    {
        (this.profile, this.settings, this.told, this.zone) = (profile, settings, told, zone);
        FindSpells();
        FindSettings();
        FollowDisplay();
        changes.UnionWith(spells.SelectMany(s => new[] { s.From, s.To }));
        changes.UnionWith(keyed.Select(k => k.At));
        changes.UnionWith(display.Select(d => d.At));
        changes.UnionWith(told.RunsByHand.Select(r => Count(r.At)));
    }

    public long Begins => 0;

    /// <summary>The counted second that is the first at or after a site time.</summary>
    public long Count(LocalDateTime site) => Count(InstantOf(site));

    /// <summary>The first counted second at or after the beginning of a date.</summary>
    public long CountAtStartOf(LocalDate date)
    {
        // The first minute that bears the date, though the clocks may go back to the day before once more.
        Instant morning = InstantOf(date + new LocalTime(4, 0));
        Instant moment = morning;
        for (int minutes = 1; minutes < 420; minutes++)
        {
            Instant earlier = morning - Duration.FromMinutes(minutes);
            moment = earlier.WithOffset(zone.GetUtcOffset(earlier)).Date == date ? earlier : moment;
        }

        return Count(moment);
    }

    /// <summary>The true time of a counted second, rounded.</summary>
    public Instant TrueTime(long second) =>
        InstantOf(told.KeyedIn) + Duration.FromSeconds((long)Math.Floor(second * Day / (Day + told.DriftMillisecondsPerDay) + 0.5m));

    public DateTime Display(long second)
    {
        (long at, DateTime shows, _) = display[0];
        foreach ((long, DateTime, ClockChangeCause?) piece in display)
        {
            if (piece.Item1 <= second)
            {
                (at, shows, _) = piece;
            }
        }

        return shows.AddSeconds(second - at);
    }

    public ClockChangeCause? JumpedAt(long second)
    {
        ClockChangeCause? cause = null;
        foreach ((long at, _, ClockChangeCause? why) in display)
        {
            cause = at == second ? why : cause;
        }

        return cause;
    }

    public bool Holds(LostReason cause, long second)
    {
        foreach ((LostReason because, long from, long to, _) in spells)
        {
            if (because == cause && from <= second && second < to)
            {
                return true;
            }
        }

        return false;
    }

    public long? HeldOpenFor(long second)
    {
        foreach ((_, long from, long to, bool stuck) in spells)
        {
            if (stuck && from == second)
            {
                return to - second;
            }
        }

        return null;
    }

    public Settings Keyed(long second)
    {
        Settings now = settings;
        foreach ((long at, Settings later) in keyed)
        {
            now = at <= second ? later : now;
        }

        return now;
    }

    public IEnumerable<HandRun> StartedByHand(long second)
    {
        foreach (RunByHand run in told.RunsByHand)
        {
            if (Count(run.At) == second)
            {
                yield return new HandRun(second, run.Station, run.Seconds, run.Program);
            }
        }
    }

    public int? DaysLeftAtFirst(char program) => Told.DaysLeft(told.DaysLeft, program);

    public long NextChange(long second)
    {
        foreach (long change in changes)
        {
            if (change > second)
            {
                return change;
            }
        }

        return long.MaxValue;
    }

    private long Count(Instant moment)
    {
        decimal seconds = (moment - InstantOf(told.KeyedIn)).ToInt64Nanoseconds() / 1_000_000_000m;
        return (long)Math.Ceiling(seconds * (Day + told.DriftMillisecondsPerDay) / Day);
    }

    private Instant InstantOf(LocalDateTime site)
    {
        ZoneLocalMapping mapping = zone.MapLocal(site);
        Offset offset = mapping.EarlyInterval.WallOffset;
        return site.WithOffset(offset).ToInstant();
    }

    private void FindSpells()
    {
        foreach (OffSpell off in told.Off)
        {
            spells.Add((LostReason.Off, Count(off.From), off.To is LocalDateTime to ? Count(to) : long.MaxValue, false));
        }

        foreach (RainHold hold in told.RainHolds)
        {
            spells.Add((LostReason.RainHold, Count(hold.Set), Count(hold.Set) + hold.Days * 24 * 3600L, false));
        }

        foreach (PowerLoss loss in told.PowerLosses)
        {
            spells.Add((LostReason.NoPower, Count(loss.From), Count(loss.To), loss.ValveStaysOpen));
        }

        for (int day = 0; told.Sensor is RainSensor sensor && day < sensor.RainMm.Count; day++)
        {
            if (sensor.RainMm[day] >= sensor.ThresholdMm)
            {
                Instant fell = InstantOf(sensor.FirstDay.PlusDays(day) + sensor.FallsAt);
                spells.Add((LostReason.SensorWet, Count(fell), Count(fell + Duration.FromHours(sensor.DryOutHours)), false));
            }
        }
    }

    private void FindSettings()
    {
        foreach (Rekeying change in told.Rekeyings)
        {
            keyed.Add((Count(change.At), change.Settings));
        }

        foreach (PowerLoss loss in told.PowerLosses)
        {
            if (loss.SettingsThen is not null)
            {
                keyed.Add((Count(loss.To), loss.SettingsThen));
            }
        }

        List<(long At, Settings Settings)> inOrder = [.. keyed.OrderBy(k => k.At)];
        keyed.Clear();
        keyed.AddRange(inOrder);
        for (int index = 0; index < keyed.Count; index++)
        {
            if (keyed[index].Settings.PercentAdjust == 0)
            {
                spells.Add((LostReason.Off, keyed[index].At, index + 1 < keyed.Count ? keyed[index + 1].At : long.MaxValue, false));
            }
        }
    }

    private void FollowDisplay()
    {
        List<(long At, DateTime Shows, ClockChangeCause Cause)> set =
        [
            .. told.ClockSettings.Select(s => (Count(s.At), s.To.ToDateTimeUnspecified(), ClockChangeCause.ByHand)),
            .. told.PowerLosses.Where(l => l.ClockThen is not null)
                .Select(l => (Count(l.To), l.ClockThen!.Value.ToDateTimeUnspecified(), ClockChangeCause.PowerBack)),
        ];
        set = [.. set.OrderBy(s => s.At)];
        Instant first = InstantOf(told.KeyedIn);
        ZoneInterval then = zone.GetZoneInterval(first);
        Offset right = profile.ClockKnowsDaylightSaving ? then.WallOffset : then.WallOffset - then.Savings;
        DateTime shows = told.ClockSetTo?.ToDateTimeUnspecified() ?? first.WithOffset(right).LocalDateTime.ToDateTimeUnspecified();
        display.Add((0, shows, null));
        List<(DateTime Until, TimeSpan Jump)> jumps = profile.ClockKnowsDaylightSaving ? Jumps.Of(zone) : [];
        int done = jumps.Count(j => j.Until <= shows);
        long at = 0;
        int next = 0;
        while (true)
        {
            long setAt = next < set.Count ? set[next].At : long.MaxValue;
            long jumpAt = done < jumps.Count ? at + (long)(jumps[done].Until - shows).TotalSeconds : long.MaxValue;
            if (setAt == long.MaxValue && (jumpAt == long.MaxValue || jumpAt > at + 400 * 86_400L))
            {
                break;
            }

            if (jumpAt < setAt)
            {
                (at, shows) = (jumpAt, jumps[done].Until + jumps[done].Jump);
                done++;
                display.Add((at, shows, ClockChangeCause.ByItself));
            }
            else
            {
                (at, shows) = (set[next].At, set[next].Shows);
                display.Add((at, shows, set[next].Cause));
                done = jumps.Count(j => j.Until <= shows);
                next++;
            }

            if (display.Count > 60)
            {
                break;
            }
        }
    }

    /// <summary>When the local time of a zone jumps, found by looking at every quarter of an hour, then minute by minute.</summary>
    private static class Jumps
    {
        private static readonly System.Collections.Concurrent.ConcurrentDictionary<string, List<(
            DateTime Until, TimeSpan Jump)>> Found = [];

        public static List<(DateTime Until, TimeSpan Jump)> Of(DateTimeZone zone)
        {
            if (!Found.TryGetValue(zone.Id, out List<(DateTime, TimeSpan)>? jumps))
            {
                jumps = [];
                Instant end = Instant.FromUtc(2045, 1, 1, 0, 0);
                Offset before = zone.GetUtcOffset(Instant.FromUtc(1995, 1, 1, 0, 0));
                for (Instant at = Instant.FromUtc(1995, 1, 1, 0, 0); at < end; at = at + Duration.FromMinutes(15))
                {
                    Offset now = zone.GetUtcOffset(at);
                    if (now != before)
                    {
                        while (zone.GetUtcOffset(at - Duration.FromMinutes(1)) == now)
                        {
                            at -= Duration.FromMinutes(1);
                        }

                        jumps.Add((at.WithOffset(before).LocalDateTime.ToDateTimeUnspecified(), (now - before).ToTimeSpan()));
                        before = now;
                    }
                }

                Found[zone.Id] = jumps;
            }

            return jumps;
        }
    }
}
