using Valvewright.Engine.Values;
using Valvewright.Planning.Rounds;

namespace Valvewright.Planning.Tests.Rounds;

public sealed class RoundSolverTests
{
    public static TheoryData<int> Seeds() => [.. Enumerable.Range(1, 12)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Small_rounds_are_the_best_that_there_are(int seed)
    {
        RoundProblem problem = DrawnRounds.Draw(seed, tasks: 1 + (seed % 5), days: 1 + (seed % 2), people: 1 + (seed / 7));
        RoundAnswer answer = RoundSolver.Solve(problem, 400);
        Assert.Equal(DrawnRounds.LeastCost(problem), answer.Cost);
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Every_task_is_done_once_or_left_within_hours_and_windows(int seed)
    {
        RoundProblem problem = DrawnRounds.Draw(seed, tasks: 12 + seed, days: 1 + (seed % 3), people: 1 + (seed % 2));
        RoundAnswer answer = RoundSolver.Solve(problem, 200);
        Assert.Equal(
            Enumerable.Range(0, problem.Tasks.Count),
            answer.Routes.SelectMany(r => r.Calls.Select(c => c.Task)).Concat(answer.LeftOut).Order());
        Assert.Equal(answer.Routes.Count, answer.Routes.Select(r => r.Shift).Distinct().Count());
        Assert.All(answer.Routes, route => AssertHolds(problem, route));
        Assert.Equal(RoundAnswer.Of(problem, answer.Routes), answer);
    }

    [Fact]
    public void The_same_work_gives_the_same_routes()
    {
        RoundProblem problem = DrawnRounds.Draw(99, tasks: 20, days: 2, people: 2);
        Assert.Equal(RoundSolver.Solve(problem, 300), RoundSolver.Solve(problem, 300));
    }

    [Fact]
    public void Nothing_to_do_and_no_one_to_do_it_are_answers()
    {
        RoundProblem problem = DrawnRounds.Draw(5, tasks: 3, days: 1, people: 1);
        RoundAnswer idle = RoundSolver.Solve(problem with { Shifts = [] });
        Assert.Equal([0, 1, 2], idle.LeftOut);
        RoundProblem nothing = new([], [new RoundShift(0, "Ana", 0, 0, 0, 100)], [[0]]);
        Assert.Empty(RoundSolver.Solve(nothing).Routes);
    }

    [Fact]
    public void A_day_is_left_for_as_late_as_its_first_window_allows()
    {
        RoundProblem problem = new(
            [new RoundTask("promised", 600, 100_000, 0, [0], 36_000, 37_000)], [new RoundShift(0, "Ana", 1, 1, 25_000, 60_000)],
            [[0, 1_000], [1_000, 0]]);
        RoundRoute route = Assert.Single(RoundSolver.Solve(problem, 50).Routes);
        Assert.Equal((35_000L, 36_000L, 37_600L), (route.LeavesSeconds, route.Calls[0].BeginsSeconds, route.BackSeconds));
    }

    [Fact]
    public void A_travel_table_that_does_not_fit_is_refused() =>
        Assert.Throws<ArgumentException>(() => RoundSolver.Solve(
            new RoundProblem([], [new RoundShift(0, "Ana", 1, 1, 0, 100)], [[0]])));

    private static void AssertHolds(RoundProblem problem, RoundRoute route)
    {
        RoundShift hours = problem.Shifts[route.Shift];
        long now = route.LeavesSeconds;
        int at = hours.StartPoint;
        Assert.True(route.LeavesSeconds >= hours.LeavesSeconds && route.BackSeconds <= hours.BackSeconds);
        foreach (RoundCall call in route.Calls)
        {
            RoundTask task = problem.Tasks[call.Task];
            Assert.Contains(hours.Day, task.Days);
            Assert.Equal(now + problem.TravelSeconds[at][call.Task], call.ArrivesSeconds);
            Assert.InRange(call.BeginsSeconds, Math.Max(task.OpensSeconds, call.ArrivesSeconds), task.ClosesSeconds);
            Assert.Equal(call.BeginsSeconds + task.WorkSeconds, call.EndsSeconds);
            (now, at) = (call.EndsSeconds, call.Task);
        }

        Assert.Equal(now + problem.TravelSeconds[at][hours.EndPoint], route.BackSeconds);
    }
}
