using Valvewright.Planning.Rounds;
using Valvewright.Work.Rounds;

namespace Valvewright.Work.Search.Rounds;

/// <summary>A stop of a round.</summary>
/// <param name="Number">Its place in the round, from 1.</param>
/// <param name="Site">The site.</param>
/// <param name="Place">Where it is.</param>
/// <param name="Arrives">When.</param>
/// <param name="Begins">When the work begins: later than arrival where a time was promised.</param>
/// <param name="Ends">When it is done.</param>
/// <param name="Items">What is to be done.</param>
public sealed record StopOfRound(
    int Number, string Site, Place Place, LocalTime Arrives, LocalTime Begins, LocalTime Ends, ListOf<DueItem> Items);

/// <summary>One person's day.</summary>
/// <param name="On">The date.</param>
/// <param name="Person">The person, from 1.</param>
/// <param name="Leaves">When to leave.</param>
/// <param name="Stops">The stops in order.</param>
/// <param name="Back">When the day ends.</param>
/// <param name="Km">Kilometers by road, estimated.</param>
public sealed record DayRound(LocalDate On, int Person, LocalTime Leaves, ListOf<StopOfRound> Stops, LocalTime Back, double Km);

/// <summary>Why something stays on the list.</summary>
public enum NotReached
{
    /// <summary>It is too early on all of the days.</summary>
    TooEarly,

    /// <summary>Its dates do not meet those of more urgent work at the same site.</summary>
    DatesApart,

    /// <summary>The promised date is not among the days.</summary>
    PromisedOtherwise,

    /// <summary>There and back does not fit into the hours of any day.</summary>
    TooFar,

    /// <summary>Other work is worth more.</summary>
    NoTime,
}

/// <summary>Something that stays on the list.</summary>
/// <param name="Item">What is due.</param>
/// <param name="Reason">Why.</param>
public sealed record LeftOnList(DueItem Item, NotReached Reason);

/// <summary>Day routes, and what they do not reach.</summary>
/// <param name="Rounds">By date and person.</param>
/// <param name="Left">In the order of the list.</param>
public sealed record RoundsPlan(ListOf<DayRound> Rounds, ListOf<LeftOnList> Left)
{
    private const int Minute = 60;

    /// <summary>Finds the routes.</summary>
    /// <param name="request">What is due, and who has when.</param>
    /// <param name="steps">How long to search.</param>
    public static RoundsPlan Of(RoundsRequest request, int steps = RoundSolver.UsualSteps)
    {
        ArgumentNullException.ThrowIfNull(request);
        (ListOf<StopWork> stops, List<LeftOnList> left) = StopWork.Of(request);
        NamedPlace[] points = [.. stops.Select(s => s.Site), request.Start, request.End];
        RoundProblem problem = new(
            stops.Select(s => s.Task).ToListOf(),
            Enumerable.Range(0, request.Days.Count * request.People).Select(i => new RoundShift(
                i / request.People, $"{(i % request.People) + 1}", stops.Count, stops.Count + 1,
                SecondsOf(request.Leaves), SecondsOf(request.Back))).ToListOf(),
            points.Select(a => points.Select(b => request.Travel.Seconds(a, b)).ToListOf()).ToListOf());
        RoundAnswer answer = RoundSolver.Solve(problem, steps);
        left.AddRange(answer.LeftOut.SelectMany(t => stops[t].Items.Select(i => new LeftOnList(
            i, Enumerable.Range(0, problem.Shifts.Count).Any(s => RoundRoute.Of(problem, s, [t]) is not null)
                ? NotReached.NoTime : NotReached.TooFar))));
        return new RoundsPlan(
            answer.Routes.Select(r => Day(request, problem, stops, r)).ToListOf(),
            left.OrderBy(l => IndexOf(request.Due, l.Item)).ToListOf());
    }

    internal static long SecondsOf(LocalTime time) => time.TickOfDay / NodaConstants.TicksPerSecond;

    private static DayRound Day(RoundsRequest request, RoundProblem problem, ListOf<StopWork> stops, RoundRoute route)
    {
        RoundShift shift = problem.Shifts[route.Shift];
        NamedPlace[] way = [request.Start, .. route.Calls.Select(c => stops[c.Task].Site), request.End];
        return new DayRound(
            request.Days[shift.Day], (route.Shift % request.People) + 1, TimeOf(route.LeavesSeconds),
            route.Calls.Select((c, i) => new StopOfRound(
                i + 1, stops[c.Task].Site.Name, stops[c.Task].Site.Place, TimeOf(c.ArrivesSeconds), TimeOf(c.BeginsSeconds),
                TimeOf(c.EndsSeconds), stops[c.Task].Items)).ToListOf(),
            TimeOf(route.BackSeconds), Math.Round(way.Zip(way.Skip(1), request.Travel.Km).Sum(), 1));
    }

    private static LocalTime TimeOf(long seconds) => LocalTime.FromMinutesSinceMidnight((int)(seconds / Minute));

    private static int IndexOf(ListOf<DueItem> due, DueItem item) =>
        Enumerable.Range(0, due.Count).First(i => ReferenceEquals(due[i], item));
}
