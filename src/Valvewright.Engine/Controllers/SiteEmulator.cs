using NodaTime;
using Valvewright.Engine.Controllers.Mechanism;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Controllers;

/// <summary>What a controller on a site really does, in true time (docs/emulator.md).</summary>
public static class SiteEmulator
{
    /// <summary>Every run whose start falls due on the site's dates from one to another, both included.</summary>
    /// <param name="profile">What the controller can hold and how it behaves.</param>
    /// <param name="settings">What was set at first.</param>
    /// <param name="circumstances">What befalls it.</param>
    /// <param name="zone">The site's time zone.</param>
    /// <param name="from">First date by site time.</param>
    /// <param name="to">Last date by site time.</param>
    /// <exception cref="ArgumentException">The profile has no rain delay of that length, or no sensor input.</exception>
    public static SiteTimeline Run(
        Profile profile, Settings settings, Circumstances circumstances, DateTimeZone zone, LocalDate from, LocalDate to)
    {
        ArgumentNullException.ThrowIfNull(profile);
        ArgumentNullException.ThrowIfNull(circumstances);
        ArgumentNullException.ThrowIfNull(zone);
        CountedTime clock = new(
            zone, circumstances.KeyedIn, circumstances.ShowsAtFirst(profile, zone), circumstances.DriftMillisecondsPerDay);
        long first = clock.CountAt(zone.AtStartOfDay(from).ToInstant());
        long end = clock.CountAt(zone.AtStartOfDay(to.PlusDays(1)).ToInstant());

        // Runs may open long after their start fell due, and the display may have changed by then.
        ControllerState state = Translation.Of(profile, settings, circumstances, clock, end + 60 * ClockSeconds.PerDay);
        TimelineSink sink = new();
        Emulator.Run(profile, settings, state, first, end, ref sink);
        return ToSite(sink.ToTimeline(), clock, state);
    }

    private static SiteTimeline ToSite(Timeline timeline, CountedTime clock, ControllerState state) => new(
        timeline.Runs.Select(r => ToSite(r, clock, state)).ToListOf(),
        timeline.CarriedIn.Select(r => ToSite(r, clock, state)).ToListOf(),
        timeline.LostStarts.Select(s => new SiteLostStart(s.Program, clock.InstantOf(s.DueAt), s.Reason)).ToListOf(),
        timeline.PumpRuns.Select(p => new Interval(clock.InstantOf(p.On), clock.InstantOf(p.Off))).ToListOf());

    private static SiteRun ToSite(StationRun run, CountedTime clock, ControllerState state)
    {
        long shown = run.Opens;
        foreach (ClockChange change in state.ClockChanges.AsSpan())
        {
            if (change.At > run.Opens)
            {
                break;
            }

            shown = run.Opens - change.At + change.Shows;
        }

        return new SiteRun(
            run.Station, run.Program, run.Start, clock.InstantOf(run.Opens), clock.InstantOf(run.Closes), ClockSeconds.ToDateTime(shown));
    }
}
