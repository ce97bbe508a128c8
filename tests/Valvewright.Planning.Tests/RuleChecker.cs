using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;

namespace Valvewright.Planning.Tests;

/// <summary>
/// Holds a plan to every rule by what the emulator says the controllers do, second by second; knows nothing of how plans are made.
/// </summary>
internal static class RuleChecker
{
    /// <summary>Every breach over the dates, in words.</summary>
    public static List<string> Breaches(Site site, Plan plan, LocalDate from, int days, int guardSeconds)
    {
        List<string> breaches = [];
        Dictionary<string, Timeline> timelines = [];
        foreach (SiteController controller in site.Controllers)
        {
            ControllerPlan own = plan.For(controller.Name);
            breaches.AddRange(ProfileBreaches(controller, own));
            Timeline timeline = Emulator.Run(controller.Profile, own.Settings, from, from.PlusDays(days));
            timelines[controller.Name] = timeline;
            breaches.AddRange(OwnBreaches(site, controller, own, timeline));
        }

        foreach (WaterSupply supply in site.Supplies)
        {
            breaches.AddRange(FlowBreaches(supply, [.. site.Controllers.Where(c => c.Supply == supply.Name)], timelines, guardSeconds));
        }

        return breaches;
    }

    private static IEnumerable<string> ProfileBreaches(SiteController controller, ControllerPlan plan)
    {
        Profile profile = controller.Profile;
        string name = controller.Name;
        if (plan.Settings.Programs.Count > profile.Programs)
        {
            yield return $"{name}: {plan.Settings.Programs.Count} programs";
        }

        int[] stations = [.. plan.Settings.Programs.SelectMany(p => p.RunTimes).Select(r => r.Station).Order()];
        if (!stations.SequenceEqual(controller.Zones.Select(z => z.Station).Order()))
        {
            yield return $"{name}: stations {string.Join(',', stations)}";
        }

        foreach (Program program in plan.Settings.Programs)
        {
            if (program.StartTimes.Count > profile.StartTimesPerProgram || program.StartTimes.Count == 0)
            {
                yield return $"{name} {program.Letter}: {program.StartTimes.Count} starts";
            }

            foreach (LocalTime start in program.StartTimes
                .Where(s => s.NanosecondOfDay / NodaConstants.NanosecondsPerMinute % profile.StartStepMinutes != 0))
            {
                yield return $"{name} {program.Letter}: start {start} is off the step";
            }

            if (!profile.DayRules.Contains(program.Days!.Kind) || program.Days is EveryNDays every
                && every.Days > profile.LargestIntervalDays)
            {
                yield return $"{name} {program.Letter}: rule {program.Days}";
            }

            foreach (RunTime run in program.RunTimes
                .Where(r => r.Seconds <= 0 || r.Seconds % profile.RunTimeStepSeconds != 0 || r.Seconds > profile.RunTimeLimitSeconds))
            {
                yield return $"{name} {program.Letter}: run time {run}";
            }
        }
    }

    private static IEnumerable<string> OwnBreaches(Site site, SiteController controller, ControllerPlan plan, Timeline timeline)
    {
        WaterSupply supply = site.SupplyNamed(controller.Supply);
        if (timeline.LostStarts.Count > 0)
        {
            yield return $"{controller.Name}: a start is lost";
        }

        long free = long.MinValue;
        Dictionary<int, long> closed = [];
        Dictionary<(int, LocalDate), double> depth = [];
        foreach (StationRun run in timeline.Runs.OrderBy(r => r.Opens))
        {
            Zone zone = controller.ZoneAt(run.Station);
            LocalTime due = plan.Settings.Programs.First(p => p.Letter == run.Program).StartTimes.Order().ElementAt(run.Start);
            if (run.Opens < free)
            {
                yield return $"{controller.Name}: station {run.Station} opens at {run.OpensAt} while another is open";
            }

            Program program = plan.Settings.Programs.First(p => p.Letter == run.Program);
            if (run.Station == program.RunTimes[0].Station)
            {
                LocalDateTime startsAt = run.OpensAt.Date.At(due);
                long late = run.Opens - ClockSeconds.From(startsAt);
                if (late != (controller.Profile.Pump?.LeadSeconds ?? 0) && late != 0)
                {
                    yield return $"{controller.Name}: program {run.Program} begins {late} s late at {run.OpensAt}";
                }
            }

            free = run.Closes;
            CycleAndSoak ground = CycleAndSoak.Of(zone);
            if (run.Seconds > (ground.LongestCycleSeconds ?? int.MaxValue))
            {
                yield return $"{controller.Name}: station {run.Station} runs {run.Seconds} s at a time";
            }

            if (closed.TryGetValue(run.Station, out long last) && run.Opens - last < ground.SoakSeconds)
            {
                yield return $"{controller.Name}: station {run.Station} soaks only {run.Opens - last} s before {run.OpensAt}";
            }

            closed[run.Station] = run.Closes;
            (int, LocalDate) day = (run.Station, run.OpensAt.Date);
            depth[day] = depth.GetValueOrDefault(day) + run.Seconds / 3600.0 * zone.Emission.PrecipitationRateMmPerHour;
            if (depth[day] > zone.LargestDepthPerDayMm + 1e-6)
            {
                yield return $"{controller.Name}: station {run.Station} gets {depth[day]:0.0} mm on {run.OpensAt.Date}";
            }

            bool exempt = supply.Permitted.DripIsExempt && zone.Emission.Kind is EmissionKind.Drip or EmissionKind.Bubbler;
            foreach (int behind in HoursBehind(site, controller))
            {
                if (!exempt && !IsPermitted(supply.Permitted, run, behind))
                {
                    yield return $"{controller.Name}: station {run.Station} is open from {run.OpensAt} to {run.ClosesAt} by a clock {behind} h behind";
                }
            }
        }
    }

    /// <summary>A clock kept on standard time all year is right in winter and an hour behind the watch in summer.</summary>
    private static int[] HoursBehind(Site site, SiteController controller) =>
        controller.Profile.ClockKnowsDaylightSaving || site.TimeZone is "Etc/UTC" ? [0] : [0, 1];

    /// <summary>Every minute of the run, and its last second, lies by the watch on a permitted date at a permitted hour, or in a window
    /// opened on the permitted date before.</summary>
    private static bool IsPermitted(PermittedTimes permitted, StationRun run, int hoursBehind)
    {
        for (long second = run.Opens; second < run.Closes; second += second + 60 < run.Closes ? 60 : Math.Max(1, run.Closes - 1 - second))
        {
            if (!IsPermitted(permitted, ClockSeconds.ToDateTime(second).PlusHours(hoursBehind)))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Whether water may flow at a moment by the watch.</summary>
    public static bool IsPermitted(PermittedTimes permitted, LocalDateTime watch) => permitted.Hours.Count == 0
        ? permitted.Permits(watch.Date)
        : permitted.Hours.Any(w => IsIn(w, watch.Date, watch) && permitted.Permits(watch.Date) || IsIn(w, watch.Date.PlusDays(-1), watch)
            && permitted.Permits(watch.Date.PlusDays(-1)));

    private static bool IsIn(TimeWindow window, LocalDate opened, LocalDateTime at)
    {
        LocalDateTime from = opened.At(window.From);
        return at >= from && at < from.PlusSeconds(window.Seconds);
    }

    /// <summary>Flow of the open stations never exceeds the supply, whichever way any two clocks are off by up to the guard.</summary>
    private static List<string> FlowBreaches(
        WaterSupply supply, SiteController[] controllers, Dictionary<string, Timeline> timelines, int guard)
    {
        List<string> breaches = [];
        int keep = controllers.Length > 1 ? guard : 0;
        List<(long At, int Controller, double Flow, int Sign)> events = [];
        for (int c = 0; c < controllers.Length; c++)
        {
            foreach (StationRun run in timelines[controllers[c].Name].Runs)
            {
                double flow = controllers[c].ZoneAt(run.Station).Emission.FlowLpm;
                events.Add((run.Opens, c, flow, 1));
                events.Add((run.Closes + keep, c, flow, -1));
            }
        }

        // A controller's stations follow each other: in the guard after a change the larger of the two flows counts, not their sum.
        List<double>[] open = [.. controllers.Select(_ => new List<double>())];
        foreach ((long at, int controller, double flow, int sign) in events.OrderBy(e => e.At).ThenBy(e => e.Sign))
        {
            if (sign > 0)
            {
                open[controller].Add(flow);
            }
            else
            {
                open[controller].Remove(flow);
            }

            double total = open.Sum(o => o.Count == 0 ? 0 : o.Max());
            if (total > supply.FlowLpm + 1e-6)
            {
                breaches.Add($"{supply.Name}: {total:0.0} L/min at {ClockSeconds.ToDateTime(at)}");
            }
        }

        return breaches;
    }
}
