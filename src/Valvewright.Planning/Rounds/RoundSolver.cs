using Google.OrTools.ConstraintSolver;
using Valvewright.Engine.Values;

namespace Valvewright.Planning.Rounds;

/// <summary>Divides work among people's hours.</summary>
/// <remarks>
/// Guided local search from the cheapest insertions. It ends after a number of steps, never by the clock, on one thread: the same problem
/// gives the same routes on every machine.
/// </remarks>
public static class RoundSolver
{
    /// <summary>Steps of the search when no one says how many.</summary>
    public const int UsualSteps = 500;

    /// <summary>Where no neighbor is ever better the search would count no step; it counts moves that failed.</summary>
    private const int FailuresPerStep = 10;

    /// <summary>Finds routes.</summary>
    /// <param name="problem">The work, the hours and the roads.</param>
    /// <param name="steps">How long to search.</param>
    /// <exception cref="ArgumentException">The travel table does not fit the tasks and shifts.</exception>
    public static RoundAnswer Solve(RoundProblem problem, int steps = UsualSteps)
    {
        ArgumentNullException.ThrowIfNull(problem);
        Check(problem);
        problem = WithPointsInUse(problem);
        if (problem.Tasks.Count == 0 || problem.Shifts.Count == 0)
        {
            return RoundAnswer.Of(problem, []);
        }

        using RoutingIndexManager manager = new(
            problem.TravelSeconds.Count, problem.Shifts.Count, [.. problem.Shifts.Select(s => s.StartPoint)],
            [.. problem.Shifts.Select(s => s.EndPoint)]);
        using RoutingModel model = new(manager);
        SetCosts(model, problem);
        SetTimes(model, manager, problem);
        RoutingSearchParameters search = operations_research_constraint_solver.DefaultRoutingSearchParameters();
        search.FirstSolutionStrategy = FirstSolutionStrategy.Types.Value.ParallelCheapestInsertion;
        search.LocalSearchMetaheuristic = LocalSearchMetaheuristic.Types.Value.GuidedLocalSearch;
        search.SolutionLimit = steps;
        model.AddSearchMonitor(model.solver().MakeLimit(long.MaxValue, long.MaxValue, (long)steps * FailuresPerStep, long.MaxValue));
        using Assignment? found = model.SolveWithParameters(search);
        return found is null ? RoundAnswer.Of(problem, []) : RoundAnswer.Of(problem, Routes(model, manager, problem, found));
    }

    /// <summary>The same without points where no one starts or ends: to the model they would be work.</summary>
    private static RoundProblem WithPointsInUse(RoundProblem problem)
    {
        int[] kept =
        [
            .. Enumerable.Range(0, problem.Tasks.Count),
            .. problem.Shifts.SelectMany(s => new[] { s.StartPoint, s.EndPoint }).Distinct().Order(),
        ];
        return problem with
        {
            Shifts = problem.Shifts.Select(s => s with
                { StartPoint = Array.IndexOf(kept, s.StartPoint), EndPoint = Array.IndexOf(kept, s.EndPoint) }).ToListOf(),
            TravelSeconds = kept.Select(a => kept.Select(b => problem.TravelSeconds[a][b]).ToListOf()).ToListOf(),
        };
    }

    private static void SetCosts(RoutingModel model, RoundProblem problem)
    {
        Dictionary<int, int> byDay = [];
        for (int shift = 0; shift < problem.Shifts.Count; shift++)
        {
            int day = problem.Shifts[shift].Day;
            if (!byDay.TryGetValue(day, out int costs))
            {
                byDay[day] = costs = model.RegisterTransitMatrix(Matrix(problem, (_, to) => day * (to?.WaitCostPerDay ?? 0)));
            }

            model.SetArcCostEvaluatorOfVehicle(costs, shift);
        }
    }

    private static void SetTimes(RoutingModel model, RoutingIndexManager manager, RoundProblem problem)
    {
        const string Name = "time";
        long end = problem.Shifts.Max(s => s.BackSeconds);
        model.AddDimension(model.RegisterTransitMatrix(Matrix(problem, (from, _) => from?.WorkSeconds ?? 0)), end, end, false, Name);
        RoutingDimension time = model.GetMutableDimension(Name);
        for (int shift = 0; shift < problem.Shifts.Count; shift++)
        {
            RoundShift hours = problem.Shifts[shift];
            time.CumulVar(model.Start(shift)).SetRange(hours.LeavesSeconds, hours.BackSeconds);
            time.CumulVar(model.End(shift)).SetRange(hours.LeavesSeconds, hours.BackSeconds);
        }

        for (int task = 0; task < problem.Tasks.Count; task++)
        {
            RoundTask work = problem.Tasks[task];
            long index = manager.NodeToIndex(task);
            long[] shifts = [.. Enumerable.Range(0, problem.Shifts.Count).Where(s => work.Days.Contains(problem.Shifts[s].Day))
                .Select(s => (long)s)];
            model.AddDisjunction([index], work.LeftOutCost);
            time.CumulVar(index).SetRange(Math.Min(work.OpensSeconds, end), Math.Min(work.ClosesSeconds, end));
            model.VehicleVar(index).SetValues([-1, .. shifts]);
        }
    }

    private static IEnumerable<RoundRoute> Routes(RoutingModel model, RoutingIndexManager manager, RoundProblem problem, Assignment found)
    {
        for (int shift = 0; shift < problem.Shifts.Count; shift++)
        {
            List<int> order = [];
            for (long at = found.Value(model.NextVar(model.Start(shift))); !model.IsEnd(at); at = found.Value(model.NextVar(at)))
            {
                order.Add(manager.IndexToNode(at));
            }

            yield return RoundRoute.Of(problem, shift, order)
                ?? throw new InvalidOperationException($"The search gave shift {shift} a route that does not fit its hours.");
        }
    }

    private static long[][] Matrix(RoundProblem problem, Func<RoundTask?, RoundTask?, long> more)
    {
        int points = problem.TravelSeconds.Count;
        RoundTask? At(int point) => point < problem.Tasks.Count ? problem.Tasks[point] : null;
        return [.. Enumerable.Range(0, points).Select(a => Enumerable.Range(0, points)
            .Select(b => problem.TravelSeconds[a][b] + more(At(a), At(b))).ToArray())];
    }

    private static void Check(RoundProblem problem)
    {
        int points = problem.TravelSeconds.Count;
        bool fits = points >= problem.Tasks.Count && problem.TravelSeconds.All(r => r.Count == points && r.All(t => t >= 0))
            && problem.Shifts.All(s => s.StartPoint >= problem.Tasks.Count && s.EndPoint >= problem.Tasks.Count && s.StartPoint < points
                && s.EndPoint < points && s.LeavesSeconds <= s.BackSeconds)
            && problem.Tasks.All(t => t.OpensSeconds <= t.ClosesSeconds && t.WorkSeconds >= 0 && t.LeftOutCost >= 0
                && t.WaitCostPerDay >= 0);
        if (!fits)
        {
            throw new ArgumentException("Tasks, shifts and travel times do not go together.", nameof(problem));
        }
    }
}
