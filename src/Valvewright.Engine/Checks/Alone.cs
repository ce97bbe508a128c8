using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>A reading judged by itself, where there is no plan to compare it with.</summary>
internal static class Alone
{
    /// <summary>Fewer starts than these may well be cycles that a person wanted.</summary>
    private const int FewestStartsForClassic = 3;

    public static void Inspect(Inspection on)
    {
        ReadProgram[] read = [.. on.Reading.Programs.DistinctBy(p => p.Letter)];
        foreach (ReadProgram program in read)
        {
            Program found = on.Found.ProgramOf(program.Letter);
            Empty(on, program, found);
            Days(on, program, found);
            Runoff(on, program, found);
        }

        // A program that is its own trouble is fixed before it is judged beside others.
        HashSet<char> classics = [.. read.Where(p => IsClassic(on, p)).Select(p => p.Letter)];
        foreach (char letter in classics)
        {
            Classic(on, on.Found.ProgramOf(letter));
        }

        AsFound otherwise = on.Found.After(on.Suspects.Where(s => s.Kind == FindingKind.StartsUsedAsStations).SelectMany(s => s.Mend));
        Stations(on, read);
        Times(on, otherwise);
    }

    private static void Empty(Inspection on, ReadProgram read, Program found)
    {
        bool starts = found.StartTimes.Count > 0, runs = found.RunTimes.Count > 0,
            days = found.Days is not (null or DaysOfWeek { Days.Count: 0 });
        if ((read.StartTimes is null || !starts) && (read.RunTimes is null || !runs) && (read.Days is null || !days))
        {
            return;
        }

        // Run times without the rest are often what is left of a program that was given up: no harm where the stations run elsewhere.
        bool served = runs && found.RunTimes.All(r => on.Found.Settings.Programs
            .Any(p => p.Letter != found.Letter && Expectation.IsActive(p) && RunsAgainstPlan.SecondsAt(p, r.Station) > 0));
        if (served)
        {
            return;
        }

        Certainty certainty = runs ? Certainty.Likely : Certainty.Possible;
        string outside = on.Words.Say("empty.out", found.Letter);
        if (read.StartTimes is not null && !starts)
        {
            on.Suspect(FindingKind.EmptyPart, certainty, found.Letter, [], on.Words.Say("empty.starts", found.Letter), outside);
        }
        else if (read.RunTimes is not null && !runs)
        {
            on.Suspect(FindingKind.EmptyPart, certainty, found.Letter, [], on.Words.Say("empty.runs", found.Letter), outside);
        }
        else if (read.Days is not null && !days)
        {
            on.Suspect(FindingKind.EmptyPart, certainty, found.Letter, [], on.Words.Say("empty.days", found.Letter), outside);
        }
    }

    private static void Days(Inspection on, ReadProgram read, Program found)
    {
        if (read.Days is { Kind: DayRuleKind.Interval, IntervalDays: { } n, DaysLeft: { } left } && left >= n)
        {
            on.Suspect(
                FindingKind.IntervalWrongDay, Certainty.Sure, found.Letter, [],
                    on.Words.Say("interval.alone", found.Letter, n, left, n - 1),
                on.Words.Say("interval.out"), new DaysChange(found.Letter, new EveryNDays(n, on.ControllerDate)));
        }

        if (found.Days is OddDays && !on.Profile.OddSkips31)
        {
            ListOf<KeyChange> mend = on.Profile.DayRules.Contains(DayRuleKind.Interval) && on.Profile.LargestIntervalDays >= 2
                ? [new DaysChange(found.Letter,
                    new EveryNDays(2, on.ControllerDate.Day % 2 == 1 ? on.ControllerDate : on.ControllerDate.PlusDays(1)))]
                : [];
            on.Suspect(FindingKind.OddOnThe31st, Certainty.Possible, found.Letter, [], DaysAgainstPlan.OddText(on, found.Letter),
                on.Words.Say("odd.out"), mend);
        }
    }

    private static void Runoff(Inspection on, ReadProgram read, Program found)
    {
        if (read.RunTimes is null)
        {
            return;
        }

        int percent = on.Reading.Percent ?? 100;
        foreach (RunTime run in found.RunTimes)
        {
            int opened = on.AtPercent(run.Seconds, percent);
            if (RunsAgainstPlan.ExceededCycle(on.Controller, run.Station, opened) is { } longest)
            {
                int step = Math.Max(1, on.Profile.RunTimeStepSeconds);
                on.Suspect(
                    FindingKind.RunsOff, Certainty.Likely, found.Letter, [run.Station],
                    on.Words.Say("runoff", found.Letter, on.Capital(run.Station), CheckWords.Duration(opened),
                        CheckWords.Duration(longest)),
                    on.Words.Say("runoff.out"),
                        new RunChange(found.Letter, run.Station, Math.Max(step, longest * 100 / Math.Max(1, percent) / step * step)));
            }
        }
    }

    private static bool IsClassic(Inspection on, ReadProgram read)
    {
        if (read.StartTimes is null || read.RunTimes is null)
        {
            return false;
        }

        Program found = on.Found.ProgramOf(read.Letter);
        int percent = on.Reading.Percent ?? 100;
        return Checks.Classic.StepsFollowStations(found, r => r.Seconds, on.Profile.Stations)
            || Checks.Classic.StepsFollowStations(found, r => on.AtPercent(r.Seconds, percent), on.Profile.Stations)
            || (found.StartTimes.Count >= FewestStartsForClassic && Checks.Classic.StartsMatchStationsAndOverlap(found, r => r.Seconds));
    }

    private static void Classic(Inspection on, Program found)
    {
        int n = found.StartTimes.Count, times = Checks.Classic.TimesADay(on, found);
        Certainty certainty = n >= FewestStartsForClassic ? Certainty.Sure : Certainty.Likely;
        on.Suspect(
            FindingKind.StartsUsedAsStations, certainty, found.Letter, [],
                on.Words.Say("classic", found.Letter, n, found.RunTimes.Count, 1, times), on.Words.Say("classic.out", times),
            found.StartTimes.Skip(1).Select(KeyChange (s) => new StartChange(found.Letter, s, null)).ToListOf());
    }

    private static void Stations(Inspection on, ReadProgram[] read)
    {
        bool allRead = Enumerable.Range(0, on.Profile.Programs)
            .All(i => read.Any(p => p.Letter == Profile.LetterOf(i) && p.RunTimes is not null));
        foreach (int station in Expectation.Wired(on.Controller))
        {
            Program[] with = [.. on.Found.Settings.Programs.Where(p => RunsAgainstPlan.SecondsAt(p, station) > 0)];
            Program[] active = [.. with.Where(Expectation.IsActive)];
            if (with.Length == 0 && allRead)
            {
                bool saidSo = read.All(p => p.RunTimes is null or { Count: 0 } || p.RunTimes.Any(r => r.Station == station));
                on.Suspect(
                    FindingKind.StationInNoProgram, saidSo ? Certainty.Sure : Certainty.Likely, null, [station],
                        on.Words.Say("nowhere", on.Capital(station)),
                    on.Words.Say("nowhere.out", on.Capital(station)));
            }
            else if (active.Length > 1)
            {
                on.Suspect(
                    FindingKind.StationInTwoPrograms, Certainty.Likely, active[1].Letter, [station],
                        on.Words.Say("two", on.Capital(station), active[0].Letter, active[1].Letter),
                    on.Words.Say("two.out", on.Capital(station)), new RunChange(active[1].Letter, station, 0));
            }
        }
    }

    private static void Times(Inspection on, AsFound held)
    {
        Doings doings = on.World.Run(held with { Off = false, RainHoldDays = 0, ClockShows = null });
        foreach (char letter in on.World.OutsidePermitted(doings).Select(r => r.Program).Distinct().Order())
        {
            Outside(on, held, held.ProgramOf(letter));
        }

        foreach ((char late, char running, _) in doings.Overlaps().OrderBy(o => (o.Late, o.Running)))
        {
            bool self = late == running;
            bool beside = doings.Overlap == OverlapBehaviour.RunsBeside && !self;
            string text = self ? on.Words.Say("alone.self", late) : on.Words.Say(Consequences.Name("alone", doings.Overlap), late, running);
            on.Suspect(
                FindingKind.Overlap, self || doings.Overlap == OverlapBehaviour.Lost ? Certainty.Likely : Certainty.Possible,
                    late, [], text,
                on.Words.Say(beside ? "beside.out" : "overlap.out"));
        }

        if (on.World.TooMuchFlow(doings) is { } first)
        {
            on.Suspect(
                FindingKind.SharedPipe, Certainty.Likely, null, [],
                    on.Words.Say("alone.flow", on.Supply, on.Words.Moment(on.World.SiteTime(first))), on.Words.Say("flow.out"));
        }
    }

    /// <summary>Which of hours, days and halves of the day is to blame: whichever change puts the program within what is
    /// permitted.</summary>
    private static void Outside(Inspection on, AsFound held, Program program)
    {
        AsFound only = held with
            { Off = false, RainHoldDays = 0, ClockShows = null, Settings = held.Settings with { Programs = [program] } };
        List<LocalTime> bad = [.. program.StartTimes.Where(s => IsOutside(only.With(program with { StartTimes = [s] })))];
        bool anyDay = bad.Count == program.StartTimes.Count && !IsOutside(only.With(program with { Days = PermittedDays(on) }));
        if (anyDay)
        {
            on.Suspect(FindingKind.OutsideDays, Certainty.Sure, program.Letter, [], on.Words.Say("alone.days", program.Letter, on.Supply),
                on.Words.Say("hours.out"), new DaysChange(program.Letter, PermittedDays(on)));
            return;
        }

        foreach (LocalTime start in bad)
        {
            LocalTime turned = start.PlusHours(12);
            bool mends = !BeginsInside(only.With(program with { StartTimes = [start] })) && !program.StartTimes.Contains(turned)
                && !IsOutside(only.With(program with { StartTimes = [turned] }));
            if (mends)
            {
                on.Suspect(
                    FindingKind.HalfDaySlip, Certainty.Likely, program.Letter, [],
                    on.Words.Say("half", program.Letter, on.Words.Time(start), on.Words.Time(turned)) + " " + on.Words
                        .Say("then.hours", on.Supply),
                    on.Words.Say("half.out", on.Words.Time(start)), new StartChange(program.Letter, start, turned));
            }
            else
            {
                on.Suspect(
                    FindingKind.OutsideHours, Certainty.Sure, program.Letter, [], on.Words.Say("alone.hours", program.Letter, on.Supply),
                        on.Words.Say("start.out", on.Words.Time(start)),
                    program.StartTimes.Count > bad.Count ? [new StartChange(program.Letter, start, null)] : []);
            }
        }

        bool BeginsInside(AsFound candidate) => on.World.Run(candidate).Runs is [var first, ..] && on.World.IsPermitted(first.Opens);

        bool IsOutside(AsFound candidate) => on.World.OutsidePermitted(on.World.Run(candidate)).Count > 0;
    }

    private static DayRule PermittedDays(Inspection on) => on.World.Permitted switch
    {
        { Parity: Supply.DateParity.Odd } => new OddDays(),
        { Parity: Supply.DateParity.Even } => new EvenDays(),
        { } permitted => new DaysOfWeek(permitted.Weekdays),
        null => new DaysOfWeek(Supply.PermittedTimes.EveryWeekday),
    };
}
