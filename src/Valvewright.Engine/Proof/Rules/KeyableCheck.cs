using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Proof.Rules;

/// <summary>Whether everything in a controller's plan can be set in a controller of its profile.</summary>
internal sealed class KeyableCheck
{
    private readonly SiteController controller;
    private readonly Profile profile;
    private readonly BreachList breaches;

    private KeyableCheck(SiteController controller, BreachList breaches) =>
        (this.controller, profile, this.breaches) = (controller, controller.Profile, breaches);

    public static void Run(SiteController controller, ControllerPlan plan, BreachList breaches) =>
        new KeyableCheck(controller, breaches).CheckPlan(plan);

    private void CheckPlan(ControllerPlan plan)
    {
        Settings settings = plan.Settings;
        foreach (int percent in plan.Visits.Select(v => v.Percent).Where(p => p != 0).Append(settings.PercentAdjust).Distinct())
        {
            Must(CanBeSet(profile.Percent, percent), controller.Name,
                $"percent adjust {percent}; it takes {profile.Percent.Least} to {profile.Percent.Largest} in steps of {profile.Percent.Step}");
        }

        Must(plan.Visits.Zip(plan.Visits.Skip(1)).All(v => v.First.Date < v.Second.Date), controller.Name,
            "the visits are not in date order");
        foreach (ListOf<Program> programs in plan.ProgramSets)
        {
            Must(programs.Count <= profile.Programs, controller.Name, $"{programs.Count} programs; it holds {profile.Programs}");
            Must(programs.Select(p => p.Letter).Distinct().Count() == programs.Count, controller.Name, "one program letter is used twice");
        }

        foreach (Program program in plan.ProgramSets.SelectMany(p => p).Distinct())
        {
            CheckProgram(program);
        }
    }

    private void CheckProgram(Program program)
    {
        string where = $"{controller.Name}, program {program.Letter}";
        int index = program.Letter - 'A';
        Must(index >= 0 && index < profile.Programs, where, $"it has programs A to {Profile.LetterOf(profile.Programs - 1)}");
        CheckStarts(program, where);
        CheckDays(program, where);
        Must(program.RunTimes.Zip(program.RunTimes.Skip(1)).All(r => r.First.Station < r.Second.Station), where,
            "its stations are not in rising order, each once");
        foreach (RunTime run in program.RunTimes)
        {
            CheckRun(run, $"{where}, station {run.Station}");
        }
    }

    private void CheckStarts(Program program, string where)
    {
        Must(program.StartTimes.Count <= profile.StartTimesPerProgram, where,
            $"{program.StartTimes.Count} start times; it holds {profile.StartTimesPerProgram}");
        Must(program.StartTimes.Distinct().Count() == program.StartTimes.Count, where, "one start time is set twice");
        foreach (LocalTime start in program.StartTimes)
        {
            long step = profile.StartStepMinutes * NodaConstants.NanosecondsPerMinute;
            Must(start.NanosecondOfDay % step == 0, where,
                $"start time {start:HH:mm:ss}; start times go in steps of {profile.StartStepMinutes} min");
        }
    }

    private void CheckDays(Program program, string where)
    {
        if (program.Days is not { } days)
        {
            return;
        }

        Must(profile.DayRules.Contains(days.Kind), where,
            $"watering days by {Word(days.Kind)}; it offers {Sentence.Together(profile.DayRules.Select(Word), ", ")}");
        Must(days is not EveryNDays every || (every.Days >= 1 && every.Days <= profile.LargestIntervalDays), where,
            $"every {(days as EveryNDays)?.Days} days; it takes 1 to {profile.LargestIntervalDays}");
        Must(days is not DaysOfWeek week || week.Days.Distinct().Count() == week.Days.Count, where, "one day of the week is set twice");
    }

    private void CheckRun(RunTime run, string where)
    {
        bool wired = run.Station >= 1 && run.Station <= profile.Stations && controller.Zones.Any(z => z.Station == run.Station);
        if (!wired)
        {
            Sentence what = run.Station >= 1 && run.Station <= profile.Stations ? (Sentence)"a run time, but no zone is wired to it"
                : (Sentence)$"it has stations 1 to {profile.Stations}";
            breaches.Add(BreachKind.StationWithoutZone, where, what);
        }

        Must(run.Seconds > 0 && run.Seconds <= profile.RunTimeLimitSeconds, where,
            $"run time of {run.Seconds} s; it takes up to {profile.RunTimeLimitSeconds} s");
        Must(run.Seconds % profile.RunTimeStepSeconds == 0, where,
            $"run time of {run.Seconds} s; run times go in steps of {profile.RunTimeStepSeconds} s");
    }

    private void Must(bool holds, string where, Sentence what)
    {
        if (!holds)
        {
            breaches.Add(BreachKind.NotKeyable, where, what);
        }
    }

    private static bool CanBeSet(PercentRange range, int percent) =>
        percent == 100 || (percent >= range.Least && percent <= range.Largest && (percent - range.Least) % range.Step == 0);

    private static Sentence Word(DayRuleKind kind) => kind switch
    {
        DayRuleKind.DaysOfWeek => "days of the week",
        DayRuleKind.Odd => "odd dates",
        DayRuleKind.Even => "even dates",
        _ => "intervals of days",
    };
}
