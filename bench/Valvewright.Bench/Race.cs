using System.Diagnostics;
using System.Globalization;

namespace Valvewright.Bench;

/// <summary>Runs several ways to do the same work in turns, so that a noisy moment of the machine hits all alike, and takes
/// medians.</summary>
internal static class Race
{
    /// <summary>
    /// Times each way and prints items a second, median and best, with the ratio to the first. The best is what the code can do; on a busy
    /// machine the median says more about the neighbours.
    /// </summary>
    /// <param name="items">How many items one run works through.</param>
    /// <param name="unit">What an item is.</param>
    /// <param name="rounds">Runs of each way.</param>
    /// <param name="ways">The ways by name; the first is the one compared with.</param>
    /// <returns>The median seconds of each way.</returns>
    public static double[] Run(long items, string unit, int rounds, params (string Name, Action Work)[] ways) =>
        Run(() => Stopwatch.GetTimestamp() / (double)Stopwatch.Frequency, items, unit, rounds, ways);

    /// <summary>
    /// The same for ways that use one thread, by the processor time of this process instead of the clock on the wall: on a machine that
    /// others use too, waiting for a turn is not part of the work.
    /// </summary>
    public static double[] RunOnProcessorTime(long items, string unit, int rounds, params (string Name, Action Work)[] ways) =>
        Run(() => Environment.CpuUsage.TotalTime.TotalSeconds, items, unit, rounds, ways);

    private static double[] Run(Func<double> now, long items, string unit, int rounds, (string Name, Action Work)[] ways)
    {
        WarmUp(ways);
        double[][] seconds = [.. ways.Select(_ => new double[rounds])];
        for (int round = 0; round < rounds; round++)
        {
            for (int way = 0; way < ways.Length; way++)
            {
                double start = now();
                ways[way].Work();
                seconds[way][round] = now() - start;
            }
        }

        double[] medians = [.. seconds.Select(Median)];
        double[] bests = [.. seconds.Select(s => s.Min())];
        Console.WriteLine($"  {"million " + unit + " a second",-34} {"median",10} {"",8} {"best",10}");
        for (int way = 0; way < ways.Length; way++)
        {
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"  {ways[way].Name,-34} {items / medians[way] / 1e6,10:0.0} {medians[0] / medians[way],6:0.00} x {items / bests[way] / 1e6,10:0.0} {bests[0] / bests[way],6:0.00} x"));
        }

        return medians;
    }

    private const int FewestWarmUps = 40;
    private static readonly TimeSpan ShortestWarmUp = TimeSpan.FromSeconds(0.3);

    // Long enough for the just-in-time compiler to reach its best code.
    private static void WarmUp((string Name, Action Work)[] ways)
    {
        foreach ((_, Action work) in ways)
        {
            long start = Stopwatch.GetTimestamp();
            for (int i = 0; i < FewestWarmUps || Stopwatch.GetElapsedTime(start) < ShortestWarmUp; i++)
            {
                work();
            }
        }

        // The best code is compiled in the background; give it time to arrive, then a few runs with it.
        Thread.Sleep(300);
        foreach ((_, Action work) in ways)
        {
            work();
            work();
        }
    }

    private static double Median(double[] values)
    {
        double[] sorted = [.. values.Order()];
        return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }
}
