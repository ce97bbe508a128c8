using System.Diagnostics;
using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Season;
using Valvewright.Planning;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Hours;
using Valvewright.Planning.Programs;

namespace Valvewright.Bench;

/// <summary>Time from programs and dates to proven start times: the project's model beside the time-indexed one.</summary>
internal static class PlannerRace
{
    private const int Repeats = 3;
    private const double Effort = 20;

    public static void Run(Site site, ListOf<Climate> training)
    {
        PlannerOptions options = new();
        LocalDate first = new(training.Max(t => t.Last).Year + 1, 1, 1);
        foreach (string supply in site.Controllers.Select(c => c.Supply).Distinct())
        {
            ControllerCase[] cases = [.. site.Controllers.Where(c => c.Supply == supply && c.Zones.Count > 0)
                .Select(c => new ControllerCase(site, c, options, first, new ZoneMemory(training, new YearsOfZones(training))))];
            List<ProgramSearch?> each = [
                .. cases.Select(c => ProgramSearch
                    .Run(new ProgramModel([c], 1, withLesser: false), options, options.EffortSeconds, CancellationToken.None, out _))];
            EarlyHours[] early = [.. cases.Select(c => EarlyHours.Of(site, c.Profile, first))];
            if (each.Contains(null) || new HoursSearch(cases, early, options, first).Find(ProgramSearch
                .Together([.. each.OfType<ProgramSearch>()]).Programs, options.EffortSeconds, CancellationToken.None) is not { } timed)
            {
                Console.WriteLine($"{site.Name}, {supply}: no plan to race on");
                continue;
            }

            int tenths = (int)Math.Floor(cases[0].Supply.FlowLpm * 10 + 1e-6);
            List<DateSet> dates = HoursSearch.DatesOf(timed.Programs, timed.Rules, first);
            double[] own = new double[Repeats], plain = new double[Repeats];
            TimedStarts? found = null;
            (long Weighed, bool IsProven, double) indexed = default;
            for (int i = 0; i < Repeats; i++)
            {
                long start = Stopwatch.GetTimestamp();
                found = new HoursModel(timed.Programs, timed.Rules, dates, tenths, [0], Tidiness.Least)
                    .Solve(Effort, CancellationToken.None, out _, HoursAim.Outside);
                own[i] = Stopwatch.GetElapsedTime(start).TotalSeconds;
                start = Stopwatch.GetTimestamp();
                indexed = PlannerTimeIndexed.Solve(timed.Programs, timed.Rules, dates, tenths, Effort);
                plain[i] = Stopwatch.GetElapsedTime(start).TotalSeconds;
            }

            Array.Sort(own);
            Array.Sort(plain);
            Console.WriteLine($"{site.Name}, {supply}: {timed.Programs.Count} programs, {dates.Count} kinds of dates");
            Console.WriteLine(
                $"  intervals     median {own[Repeats / 2],8:0.000} s, {found?.WeighedSeconds / 60.0:0.0} weighed min, {(found?.IsProven == true ? "proven" : "not proven")}");
            Console.WriteLine(
                $"  time-indexed  median {plain[Repeats / 2],8:0.000} s, {indexed.Weighed / 60.0:0.0} weighed min, {(indexed.IsProven ? "proven" : "not proven")}; {plain[Repeats / 2] / own[Repeats / 2]:0.0} times as long");
        }
    }
}
