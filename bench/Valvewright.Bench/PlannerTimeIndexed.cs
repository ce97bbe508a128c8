using Google.OrTools.Sat;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Hours;

namespace Valvewright.Bench;

/// <summary>
/// The straightforward formulation of start times: one yes-or-no for each start time of each program, one row for each slot of each date.
/// The same programs, dates, rules and aim as the project's own model, and the same solver with the same settings.
/// </summary>
internal static class PlannerTimeIndexed
{
    /// <summary>Starts from here on are counted as the evening before, as in the project's own model.</summary>
    private const int EveningSeconds = 16 * 3600;

    /// <summary>The farthest that overhead water lies from the early hours, weighed seconds, least; -1 when there is none.</summary>
    public static (long Weighed, bool IsProven, double WallSeconds) Solve(
        IReadOnlyList<TimedProgram> programs, IReadOnlyList<WaterDayPhase> rules, IReadOnlyList<DateSet> dates,
            int supplyTenths, double effort)
    {
        CpModel model = new();
        int slot = programs.SelectMany(p => p.Shape.Flow.SelectMany(f => new[] { f.Offset, f.Seconds }).Append(p.StartSteps[^1]))
            .Aggregate(Gcd);
        int slots = 2 * PermittedSpan.Day / slot;
        IntVar outside = model.NewIntVar(0, 2 * PermittedSpan.Day, "outside"), late = model.NewIntVar(0, 2 * PermittedSpan.Day, "late");
        BoolVar[][][] starts = new BoolVar[programs.Count][][];
        int[][] at = [.. programs.Select((p, i) => p.StartsIn(rules[i]).SelectMany(r => Enumerable.Range(r.First, r.Last - r.First + 1))
            .Select(s => s * p.StartSteps[^1]).ToArray())];
        for (int p = 0; p < programs.Count; p++)
        {
            starts[p] = new BoolVar[programs[p].Draft.Cycles][];
            for (int k = 0; k < starts[p].Length; k++)
            {
                starts[p][k] = [.. at[p].Select(a => model.NewBoolVar("s"))];
                model.AddExactlyOne(starts[p][k]);
                for (int i = 0; i < at[p].Length && !programs[p].IsSeedbed && programs[p].Shape.Overhead is { } part; i++)
                {
                    int since = at[p][i] >= EveningSeconds ? at[p][i] - PermittedSpan.Day : at[p][i];
                    EarlyHours early = programs[p].Early;
                    model.Add(outside >= Math.Max(early.Opens - since - part.From, since + part.To - early.Closes)).OnlyEnforceIf(
                        starts[p][k][i]);
                    model.Add(late >= since + part.To - early.Sunrise).OnlyEnforceIf(starts[p][k][i]);
                }

                if (k > 0)
                {
                    model.Add(When(starts[p][k], at[p]) >= When(starts[p][k - 1], at[p]) + programs[p].Shape.StartToStartSeconds);
                }
            }

            if (programs[p].Draft.Days.HasConsecutiveDates)
            {
                model.Add(When(starts[p][0], at[p]) + PermittedSpan.Day >= When(
                    starts[p][^1], at[p]) + programs[p].Shape.StartToStartSeconds);
            }
        }

        foreach (DateSet date in dates)
        {
            // Every slot of the date: each controller busy once, the supply not exceeded. A piece counts in each slot that it touches.
            Dictionary<(int Slot, int Controller), List<BoolVar>> busy = [];
            Dictionary<int, List<(BoolVar On, int Flow)>> flow = [];
            for (int p = 0; p < programs.Count; p++)
            {
                foreach (int offset in Offsets(date, p))
                {
                    foreach (BoolVar[] own in starts[p])
                    {
                        for (int i = 0; i < own.Length; i++)
                        {
                            Touch(at[p][i] + offset, programs[p].Shape.Seconds + programs[p].Of.Profile.PauseBetweenStationsSeconds, slot,
                                slots, s => Add(busy, (s, programs[p].Draft.Controller), own[i]));
                            foreach (FlowPiece piece in programs[p].Shape.Flow)
                            {
                                Touch(at[p][i] + offset + piece.Offset, piece.Seconds, slot, slots, s =>
                                    Add(flow, s, (own[i], piece.FlowTenths)));
                            }
                        }
                    }
                }
            }

            foreach (List<BoolVar> one in busy.Values.Where(b => b.Count > 1))
            {
                model.AddAtMostOne(one.Distinct());
            }

            foreach (List<(BoolVar On, int Flow)> sum in flow.Values)
            {
                (BoolVar On, int Flow)[] largest = [.. sum.GroupBy(s => s.On).Select(g => (g.Key, g.Max(x => x.Flow)))];
                model.Add(LinearExpr.WeightedSum(largest.Select(l => l.On), largest.Select(l => (long)l.Flow)) <= supplyTenths);
            }
        }

        model.Minimize(outside * HoursModel.OutsideWeight + late);
        CpSolver solver = new() { StringParameters = $"num_workers:1,random_seed:20,max_deterministic_time:{effort}" };
        CpSolverStatus status = solver.Solve(model);
        return (status is CpSolverStatus.Optimal or CpSolverStatus.Feasible ? (long)solver.ObjectiveValue : -1,
            status == CpSolverStatus.Optimal, solver.WallTime());
    }

    private static IEnumerable<int> Offsets(DateSet date, int program)
    {
        if (date.Has(program))
        {
            yield return 0;
        }

        if (date.HadYesterday(program))
        {
            yield return -PermittedSpan.Day;
        }
    }

    private static LinearExpr When(BoolVar[] starts, int[] at) => LinearExpr.WeightedSum(starts, at.Select(a => (long)a));

    private static void Touch(int from, int seconds, int slot, int slots, Action<int> touched)
    {
        for (int s = Math.Max(0, from / slot); s < slots && s * slot < from + seconds; s++)
        {
            touched(s);
        }
    }

    private static void Add<TKey, TValue>(Dictionary<TKey, List<TValue>> map, TKey key, TValue value)
        where TKey : notnull
    {
        if (!map.TryGetValue(key, out List<TValue>? list))
        {
            map[key] = list = [];
        }

        list.Add(value);
    }

    private static int Gcd(int a, int b) => b == 0 ? a : Gcd(b, a % b);
}
