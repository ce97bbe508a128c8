using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Controllers.Mechanism;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof.ByHand;

/// <summary>What settings of a controller bring each zone on each date. The emulator runs once for all dates that are alike: the same
/// programs water on the date and on those of its history, and clocks are as far from UTC.</summary>
/// <remarks>A start never changes what ran before it, so a date depends on itself and the days before it. Those are the emulator's own days
/// of history, which is exact as long as the controller is idle at some time within them; where it is busy most of the day, the emulator
/// runs
/// through all dates.</remarks>
internal sealed class SettingsByDate
{
    private const int History = Emulator.DaysOfHistory, MostPrograms = 8;
    private const int MostBusySeconds = 20 * 3600;

    /// <summary>Zone changes this many days after a date do not matter to it: what starts on it has ended.</summary>
    private const int DaysOfRuns = 4;

    /// <summary>What stands on the ground has gone in after a day: a date and the one before it decide what runs off.</summary>
    private const int DaysThatStand = 2;

    private static readonly int UnixDayOfEpoch = SiteDays.Of(ClockSeconds.Epoch.Date);

    private readonly DateTimeZone zone;
    private readonly SiteController controller;
    private readonly Settings settings;
    private readonly KeyedProgram[] programs;
    private readonly bool isRepeating;
    private readonly bool canRunOff;
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
        canRunOff = controller.Zones.Any(z => PondingGround.LongestCycleSeconds(z) < DaysThatStand * (double)keyed.Starts.Sum(s =>
            SecondsOf(keyed.Programs[s.Program], z.Station)));
        isRepeating = programs.Length <= MostPrograms && busy <= MostBusySeconds;
    }

    /// <summary>Adds what a spell brings, mm.</summary>
    /// <param name="water">What it is added to.</param>
    /// <param name="spell">The dates.</param>
    /// <param name="first">The first of the days, since 1970.</param>
    public void AddTo(StationWater water, Spell spell, int first)
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

    private static void Add(StationWater water, Share[] shares, int day)
    {
        foreach (Share share in shares)
        {
            double[] gross = water.GrossMm[share.Station];
            int at = day + share.DaysLater;
            if (at >= 0 && at < gross.Length)
            {
                gross[at] += share.GrossMm;
                water.NetMm[share.Station][at] += share.NetMm;
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

    private static int SecondsOf(KeyedProgram program, int station)
    {
        int at = Array.IndexOf(program.Stations, station);
        return at < 0 ? 0 : program.Seconds[at];
    }

    private Share[] SharesOf(Spell spell, int day)
    {
        List<Opening> openings = [], before = [];
        Watered.Run(zone, controller, settings, spell, openings, []);
        if (!canRunOff)
        {
            return [.. openings.Where(o => o.Zone is not null).Select(o => ShareOf(o, day, 0))];
        }

        LocalDate dayBefore = spell.From.PlusDays(-1);
        Watered.Run(zone, controller, settings, spell with { From = dayBefore, To = dayBefore }, before, []);
        List<Share> shares = [];
        foreach (Zone planted in controller.Zones)
        {
            PondingGround ground = new(planted);
            foreach ((Opening opening, bool isOwn) in before.Select(o => (o, false)).Concat(openings.Select(o => (o, true)))
                .Where(o => ReferenceEquals(o.Item1.Zone, planted)).OrderBy(o => o.Item1.OpensUnix))
            {
                double runoffMm = ground.Water(opening.OpensUnix, opening.ClosesUnix).RunoffMm;
                if (isOwn)
                {
                    shares.Add(ShareOf(opening, day, runoffMm));
                }
            }
        }

        return [.. shares];
    }

    private Share ShareOf(Opening opening, int day, double runoffMm) =>
        new(opening.Zone!.Station, days.Of(opening.OpensUnix) - day, opening.DepthMm, opening.DepthMm - runoffMm);

    /// <summary>Water of one opening.</summary>
    private readonly record struct Share(int Station, int DaysLater, double GrossMm, double NetMm);
}
