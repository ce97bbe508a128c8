using NodaTime;
using NodaTime.TimeZones;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Controllers.Mechanism;

/// <summary>Says what befalls a controller in the seconds that it counts.</summary>
internal static class Translation
{
    public static ControllerState Of(Profile profile, Settings atFirst, Circumstances circumstances, CountedTime clock, long end)
    {
        Refuse(profile, circumstances);
        List<Standstill> spells = [];
        foreach (OffSpell off in circumstances.Off)
        {
            spells.Add(new Standstill(
                LostReason.Off, clock.CountAt(off.From), off.To is LocalDateTime to ? clock.CountAt(to) : long.MaxValue));
        }

        foreach (RainHold hold in circumstances.RainHolds)
        {
            long set = clock.CountAt(hold.Set);
            spells.Add(new Standstill(LostReason.RainHold, set, set + hold.Days * ClockSeconds.PerDay));
        }

        List<Rekeying> rekeyings = [.. circumstances.Rekeyings];
        foreach (PowerLoss loss in circumstances.PowerLosses)
        {
            spells.Add(new Standstill(LostReason.NoPower, clock.CountAt(loss.From), clock.CountAt(loss.To), loss.ValveStaysOpen));
            if (loss.SettingsThen is not null)
            {
                rekeyings.Add(new Rekeying(loss.To, loss.SettingsThen));
            }
        }

        AddWetSpells(spells, circumstances.Sensor, clock);
        AddSpellsAtZeroPercent(spells, rekeyings.Prepend(new Rekeying(circumstances.KeyedIn, atFirst)), clock);
        return new ControllerState
        {
            KeyedIn = clock.CountAt(circumstances.KeyedIn),
            Standstills = spells.ToListOf(),
            HandRuns = circumstances.RunsByHand.Select(r => new HandRun(clock.CountAt(r.At), r.Station, r.Seconds, r.Program)).ToListOf(),
            ClockChanges = ClockChanges(profile, circumstances, clock, end).ToListOf(),
            SettingsChanges = rekeyings.Select(r => new SettingsChange(clock.CountAt(r.At), r.Settings)).OrderBy(r => r.At).ToListOf(),
            DaysLeft = circumstances.DaysLeft,
        };
    }

    private static void Refuse(Profile profile, Circumstances circumstances)
    {
        foreach (RainHold hold in circumstances.RainHolds)
        {
            if (hold.Days < 1 || hold.Days > profile.LargestRainHoldDays)
            {
                throw new ArgumentException(
                    $"A rain delay of {hold.Days} days: '{profile.Name}' holds 1 to {profile.LargestRainHoldDays} days.",
                        nameof(circumstances));
            }
        }

        if (circumstances.Sensor is not null && !profile.HasSensorInput)
        {
            throw new ArgumentException($"A rain sensor: '{profile.Name}' has no input for one.", nameof(circumstances));
        }
    }

    private static void AddWetSpells(List<Standstill> spells, RainSensor? sensor, CountedTime clock)
    {
        for (int day = 0; day < sensor?.RainMm.Count; day++)
        {
            if (sensor.RainMm[day] >= sensor.ThresholdMm)
            {
                Instant wet = clock.Zone.AtLeniently(sensor.FirstDay.PlusDays(day) + sensor.FallsAt).ToInstant();
                spells.Add(new Standstill(
                    LostReason.SensorWet, clock.CountAt(wet), clock.CountAt(wet + Duration.FromHours(sensor.DryOutHours))));
            }
        }
    }

    /// <summary>Settings at percent 0, the first ones too, leave the controller off.</summary>
    private static void AddSpellsAtZeroPercent(List<Standstill> spells, IEnumerable<Rekeying> rekeyings, CountedTime clock)
    {
        (long At, Settings Settings)[] keyed = [.. rekeyings.Select(r => (At: clock.CountAt(r.At), r.Settings)).OrderBy(r => r.At)];
        for (int index = 0; index < keyed.Length; index++)
        {
            if (keyed[index].Settings.PercentAdjust == 0)
            {
                long until = index + 1 < keyed.Length ? keyed[index + 1].At : long.MaxValue;
                spells.Add(new Standstill(LostReason.Off, keyed[index].At, until));
            }
        }
    }

    /// <summary>Settings by hand, beginnings after power loss and, where the clock knows it, daylight saving, by rising time.</summary>
    private static List<ClockChange> ClockChanges(Profile profile, Circumstances circumstances, CountedTime clock, long end)
    {
        List<ClockChange> set =
        [
            .. circumstances.ClockSettings
                .Select(s => new ClockChange(clock.CountAt(s.At), ClockSeconds.From(s.To), ClockChangeCause.ByHand)),
            .. circumstances.PowerLosses.Where(l => l.ClockThen is not null)
                .Select(l => new ClockChange(clock.CountAt(l.To), ClockSeconds.From(l.ClockThen!.Value), ClockChangeCause.PowerBack)),
        ];
        List<ClockChange> inOrder = [.. set.OrderBy(c => c.At)];
        return profile.ClockKnowsDaylightSaving
            ? WithDaylightSaving(inOrder, circumstances.ShowsAtFirst(profile, clock.Zone), clock, end) : inOrder;
    }

    /// <summary>
    /// The clock changes when its own display comes to the moment at which the zone's local time changes, so that a
    /// clock set wrong changes at the wrong moment, too.
    /// </summary>
    private static List<ClockChange> WithDaylightSaving(List<ClockChange> set, LocalDateTime atFirst, CountedTime clock, long end)
    {
        List<ClockChange> changes = [];
        long shows = ClockSeconds.From(atFirst);
        long at = shows;
        for (int next = 0; ; next++)
        {
            // What it shows after a setting says in which part of the year it believes itself.
            ZoneInterval part = PartOf(clock.Zone, ClockSeconds.ToDateTime(shows));
            long until = next < set.Count ? set[next].At : end;
            while (part.HasEnd)
            {
                long changesAt = at + ClockSeconds.From(part.IsoLocalEnd) - shows;
                if (changesAt >= until)
                {
                    break;
                }

                ZoneInterval after = clock.Zone.GetZoneInterval(part.End);
                shows = ClockSeconds.From(after.IsoLocalStart);
                at = changesAt;
                if (after.WallOffset != part.WallOffset)
                {
                    changes.Add(new ClockChange(at, shows, ClockChangeCause.ByItself));
                }

                part = after;
            }

            if (next >= set.Count)
            {
                return changes;
            }

            changes.Add(set[next]);
            at = set[next].At;
            shows = set[next].Shows;
        }
    }

    private static ZoneInterval PartOf(DateTimeZone zone, LocalDateTime shown)
    {
        ZoneLocalMapping mapping = zone.MapLocal(shown);
        return mapping.Count == 0 ? mapping.LateInterval : mapping.EarlyInterval;
    }
}
