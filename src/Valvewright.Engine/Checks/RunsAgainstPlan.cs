using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>Run times beside the planned ones.</summary>
internal static class RunsAgainstPlan
{
    /// <summary>Cycles are whole minutes on most displays; so much over the longest is rounding.</summary>
    private const double CycleTolerance = 1.05;

    public static void Inspect(Inspection on, Consequences consequences, Program planned, Program found, ListOf<RunTime> read)
    {
        char letter = planned.Letter;
        if (found.RunTimes.Count == 0 && planned.RunTimes.Count > 0)
        {
            if (planned.RunTimes.Any(r => Elsewhere(on, letter, r.Station) is { } other
                && SecondsAt(on.Expected.ProgramOf(other.Letter), r.Station) == 0))
            {
                foreach (RunTime run in planned.RunTimes)
                {
                    Gone(on, letter, run.Station, run.Seconds);
                }

                return;
            }

            on.Suspect(
                FindingKind.EmptyPart, Certainty.Sure, letter, [], on.Words.Say("empty.runs", letter), on.Words.Say("empty.out", letter),
                planned.RunTimes.Select(KeyChange (r) => new RunChange(letter, r.Station, r.Seconds)).ToListOf());
            return;
        }

        foreach (int station in read.Select(r => r.Station).Distinct().Order())
        {
            int wanted = SecondsAt(planned, station), now = SecondsAt(found, station);
            if (wanted == now)
            {
                continue;
            }

            if (now == 0)
            {
                Gone(on, letter, station, wanted);
            }
            else if (wanted == 0)
            {
                Added(on, found, station);
            }
            else
            {
                Deviates(on, consequences, planned, station, wanted, now);
            }
        }
    }

    /// <summary>The longest cycle of a station where a run of so many seconds exceeds it; else null.</summary>
    public static int? ExceededCycle(SiteController controller, int station, int seconds) =>
        controller.Zones.FirstOrDefault(z => z.Station == station) is { } zone
        && CycleAndSoak.Of(zone).LongestCycleSeconds is { } longest && seconds > longest * CycleTolerance + 30
            ? longest
            : null;

    public static int SecondsAt(Program program, int station) => program.RunTimes.FirstOrDefault(r => r.Station == station).Seconds;

    /// <summary>Another program that runs a station; null where none does.</summary>
    private static Program? Elsewhere(Inspection on, char letter, int station) =>
        on.Found.Settings.Programs.FirstOrDefault(p => p.Letter != letter && SecondsAt(p, station) > 0 && Expectation.IsActive(p));

    private static void Gone(Inspection on, char letter, int station, int wanted)
    {
        RunChange back = new(letter, station, wanted);
        Program? elsewhere = Elsewhere(on, letter, station);
        if (elsewhere is null)
        {
            on.Suspect(
                FindingKind.StationInNoProgram, Certainty.Sure, letter, [station],
                on.Words.Say("nowhere", on.Capital(station)) + " " + on.Words.Say("nowhere.plan", letter, CheckWords.Duration(wanted)),
                on.Words.Say("nowhere.out", on.Capital(station)), back);
        }
        else if (SecondsAt(on.Expected.ProgramOf(elsewhere.Letter), station) == 0)
        {
            on.Suspect(
                FindingKind.StationInWrongProgram, Certainty.Sure, letter, [station],
                    on.Words.Say("wrongProgram", on.Capital(station), elsewhere.Letter, letter),
                on.Words.Say("wrongProgram.out", on.Capital(station)), back, new RunChange(elsewhere.Letter, station, 0));
        }
        else
        {
            on.Suspect(
                FindingKind.RunTimeDiffers, Certainty.Sure, letter, [station],
                on.Words.Say("run", letter, on.Capital(station), CheckWords.Duration(0), CheckWords.Duration(wanted)),
                on.Words.Say("run.out", on.Capital(station), on.Words.Say("run.short")), back);
        }
    }

    private static void Added(Inspection on, Program found, int station)
    {
        char letter = found.Letter;
        Program? home = on.Expected.Settings.Programs.FirstOrDefault(p => p.Letter != letter && SecondsAt(p, station) > 0);
        RunChange clear = new(letter, station, 0);
        if (home is null)
        {
            on.Suspect(
                FindingKind.RunTimeDiffers, Certainty.Sure, letter, [station],
                on.Words.Say("run", letter, on.Capital(station), CheckWords.Duration(SecondsAt(found, station)), CheckWords.Duration(0)),
                on.Words.Say("run.out", on.Capital(station), on.Words.Say("run.long")), clear);
        }
        else if (SecondsAt(on.Found.ProgramOf(home.Letter), station) > 0 && Expectation.IsActive(found))
        {
            bool homeWasRead = on.Reading.Programs.Any(p => p.Letter == home.Letter && p.RunTimes is not null);
            on.Suspect(
                FindingKind.StationInTwoPrograms, homeWasRead ? Certainty.Sure : Certainty.Likely, letter, [station],
                on.Words.Say("two", on.Capital(station), home.Letter, letter), on.Words.Say("two.out", on.Capital(station)), clear);
        }
    }

    private static void Deviates(Inspection on, Consequences consequences, Program planned, int station, int wanted, int now)
    {
        char letter = planned.Letter;
        int percent = on.Expected.Settings.PercentAdjust;
        RunChange mend = new(letter, station, wanted);
        ListOf<RunTime> runs = planned.RunTimes.Select(r => r.Station == station ? r with { Seconds = now } : r).ToListOf();
        (FindingKind? kind, string sentences) = consequences.Of(on.Expected.With(planned with { RunTimes = runs }));
        int opened = on.AtPercent(now, percent);
        if (now > wanted && ExceededCycle(on.Controller, station, opened) is { } longest
            && ExceededCycle(on.Controller, station, on.AtPercent(wanted, percent)) is null)
        {
            on.Suspect(
                FindingKind.RunsOff, Certainty.Sure, letter, [station],
                on.Words.Say("runoff", letter, on.Capital(station), CheckWords.Duration(opened), CheckWords.Duration(longest)) + " "
                    + on.Words.Say("runoff.plan", CheckWords.Duration(wanted)) + sentences,
                on.Words.Say("runoff.out"), mend);
            return;
        }

        on.Suspect(
            kind ?? FindingKind.RunTimeDiffers, Certainty.Sure, letter, [station],
            on.Words.Say("run", letter, on.Capital(station), CheckWords.Duration(now), CheckWords.Duration(wanted)) + sentences,
            on.Words.Say("run.out", on.Capital(station), on.Words.Say(now > wanted ? "run.long" : "run.short")), mend);
    }
}
