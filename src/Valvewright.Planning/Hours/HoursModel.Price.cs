using Google.OrTools.Sat;
using Google.OrTools.Util;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Hours;

/// <summary>What start times cost that a gardener would not choose; docs/planning.md has the weights and their grounds.</summary>
internal sealed partial class HoursModel
{
    /// <summary>A minute outside 02:00 to 07:30 weighs as much as so many between sunrise and 07:30.</summary>
    public const int OutsideWeight = 4;

    /// <summary>What a program's cycles may take beside their runs and soaks.</summary>
    public const int MostBetweenCyclesSeconds = 3600;

    /// <summary>An overhead run is paid for in full; where drip and bubblers start hardly matters.</summary>
    private const int OverheadWeight = 16;
    private const int SeedbedWeight = 4;

    /// <summary>A start off the quarter of an hour, where quarters alone were too coarse, weighs as much as so many seconds after
    /// sunrise.</summary>
    private const int OddStartSeconds = 600;

    /// <summary>Starts from here on are counted as the evening before.</summary>
    private const int EveningSeconds = 16 * 3600;

    private readonly Dictionary<(int, int), LinearExpr> sinceMidnight = [];

    /// <summary>A start as seconds after the midnight of its night: below 0 in the evening before.</summary>
    private LinearExpr SinceMidnight(int program, int k)
    {
        if (!sinceMidnight.TryGetValue((program, k), out LinearExpr? since))
        {
            BoolVar evening = model.NewBoolVar("evening");
            LinearExpr start = StartOf(program, k);
            model.Add(start >= EveningSeconds).OnlyEnforceIf(evening);
            model.Add(start < EveningSeconds).OnlyEnforceIf(evening.Not());
            since = start - evening * PermittedSpan.Day;
            sinceMidnight.Add((program, k), since);
        }

        return since;
    }

    /// <summary>How far the farthest overhead run lies outside 02:00 to 07:30, and how long after sunrise the last one ends.</summary>
    private void OverheadWaterInTheEarlyHours()
    {
        foreach ((int p, int k, (int from, int to)) in OverheadRuns())
        {
            LinearExpr since = SinceMidnight(p, k);
            EarlyHours early = programs[p].Early;
            model.Add(outside >= early.Opens - from - since);
            model.Add(outside >= since + (to - early.Closes));
            model.Add(late >= since + (to - early.Sunrise));
        }
    }

    private IEnumerable<(int Program, int Start, (int From, int To) Part)> OverheadRuns() =>
        from p in Enumerable.Range(0, programs.Count)
        where !programs[p].IsSeedbed && programs[p].Shape.Overhead is not null
        from k in Enumerable.Range(0, steps[p].Length)
        select (p, k, programs[p].Shape.Overhead!.Value);

    private LinearExpr PriceOfStarts()
    {
        List<LinearExpr> prices = [];
        foreach ((int p, int k, (int from, int to)) in OverheadRuns())
        {
            LinearExpr since = SinceMidnight(p, k);
            EarlyHours early = programs[p].Early;
            prices.Add(AtLeast("outside", early.Opens - from - since, since + (to - early.Closes)) * (OverheadWeight * OutsideWeight));
            prices.Add(AtLeast("late", since + (to - early.Sunrise)) * OverheadWeight);
            prices.Add(AtLeast("long before sunrise", early.Sunrise - to - since));
        }

        for (int p = 0; p < programs.Count; p++)
        {
            if (programs[p].IsSeedbed)
            {
                SpreadOverTheDay(p, prices);
            }
            else if (programs[p].Shape.Overhead is null)
            {
                prices.AddRange(Enumerable.Range(0, steps[p].Length).Select(k => SinceMidnight(p, k)).Select(since =>
                    (LinearExpr)AtLeast("from sunrise", since - programs[p].Early.Sunrise, programs[p].Early.Sunrise - since)));
            }

            if (programs[p].HasCyclesToKeepTogether)
            {
                prices.Add((StartOf(p, steps[p].Length - 1) - StartOf(p, 0)) * 2);
            }

            OddStartsCost(p, prices);
        }

        return LinearExpr.Sum(prices);
    }

    private void OddStartsCost(int program, List<LinearExpr> prices)
    {
        int coarse = programs[program].StartSteps[0] / grid[program];
        if (coarse == 1)
        {
            return;
        }

        Domain round = Domain
            .FromValues([.. Enumerable.Range(0, PermittedSpan.Day / programs[program].StartSteps[0]).Select(i => (long)i * coarse)]);
        foreach (IntVar start in steps[program])
        {
            BoolVar odd = model.NewBoolVar("odd start");
            model.AddLinearExpressionInDomain(start, round).OnlyEnforceIf(odd.Not());
            prices.Add(odd * (OverheadWeight * OddStartSeconds));
        }
    }

    /// <summary>A seedbed's waterings are drawn towards even parts of the daylight, in which it dries.</summary>
    private void SpreadOverTheDay(int program, List<LinearExpr> prices)
    {
        int dawn = programs[program].Early.Sunrise;
        int daylight = PermittedSpan.Day - 2 * dawn; // sunset is as long after noon as sunrise is before it, about
        for (int k = 0; k < steps[program].Length && daylight > 0; k++)
        {
            int wanted = dawn + daylight * k / steps[program].Length;
            prices.Add(AtLeast("off the even spread", StartOf(program, k) - wanted, wanted - StartOf(program, k)) * SeedbedWeight);
        }
    }

    private IntVar AtLeast(string name, params LinearExpr[] values)
    {
        IntVar most = model.NewIntVar(0, 2 * PermittedSpan.Day, name);
        foreach (LinearExpr value in values)
        {
            model.Add(most >= value);
        }

        return most;
    }
}

/// <summary>What start times are to be good for.</summary>
internal enum HoursAim
{
    /// <summary>Any that hold will do.</summary>
    Any,

    /// <summary>Overhead water as little outside the early hours as can be.</summary>
    Outside,

    /// <summary>Then whatever costs least.</summary>
    OutsideThenPrice,
}

/// <summary>How tidy start times are to be.</summary>
/// <param name="Grid">0: quarters of an hour; 1: 5 minutes; 2: the profile's own steps.</param>
/// <param name="CyclesTogether">Whether a program's cycles of a date must lie within their runs, their soaks and an hour.</param>
internal readonly record struct Tidiness(int Grid, bool CyclesTogether)
{
    /// <summary>Everything that the profile can hold.</summary>
    public static Tidiness Least { get; } = new(2, false);

    /// <summary>From the tidiest to the least.</summary>
    public static IReadOnlyList<Tidiness> All { get; } = [new(0, true), new(1, true), new(2, true), Least];
}

/// <summary>Start times in seconds by program.</summary>
/// <param name="Starts">By program, rising.</param>
/// <param name="OutsideSeconds">How far the farthest overhead run lies outside 02:00 to 07:30.</param>
/// <param name="WeighedSeconds">That, weighted, and how long after sunrise the last overhead run ends.</param>
/// <param name="BoundSeconds">What this cannot be less than.</param>
/// <param name="IsProven">Whether it is the least.</param>
internal sealed record TimedStarts(int[][] Starts, long OutsideSeconds, long WeighedSeconds, long BoundSeconds, bool IsProven);
