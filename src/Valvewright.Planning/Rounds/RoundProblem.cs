using Valvewright.Engine.Values;

namespace Valvewright.Planning.Rounds;

/// <summary>Work at one point, to be done by one person in one go.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="WorkSeconds">How long it takes there.</param>
/// <param name="LeftOutCost">What leaving it out costs, in seconds of driving.</param>
/// <param name="WaitCostPerDay">What each day of waiting costs, in seconds of driving.</param>
/// <param name="Days">The days on which it may be done, counted from 0.</param>
/// <param name="OpensSeconds">Earliest time of day at which the work may begin.</param>
/// <param name="ClosesSeconds">Latest time of day at which the work may begin.</param>
public sealed record RoundTask(
    string Name, long WorkSeconds, long LeftOutCost, long WaitCostPerDay, ListOf<int> Days, long OpensSeconds, long ClosesSeconds);

/// <summary>One person's hours on one day.</summary>
/// <param name="Day">The day, counted from 0.</param>
/// <param name="Person">Who.</param>
/// <param name="StartPoint">Row of the travel table where the day begins.</param>
/// <param name="EndPoint">Row of the travel table where it ends.</param>
/// <param name="LeavesSeconds">Earliest time of day to leave.</param>
/// <param name="BackSeconds">Latest time of day to be back.</param>
public sealed record RoundShift(int Day, string Person, int StartPoint, int EndPoint, long LeavesSeconds, long BackSeconds);

/// <summary>Work to be divided among the hours of people.</summary>
/// <param name="Tasks">The work; task i is at point i of the travel table.</param>
/// <param name="Shifts">The hours.</param>
/// <param name="TravelSeconds">Travel from point to point; the points after those of the tasks are where people start and end.</param>
public sealed record RoundProblem(ListOf<RoundTask> Tasks, ListOf<RoundShift> Shifts, ListOf<ListOf<long>> TravelSeconds);

/// <summary>One task on a route.</summary>
/// <param name="Task">Which one.</param>
/// <param name="ArrivesSeconds">Time of day of arrival.</param>
/// <param name="BeginsSeconds">Time of day at which the work begins.</param>
/// <param name="EndsSeconds">Time of day at which it is done.</param>
public sealed record RoundCall(int Task, long ArrivesSeconds, long BeginsSeconds, long EndsSeconds);

/// <summary>What one person does on one day.</summary>
/// <param name="Shift">Which hours.</param>
/// <param name="LeavesSeconds">Time of day to leave: as late as the first task allows.</param>
/// <param name="Calls">The tasks in order.</param>
/// <param name="BackSeconds">Time of day of the return.</param>
public sealed record RoundRoute(int Shift, long LeavesSeconds, ListOf<RoundCall> Calls, long BackSeconds)
{
    /// <summary>The times of a route driven in an order; null where a window or the hours do not hold.</summary>
    public static RoundRoute? Of(RoundProblem problem, int shift, IReadOnlyList<int> order)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(order);
        RoundShift hours = problem.Shifts[shift];
        long now = hours.LeavesSeconds, leaves = now;
        int at = hours.StartPoint;
        List<RoundCall> calls = [];
        foreach (int next in order)
        {
            RoundTask task = problem.Tasks[next];
            long arrives = now + problem.TravelSeconds[at][next], begins = Math.Max(arrives, task.OpensSeconds);
            if (begins > task.ClosesSeconds || !task.Days.Contains(hours.Day))
            {
                return null;
            }

            if (calls.Count == 0)
            {
                (leaves, arrives) = (leaves + begins - arrives, begins);
            }

            now = begins + task.WorkSeconds;
            calls.Add(new RoundCall(next, arrives, begins, now));
            at = next;
        }

        long back = now + (order.Count > 0 ? problem.TravelSeconds[at][hours.EndPoint] : 0);
        return back <= hours.BackSeconds ? new RoundRoute(shift, leaves, calls.ToListOf(), back) : null;
    }
}

/// <summary>Routes and what they leave out.</summary>
/// <param name="Routes">Routes with at least one task, by shift.</param>
/// <param name="LeftOut">Tasks on no route, rising.</param>
/// <param name="Cost">Travel, waiting and what was left out, in seconds of driving.</param>
public sealed record RoundAnswer(ListOf<RoundRoute> Routes, ListOf<int> LeftOut, long Cost)
{
    /// <summary>The answer that a set of routes makes, with its cost.</summary>
    public static RoundAnswer Of(RoundProblem problem, IEnumerable<RoundRoute> routes)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ListOf<RoundRoute> driven = routes.Where(r => r.Calls.Count > 0).OrderBy(r => r.Shift).ToListOf();
        HashSet<int> done = [.. driven.SelectMany(r => r.Calls.Select(c => c.Task))];
        ListOf<int> left = Enumerable.Range(0, problem.Tasks.Count).Where(t => !done.Contains(t)).ToListOf();
        return new RoundAnswer(driven, left, driven.Sum(r => CostOf(problem, r)) + left.Sum(t => problem.Tasks[t].LeftOutCost));
    }

    private static long CostOf(RoundProblem problem, RoundRoute route)
    {
        RoundShift hours = problem.Shifts[route.Shift];
        int[] points = [hours.StartPoint, .. route.Calls.Select(c => c.Task), hours.EndPoint];
        return points.Zip(points.Skip(1), (a, b) => problem.TravelSeconds[a][b]).Sum()
            + route.Calls.Sum(c => hours.Day * problem.Tasks[c.Task].WaitCostPerDay);
    }
}
