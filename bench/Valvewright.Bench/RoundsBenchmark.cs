using System.Diagnostics;
using System.Globalization;
using Valvewright.Engine.Values;
using Valvewright.Planning.Rounds;

namespace Valvewright.Bench;

/// <summary>
/// Forty visits for three people, drawn at random: seconds, and how far above the best found with ten times the steps. Arguments: steps,
/// cases (3), times the steps for the best (10).
/// </summary>
internal static class RoundsBenchmark
{
    private const int Visits = 40;
    private const int People = 3;
    private const int Hour = 3600;

    public static int Run(string[] arguments)
    {
        int steps = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : RoundSolver.UsualSteps;
        int cases = arguments.Length > 1 ? int.Parse(arguments[1], CultureInfo.InvariantCulture) : 3;
        int longer = arguments.Length > 2 ? int.Parse(arguments[2], CultureInfo.InvariantCulture) : 10;
        foreach (int days in new[] { 1, 5 })
        {
            for (int seed = 1; seed <= cases; seed++)
            {
                RoundProblem problem = Draw(seed, days);
                Stopwatch watch = Stopwatch.StartNew();
                RoundAnswer answer = RoundSolver.Solve(problem, steps);
                double seconds = watch.Elapsed.TotalSeconds;
                bool same = RoundSolver.Solve(problem, steps).Equals(answer);
                long best = Math.Min(answer.Cost, RoundSolver.Solve(problem, longer * steps).Cost);
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"{Visits} visits, {People} people, {days} days, seed {seed}: {seconds:0.0} s, {answer.LeftOut.Count} left, "
                    + $"{100.0 * (answer.Cost - best) / best:0.00} % above the best known ({best}), same again: {same}"));
            }
        }

        return 0;
    }

    /// <summary>Visits on a square of an hour and a half; hours for all of them in one day, or in five with dates.</summary>
    private static RoundProblem Draw(int seed, int days)
    {
        Random random = new(seed);
        (double X, double Y)[] points = [.. Enumerable.Range(0, Visits + 1)
            .Select(_ => (random.NextDouble() * 1.5 * Hour, random.NextDouble() * 1.5 * Hour))];
        ListOf<RoundTask> tasks = Enumerable.Range(0, Visits).Select(i => new RoundTask(
            $"{i}", random.Next(5, 12) * 60, random.Next(2, 9) * Hour, days == 1 ? 0 : random.Next(2, 40) * 60,
            Enumerable.Range(0, days).Skip(random.Next(days)).ToListOf(), 0, 24 * Hour)).ToListOf();
        ListOf<RoundShift> shifts = Enumerable.Range(0, days * People).Select(i => new RoundShift(
            i / People, $"{i % People}", Visits, Visits, 7 * Hour, days == 1 ? 13 * Hour : 12 * Hour)).ToListOf();
        return new RoundProblem(tasks, shifts, points.Select(a => points.Select(b => (long)Math.Ceiling(Math.Sqrt(
            ((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y))))).ToListOf()).ToListOf());
    }
}
