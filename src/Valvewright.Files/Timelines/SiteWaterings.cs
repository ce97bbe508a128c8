using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;

namespace Valvewright.Files.Timelines;

/// <summary>One opening of one valve of a site.</summary>
/// <param name="Controller">The controller's name.</param>
/// <param name="Station">Its station.</param>
/// <param name="Zone">What the station waters; empty where nothing is wired to it.</param>
/// <param name="Supply">The supply that the controller drinks from.</param>
/// <param name="Program">The program's letter.</param>
/// <param name="Start">Which of the program's start times, from 0.</param>
/// <param name="Opens">When it opens.</param>
/// <param name="Closes">When it closes.</param>
/// <param name="Shown">What the controller's display shows as it opens.</param>
/// <param name="FlowLpm">Flow while it is open.</param>
/// <param name="CarriedIn">Whether its start fell due before the dates asked for.</param>
public sealed record Watering(
    string Controller, int Station, string Zone, string Supply, char Program, int Start,
    Instant Opens, Instant Closes, LocalDateTime Shown, double FlowLpm, bool CarriedIn)
{
    /// <summary>How long it is open.</summary>
    public long Seconds => (long)(Closes - Opens).TotalSeconds;

    /// <summary>What flows through, litres.</summary>
    public double Litres => FlowLpm * Seconds / 60;
}

/// <summary>A start of a controller's program that is not followed.</summary>
/// <param name="Controller">The controller's name.</param>
/// <param name="Program">The program's letter.</param>
/// <param name="DueAt">When it falls due.</param>
/// <param name="Reason">Why it is not followed.</param>
public sealed record MissedStart(string Controller, char Program, Instant DueAt, LostReason Reason);

/// <summary>What a site's controllers open and close over some dates, by rising opening time.</summary>
/// <param name="Site">The site's name.</param>
/// <param name="TimeZone">The IANA name of its time zone.</param>
/// <param name="From">First date.</param>
/// <param name="To">Last date.</param>
/// <param name="Waterings">Every opening.</param>
/// <param name="MissedStarts">Starts that are not followed.</param>
public sealed record SiteWaterings(
    string Site, string TimeZone, LocalDate From, LocalDate To, ListOf<Watering> Waterings, ListOf<MissedStart> MissedStarts)
{
    /// <summary>So far back at most it is followed what a controller did since it was set.</summary>
    private const int MostDaysOfHistory = 400;

    /// <summary>Follows a plan's controllers through the emulator, visits included, clocks as plans have them.</summary>
    /// <param name="site">The site.</param>
    /// <param name="plan">Its plan; a controller without one opens nothing.</param>
    /// <param name="from">First date of the site.</param>
    /// <param name="to">Last date of the site.</param>
    /// <param name="only">One controller's name; null for all.</param>
    /// <param name="befalls">What befalls a controller besides, such as a rain delay or a wrong clock; null: nothing.</param>
    /// <param name="since">The date since which the plan is in force: nothing runs before it, and whatever waits in line is followed from
    /// there; null: a week before.</param>
    public static SiteWaterings Of(
        Site site, Plan plan, LocalDate from, LocalDate to, string? only = null,
            Func<SiteController, Circumstances, Circumstances>? befalls = null,
        LocalDate? since = null)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        List<Watering> waterings = [];
        List<MissedStart> missed = [];
        foreach (SiteController controller in site.Controllers)
        {
            ControllerPlan? own = plan.Controllers.FirstOrDefault(p => p.Controller == controller.Name);
            if (own is null || (only is not null && controller.Name != only))
            {
                continue;
            }

            SiteTimeline timeline = Follow(site.Zone(), controller, own, from, to, befalls, since);
            waterings.AddRange(timeline.CarriedIn.Select(r => ToWatering(controller, r, carriedIn: true)));
            waterings.AddRange(timeline.Runs.Select(r => ToWatering(controller, r, carriedIn: false)));
            missed.AddRange(timeline.LostStarts.Select(s => new MissedStart(controller.Name, s.Program, s.DueAt, s.Reason)));
        }

        return new SiteWaterings(
            site.Name, site.TimeZone, from, to,
            waterings.OrderBy(w => w.Opens).ThenBy(w => w.Controller, StringComparer.Ordinal).ThenBy(w => w.Station).ToListOf(),
            missed.OrderBy(m => m.DueAt).ToListOf());
    }

    /// <summary>The controller set when the plan came into force, or a week before, and visited as planned.</summary>
    private static SiteTimeline Follow(
        DateTimeZone zone, SiteController controller, ControllerPlan plan, LocalDate from, LocalDate to,
            Func<SiteController, Circumstances, Circumstances>? befalls,
        LocalDate? since)
    {
        LocalDate earliest = from.PlusDays(-MostDaysOfHistory);
        LocalDate keyedIn = since is not { } begin ? from.PlusDays(-Emulator.DaysOfHistory) : begin < earliest ? earliest : begin;
        if (keyedIn > to)
        {
            return new SiteTimeline([], [], [], []);
        }

        from = LocalDate.Max(from, keyedIn);
        Spell[] spells = [.. Spell.Of(plan, keyedIn, to.PlusDays(1))];
        Circumstances told = new()
        {
            KeyedIn = keyedIn.AtMidnight(),
            Rekeyings = spells.Select(s => new Rekeying(s.From.AtMidnight(), s.SettingsOf(plan))).ToListOf(),
        };
        return SiteEmulator.Run(controller.Profile, plan.SettingsOn(keyedIn), befalls?.Invoke(controller, told) ?? told, zone, from, to);
    }

    private static Watering ToWatering(SiteController controller, SiteRun run, bool carriedIn)
    {
        Zone? zone = controller.Zones.FirstOrDefault(z => z.Station == run.Station);
        return new Watering(
            controller.Name, run.Station, zone?.Name ?? "", controller.Supply, run.Program, run.Start,
            run.Opens, run.Closes, run.Shown, zone?.Emission.FlowLpm ?? 0, carriedIn);
    }
}
