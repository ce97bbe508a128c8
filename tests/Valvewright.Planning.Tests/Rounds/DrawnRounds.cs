using Valvewright.Engine.Values;
using Valvewright.Planning.Rounds;

namespace Valvewright.Planning.Tests.Rounds;

/// <summary>Work drawn at random on a flat square, and every way to do it.</summary>
internal static class DrawnRounds
{
    private const int Hour = 3600;

    /// <summary>A problem with some windows, some days and some people with ends of their own.</summary>
    public static RoundProblem Draw(int seed, int tasks, int days, int people)
    {
        Random random = new(seed);
        (double X, double Y)[] points = [.. Enumerable.Range(0, tasks + people + 1)
            .Select(_ => (random.NextDouble() * 2 * Hour, random.NextDouble() * 2 * Hour))];
        ListOf<RoundTask> work = Enumerable.Range(0, tasks).Select(i =>
        {
            bool promised = random.Next(3) == 0;
            int from = random.Next(8, 13);
            ListOf<int> allowed = promised ? [random.Next(days)]
                : Enumerable.Range(random.Next(days), days).Where(d => d < days).ToListOf();
            return new RoundTask(
                $"task {i}", random.Next(10, 60) * 60, random.Next(30, 600) * 60, random.Next(0, 40) * 60, allowed,
                promised ? from * Hour : 0, promised ? (from + 2) * Hour : 24 * Hour);
        }).ToListOf();
        ListOf<RoundShift> shifts = Enumerable.Range(0, days * people).Select(i => new RoundShift(
            i / people, $"person {i % people}", tasks, i % people == 0 ? tasks : tasks + (i % people), 7 * Hour,
            random.Next(11, 17) * Hour))
            .ToListOf();
        ListOf<ListOf<long>> travel = points.Select(a => points.Select(b => (long)Math.Ceiling(Math.Sqrt(
            ((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y))))).ToListOf()).ToListOf();
        return new RoundProblem(work, shifts, travel);
    }

    /// <summary>The least cost over every order of every task in every shift.</summary>
    public static long LeastCost(RoundProblem problem) => Best(problem, 0, [.. problem.Shifts.Select(_ => new List<int>())]);

    private static long Best(RoundProblem problem, int task, List<int>[] routes)
    {
        if (task == problem.Tasks.Count)
        {
            RoundRoute?[] driven = [.. routes.Select((r, s) => RoundRoute.Of(problem, s, r))];
            return driven.Any(r => r is null) ? long.MaxValue : RoundAnswer.Of(problem, driven.OfType<RoundRoute>()).Cost;
        }

        long best = Best(problem, task + 1, routes);
        foreach (List<int> route in routes)
        {
            for (int at = 0; at <= route.Count; at++)
            {
                route.Insert(at, task);
                best = Math.Min(best, Best(problem, task + 1, routes));
                route.RemoveAt(at);
            }
        }

        return best;
    }
}
