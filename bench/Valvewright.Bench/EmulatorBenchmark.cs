using System.Globalization;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;
using Valvewright.Tests.Twin;

namespace Valvewright.Bench;

/// <summary>
/// A year of a 12-station controller with three programs (lawns three days a week with a second cycle, shrubs on odd days,
/// trees every fifth day), and a year of a thousand such controllers, beside the slow twin of the tests.
/// </summary>
internal static class EmulatorBenchmark
{
    private const int Controllers = 1000;

    // One year is over before the machine has been noticed; so many in a row are timed.
    private const int InARow = 50;
    private static readonly LocalDate First = new(2026, 1, 1);
    private static readonly LocalDate Last = new(2026, 12, 31);

    /// <summary>Runs the benchmark. The first argument may say how many rounds.</summary>
    public static int Run(string[] arguments)
    {
        int rounds = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 21;
        (Profile Profile, Settings Settings)[] site = [.. Enumerable.Range(0, Controllers).Select(Typical)];
        (Profile profile, Settings settings) = site[0];
        Timeline year = Emulator.Run(profile, settings, First, Last);
        Console.WriteLine($"A year of a 12-station controller with 3 programs: {year.Runs.Count} station runs; median of {rounds} rounds");

        long counted = 0;
        double[] one = Race.Run(
            (long)year.Runs.Count * InARow,
            "station runs",
            rounds,
            ("into a timeline", () => InTurn(() => counted += Emulator.Run(profile, settings, First, Last).Runs.Count)),
            ("into a sink, nothing kept", () => InTurn(() => counted += Sum(profile, settings))));
        double oneYear = one[0] / InARow;
        Print("one controller's year, timeline", oneYear);
        Print("one controller's year, sink", one[1] / InARow);

        double[] thousand = Race.Run(
            (long)year.Runs.Count * Controllers,
            "station runs",
            Math.Min(rounds, 5),
            ("1,000 controllers into timelines", () =>
                counted += site.Sum(c => (long)Emulator.Run(c.Profile, c.Settings, First, Last).Runs.Count)),
            ("1,000 controllers into sinks", () => counted += site.Sum(c => Sum(c.Profile, c.Settings))));
        Print("1,000 controllers' year, timelines", thousand[0]);
        Print("1,000 controllers' year, sinks", thousand[1]);

        double slow = Twin(profile, settings, year, everySecond: false);
        Print("slow twin, minute by minute", slow);
        double slowest = Twin(profile, settings, year, everySecond: true);
        Print("slow twin, second by second", slowest);
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"  the emulator is {slow / oneYear:0} times as fast as the twin minute by minute, {slowest / oneYear:0} times as fast as second by second"));
        Console.WriteLine($"  allocated for one year into a sink: {Allocated(profile, settings)} bytes");
        return oneYear < 1e-3 && thousand[0] < 1 ? 0 : 1;
    }

    private static void InTurn(Action work)
    {
        for (int turn = 0; turn < InARow; turn++)
        {
            work();
        }
    }

    private static void Print(string what, double seconds) =>
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {what,-38} {seconds * 1e3,10:0.000} ms"));

    private static double Twin(Profile profile, Settings settings, Timeline expected, bool everySecond)
    {
        long from = ClockSeconds.AtMidnight(First);
        long begins = from - Emulator.DaysOfHistory * ClockSeconds.PerDay;
        long start = System.Diagnostics.Stopwatch.GetTimestamp();
        SlowTwin twin = new(profile, new TwinWorldOfState(settings, ControllerState.Undisturbed, begins), everySecond);
        Timeline timeline = twin.Run(from, ClockSeconds.AtMidnight(Last.PlusDays(1)));
        double seconds = System.Diagnostics.Stopwatch.GetElapsedTime(start).TotalSeconds;
        return timeline == expected ? seconds : throw new InvalidOperationException("The twin does not agree.");
    }

    private static long Sum(Profile profile, Settings settings)
    {
        OpenSeconds sink = default;
        Emulator.Run(profile, settings, ControllerState.Undisturbed, ClockSeconds.AtMidnight(First),
            ClockSeconds.AtMidnight(Last.PlusDays(1)), ref sink);
        return sink.Total;
    }

    private static long Allocated(Profile profile, Settings settings)
    {
        long before = GC.GetAllocatedBytesForCurrentThread();
        Sum(profile, settings);
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }

    private static (Profile Profile, Settings Settings) Typical(int number)
    {
        Profile profile = new()
        {
            Name = "12 stations, 3 programs",
            Stations = 12,
            Programs = 3,
            StartTimesPerProgram = 4,
            DayRules = [DayRuleKind.DaysOfWeek, DayRuleKind.Odd, DayRuleKind.Even, DayRuleKind.Interval],
            LargestIntervalDays = 30,
            PauseBetweenStationsSeconds = number % 3 * 5,
        };
        LocalTime Start(int hour, int minute) => new LocalTime(hour, minute).PlusMinutes(number % 7 * 5);
        ListOf<RunTime> Stations(int from, int to, int minutes) =>
            [.. Enumerable.Range(from, to - from + 1).Select(s => new RunTime(s, minutes * 60))];
        return (profile, new Settings(
            [
                new Program('A', [Start(2, 0), Start(3, 30)], Stations(1, 6, 8),
                    new DaysOfWeek([IsoDayOfWeek.Monday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Friday])),
                new Program('B', [Start(5, 0)], Stations(7, 10, 12), new OddDays()),
                new Program('C', [Start(22, 30)], Stations(11, 12, 90), new EveryNDays(5, First.PlusDays(number % 5))),
            ],
            number % 2 == 0 ? 100 : 80));
    }

    private struct OpenSeconds : IRunSink
    {
        public long Total { get; private set; }

        public void Ran(in StationRun run) => Total += run.Seconds;

        public readonly void CarriedIn(in StationRun run)
        {
        }

        public readonly void Lost(in LostStart start)
        {
        }

        public readonly void Pumped(in PumpRun run)
        {
        }
    }
}
