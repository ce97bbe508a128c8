using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof.Water;

/// <summary>One opening of one station, in the controller's time and in real time.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Zone">The zone that the station waters; null where nothing is wired to it.</param>
/// <param name="Run">What the controller does, by its clock.</param>
/// <param name="OpensUnix">Opening as Unix seconds.</param>
/// <param name="ClosesUnix">Closing as Unix seconds.</param>
/// <param name="Percent">Percent adjust at the time.</param>
internal readonly record struct Opening(SiteController Controller, Zone? Zone, StationRun Run, long OpensUnix, long ClosesUnix, int Percent)
{
    /// <summary>Mean gross depth that falls on the zone, mm; 0 without a zone.</summary>
    public double DepthMm => Zone is null ? 0 : Zone.Emission.PrecipitationRateMmPerHour * (ClosesUnix - OpensUnix) / 3600.0;

    /// <summary>When it opens, in local time.</summary>
    public LocalDateTime SiteTime(DateTimeZone zone) => Instant.FromUnixTimeSeconds(OpensUnix).InZone(zone).LocalDateTime;
}

/// <summary>What a controller does between two dates, and the starts it drops.</summary>
internal sealed record Watered(IReadOnlyList<Opening> Openings, IReadOnlyList<LostStart> Lost)
{
    private const int LargestPercent = 1000;
    private const int LongestRunSeconds = 24 * 3600;
    private const int LongestPauseSeconds = 3600;

    /// <summary>Runs a controller's plan through the emulator, spell by spell.</summary>
    /// <param name="zone">The site's time zone.</param>
    /// <param name="controller">The controller.</param>
    /// <param name="plan">Its plan.</param>
    /// <param name="from">First date of starts, by the controller's clock.</param>
    /// <param name="to">Last date of starts.</param>
    public static Watered Of(DateTimeZone zone, SiteController controller, ControllerPlan plan, LocalDate from, LocalDate to)
    {
        List<Opening> openings = [];
        List<LostStart> lost = [];
        foreach (Spell spell in Spell.Of(plan, from, to).Where(IsOn))
        {
            Run(zone, controller, SettingsOf(plan, spell), spell, openings, lost);
        }

        return new Watered(openings, lost);
    }

    /// <summary>Whether anything can run in a spell.</summary>
    public static bool IsOn(Spell spell) => spell.Percent is > 0 and <= LargestPercent;

    /// <summary>What a spell has keyed in, as far as a controller can do anything with it.</summary>
    public static Settings SettingsOf(ControllerPlan plan, Spell spell) => Runnable(spell.SettingsOf(plan));

    /// <summary>Runs the settings of a spell through the emulator.</summary>
    public static void Run(DateTimeZone zone, SiteController controller, Settings settings, Spell spell, List<Opening> openings,
        List<LostStart> lost)
    {
        SiteClock clock = new(zone, controller.Profile);
        Zone?[] wired = new Zone?[Math
            .Max(controller.Profile.Stations, controller.Zones.Count == 0 ? 0 : controller.Zones.Max(z => z.Station)) + 1];
        foreach (Zone z in controller.Zones)
        {
            wired[z.Station] = z;
        }

        Timeline timeline = Emulator.Run(controller.Profile, settings, spell.From, spell.To);
        lost.AddRange(timeline.LostStarts);
        Dictionary<char, Opening> last = [];
        foreach (StationRun run in timeline.Runs)
        {
            // Within a run of a program time is simply counted on, whatever the clock then does.
            long opens = last.TryGetValue(run.Program, out Opening before) && before.Run.Start == run.Start
                && run.Opens - before.Run.Closes is >= 0 and < LongestPauseSeconds
                ? before.ClosesUnix + run.Opens - before.Run.Closes
                : clock.MomentOf(run.Opens).ToUnixTimeSeconds();
            Zone? watered = run.Station < wired.Length ? wired[run.Station] : null;
            openings.Add(last[run.Program] = new Opening(controller, watered, run, opens, opens + run.Seconds, spell.Percent));
        }
    }

    /// <summary>
    /// The settings without what no controller could do anything with; a saved plan can hold whatever a person wrote into it.
    /// (<see cref="KeyableCheck"/> tells of all that is left out.)
    /// </summary>
    private static Settings Runnable(Settings settings) => settings with
    {
        Programs = settings.Programs
            .Where(p => p.Days is not EveryNDays { Days: < 1 })
            .Select(p => p with { RunTimes = p.RunTimes.Where(r => r.Station > 0 && r.Seconds is > 0 and <= LongestRunSeconds)
                .GroupBy(r => r.Station).Select(g => g.First()).OrderBy(r => r.Station).ToListOf() })
            .GroupBy(p => p.Letter).Select(g => g.First())
            .ToListOf(),
    };
}
