using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Controllers.Mechanism;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof.ByHand;

/// <summary>What settings of a controller bring each zone on each date. The emulator runs once for all dates that are alike: the same programs
/// water on the date and on those of its history, and clocks are as far from UTC.</summary>
/// <remarks>A start never changes what ran before it, so a date depends on itself and the days before it. Those are the emulator's own days of
/// history, which is exact as long as the controller is idle at some time within them; where it is busy most of the day, the emulator runs
/// through all dates.</remarks>
internal sealed class SettingsByDate
{
    private const int History = Emulator.DaysOfHistory, MostPrograms = 8;
    private const int MostBusySeconds = 20 * 3600;

    /// <summary>Zone changes this many days after a date do not matter to it: what starts on it has ended.</summary>
    private const int DaysOfRuns = 4;
    private static readonly int UnixDayOfEpoch = SiteDays.Of(ClockSeconds.Epoch.Date);

    private readonly DateTimeZone zone;
    private readonly SiteController controller;
    private readonly Settings settings;
    private readonly KeyedProgram[] programs;
    private readonly bool isRepeating;
    private readonly Dictionary<(ulong Watering, long Before, long After, long Change), Share[]> alike = [];
    private readonly SiteDays days;

    public SettingsByDate(DateTimeZone zone, SiteController controller, Settings settings)
    {
        (this.zone, this.controller, this.settings, days) = (zone, controller, settings, new SiteDays(zone));
        KeyedSettings keyed = KeyedSettings.Of(settings, controller.Profile.Rounding);
        programs = [.. keyed.Starts.Select(s => s.Program).Distinct().Order().Select(p => keyed.Programs[p])];
        Profile profile = controller.Profile;
        int between = profile.PauseBetweenStationsSeconds + (profile.Pump is { } pump ? pump.LeadSeconds + pump.LagSeconds : 0);
        long busy = keyed.Starts.Sum(s => keyed.Programs[s.Program].Seconds.Sum(run => (long)run + between));
        isRepeating = programs.Length <= MostPrograms && busy <= MostBusySeconds;
    }

    /// <summary>Adds what a spell brings, mm.</summary>
    /// <param name="water">By station, by day.</param>
    /// <param name="spell">The dates.</param>
    /// <param name="first">The first of the days, since 1970.</param>
    public void AddTo(double[][] water, Spell spell, int first)
    {
        int from = SiteDays.Of(spell.From), to = SiteDays.Of(spell.To);
        if (!isRepeating)
        {
            Add(water, SharesOf(spell, from), from - first);
            return;
        }

        ulong watering = 0;
        for (int day = from - History; day <= to; day++)
        {
            // Eight bits a day; those of the day before the history fall out at the top.
            watering = (watering << MostPrograms) | WateringOn(day);
            if (day >= from && watering != 0)
            {
                (long before, long after, long change) = days.Offsets(
                    (day - 1L) * NodaConstants.SecondsPerDay, (day + (long)DaysOfRuns) * NodaConstants.SecondsPerDay);
                if (!alike.TryGetValue((watering, before, after, change), out Share[]? shares))
                {
                    LocalDate date = spell.From.PlusDays(day - from);
                    alike[(watering, before, after, change)] = shares = SharesOf(spell with { From = date, To = date }, day);
                }

                Add(water, shares, day - first);
            }
        }
    }

    private static void Add(double[][] water, Share[] shares, int day)
    {
        foreach (Share share in shares)
        {
            double[] own = water[share.Station];
            int at = day + share.DaysLater;
            if (at >= 0 && at < own.Length)
            {
                own[at] += share.DepthMm;
            }
        }
    }

    private ulong WateringOn(int day)
    {
        ulong watering = 0;
        for (int program = 0; program < programs.Length; program++)
        {
            watering |= programs[program].WatersOn(day - UnixDayOfEpoch, controller.Profile) ? 1UL << program : 0;
        }

        return watering;
    }

    private Share[] SharesOf(Spell spell, int day)
    {
        List<Opening> openings = [];
        Watered.Run(zone, controller, settings, spell, openings, []);
        return [.. openings.Where(o => o.Zone is not null).Select(o =>
            new Share(o.Zone!.Station, days.Of(o.OpensUnix) - day, o.DepthMm))];
    }

    /// <summary>Water of one opening.</summary>
    private readonly record struct Share(int Station, int DaysLater, double DepthMm);
}
