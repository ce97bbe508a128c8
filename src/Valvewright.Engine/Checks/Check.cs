using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>What is wrong with what a controller holds, and what fixes it (docs/checks.md).</summary>
public static class Check
{
    private const int MostTimesShown = 3;

    /// <summary>Judges a reading against the plan, or by itself.</summary>
    /// <param name="site">The survey.</param>
    /// <param name="controller">The controller that was read.</param>
    /// <param name="plan">The plan of the site; null, or without this controller: the reading is judged by itself.</param>
    /// <param name="reading">What was read; what was not read is never blamed.</param>
    /// <param name="context">When it was read, unless the reading says so itself, and the language of the answer.</param>
    public static CheckResult Of(Site site, SiteController controller, Plan? plan, Reading reading, CheckContext context)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(controller);
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(context);
        Inspection on = new(site, controller, plan, reading, context);
        WholeController.Inspect(on);
        ClockReading.Inspect(on);
        if (on.Planned is not null)
        {
            AgainstPlan.Inspect(on);
        }
        else
        {
            Alone.Inspect(on);
        }

        Finding[] findings = [.. Weighed(on)];
        return new CheckResult(
            findings.OrderBy(f => f.Certainty).ThenByDescending(WeightOf).ThenBy(f => f.Kind).ThenBy(f => f.Program).ToListOf(),
            Questions.Next(on),
            on.Planned is not null);
    }

    /// <summary>The suspects with their effect: all fixed, beside all fixed but one.</summary>
    private static IEnumerable<Finding> Weighed(Inspection on)
    {
        AsFound mended = on.Found.After(on.Suspects.SelectMany(s => s.Mend));
        Doings after = on.World.Run(mended);
        WeekOfWater weekAfter = on.World.WeekOf(after);
        foreach (Suspect suspect in on.Suspects)
        {
            if (suspect.Mend.Count == 0)
            {
                yield return Found(on, suspect, null, []);
                continue;
            }

            Doings before = on.World.Run(on.Found.After(on.Suspects.Where(s => s != suspect).SelectMany(s => s.Mend)));
            Effect? effect = before.Runs.Count + after.Runs.Count == 0 ? null : new Effect(on.World.WeekOf(before), weekAfter);
            yield return Found(on, suspect, effect, ShowingsOf(on, before, after));
        }
    }

    private static Finding Found(Inspection on, Suspect suspect, Effect? effect, ListOf<Showing> shows)
    {
        bool doubtful = on.RestsOnDoubt(suspect);
        string explanation = suspect.Because;
        if (shows.Count > 0)
        {
            Showing first = shows[0];
            explanation += " " + on.Words
                .Say(first.Runs ? "shows.runs" : "shows.idle", on.Words.Moment(first.At), on.Words.Stations([first.Station]));
        }

        // Days left are set on the date that the clock shows by then.
        LocalDate counted = on.Suspects.Any(s => s.Mend.Any(m => m is ClockKeyed)) ? on.RightClock.Date : on.ControllerDate;
        return new Finding(
            suspect.Kind, doubtful ? Certainty.Possible : suspect.Certainty, suspect.Program, suspect.Stations, explanation,
                suspect.Outside, suspect.Mend,
            suspect.Mend.Select(c => on.Words.Change(c, counted)).ToListOf(), effect, shows) { RestsOnDoubt = doubtful };
    }

    /// <summary>The first times at which one world waters and the other does not, one a start.</summary>
    private static ListOf<Showing> ShowingsOf(Inspection on, Doings before, Doings after)
    {
        ILookup<int, long> wanted = after.Runs.ToLookup(r => r.Station, r => r.Opens),
            found = before.Runs.ToLookup(r => r.Station, r => r.Opens);
        IEnumerable<(Opened Run, bool Runs)> differing = before.Runs.Where(r => !IsAmong(wanted, r)).Select(r => (r, true))
            .Concat(after.Runs.Where(r => !IsAmong(found, r)).Select(r => (r, false)));
        return differing.OrderBy(d => d.Run.Opens).ThenBy(d => !d.Runs)
            .DistinctBy(d => (d.Run.Program, d.Run.Start, d.Run.Shown.Date, d.Runs))
            .Take(MostTimesShown)
            .Select(d => new Showing(on.World.SiteTime(d.Run.Opens), d.Run.Station, d.Runs)).ToListOf();

        // No one notices a shift of minutes.
        static bool IsAmong(ILookup<int, long> runs, Opened run) =>
            runs[run.Station].Any(opens => Math.Abs(opens - run.Opens) <= ClockReading.ToleranceMinutes * 60);
    }

    /// <summary>Litres a week that are too many or too few; the mere times of day weigh nothing beside them.</summary>
    private static double WeightOf(Finding finding) =>
        finding.Effect is { } effect ? Math.Abs(effect.AsItIs.Litres - effect.Mended.Litres) : 0;
}
