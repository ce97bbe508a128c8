using Google.OrTools.Sat;
using Valvewright.Engine.Controllers;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Hours;

/// <summary>
/// On which dates each program waters: controllers on one supply are made to miss each other, so that the busiest date is as light
/// as can be: first with overhead water, for which the good hours are few, then with all water.
/// </summary>
internal sealed class PhaseModel
{
    /// <summary>Dates looked at; where the rules' common cycle is longer the bound still holds and the walk through the calendar checks the
    /// rest.</summary>
    private const int MostDates = 420;

    /// <summary>A second of overhead water on the busiest date weighs as much as so many of any water.</summary>
    private const int OverheadWeight = 4;

    private readonly CpModel model = new();
    private readonly List<BoolVar[]> phases = [];
    private readonly IReadOnlyList<TimedProgram> programs;
    private readonly IntVar busiest;
    private readonly IntVar busiestOverhead;

    public PhaseModel(IReadOnlyList<TimedProgram> programs, int supplyTenths, StoredWater stored)
    {
        this.programs = programs;
        busiest = model.NewIntVar(0, MostBusySeconds(programs), "busiest date");
        busiestOverhead = model.NewIntVar(0, 2 * MostBusySeconds(programs), "busiest date, overhead");
        foreach (TimedProgram program in programs)
        {
            BoolVar[] own = [.. program.Phases.Select((p, i) => model.NewBoolVar($"phase {i}"))];
            model.AddExactlyOne(own);
            phases.Add(own);
        }

        LoadOfEachDate(supplyTenths);
        for (int count = 1; count <= StoredWater.MostDates; count++)
        {
            if (stored.LargestDraw(count) is { } largest) TheTankHoldsNeighboringDates(count, largest);
        }

        AnyPhaseWillDoForTheFirstInterval();
        model.Minimize(busiest + busiestOverhead * OverheadWeight);
    }

    /// <summary>Whether the last search ended with a proof that no phases are left.</summary>
    public bool IsProvenImpossible { get; private set; }

    /// <summary>Chooses phases; null when none are left.</summary>
    public int[]? Solve(double effort, CancellationToken cancel, out double spent)
    {
        CpSolver solver = Solving.Solver(effort);
        CpSolverStatus status = solver.Run(model, cancel);
        spent = solver.Response!.DeterministicTime;
        IsProvenImpossible = status == CpSolverStatus.Infeasible;
        return status.IsFeasible() ? [.. phases.Select(own => Array.FindIndex(own, solver.BooleanValue))] : null;
    }

    /// <summary>Rules out this combination of phases for these programs.</summary>
    public void Forbid(IEnumerable<(int Program, int Phase)> together) =>
        model.AddBoolOr(together.Select(t => phases[t.Program][t.Phase].Not()));

    private void LoadOfEachDate(int supplyTenths)
    {
        int cycle = CommonCycle();
        HashSet<string> seen = [];
        for (int date = 0; date < cycle; date++)
        {
            foreach (bool odd in new[] { true, false })
            {
                (BoolVar On, TimedProgram Program)[] on = [.. OnAt(date, odd)];
                if (on.Length == 0 || !seen.Add(string.Join(',', on.Select(o => o.On.GetIndex()))))
                {
                    continue;
                }

                foreach (IGrouping<int, (BoolVar On, TimedProgram Program)> own in on.GroupBy(o => o.Program.Draft.Controller))
                {
                    model.Add(LinearExpr.WeightedSum(own.Select(o => o.On), own.Select(o => (long)o.Program.BusySeconds)) <= busiest);
                    model.Add(LinearExpr
                        .WeightedSum(own.Select(o => o.On), own.Select(o => (long)o.Program.OverheadSeconds)) <= busiestOverhead);
                }

                model.Add(LinearExpr.WeightedSum(on.Select(o => o.On), on.Select(o => FlowSeconds(o.Program))) <= busiest * supplyTenths);
                model.Add(LinearExpr.WeightedSum(on.Select(o => o.On),
                    on.Select(o => o.Program.OverheadSeconds > 0 ? FlowSeconds(o.Program) : 0)) <= busiestOverhead * supplyTenths);
                model.Add(LinearExpr
                    .WeightedSum(on.Select(o => o.On), on.Select(o => TakesTurnsSeconds(o.Program, supplyTenths))) <= busiest);
            }
        }
    }

    /// <summary>Odd and even dates take turns here; two odd dates at the end of a month are left to the proof.</summary>
    private void TheTankHoldsNeighboringDates(int count, long largest)
    {
        HashSet<string> seen = [];
        for (int date = 0; date < CommonCycle(); date++)
        {
            foreach (bool odd in new[] { true, false })
            {
                (BoolVar On, TimedProgram Program)[] on =
                    [.. Enumerable.Range(0, count).SelectMany(i => OnAt(date + i, odd == (i % 2 == 0)))];
                if (on.Sum(o => DrawOf(o.Program)) > largest && seen.Add(string.Join(',', on.Select(o => o.On.GetIndex()).Order())))
                {
                    model.Add(LinearExpr.WeightedSum(on.Select(o => o.On), on.Select(o => DrawOf(o.Program))) <= largest);
                }
            }
        }
    }

    /// <summary>What a program draws on a watering date, seconds x tenths of L/min.</summary>
    private static long DrawOf(TimedProgram program) => program.Draft.Cycles * program.Draft.Stations
        .Sum(s => (long)s.Choice.RunSeconds * program.Of.Zones[s.Zone].FlowTenths);

    /// <summary>No date may be busier than its permitted hours are long, and what is left open by the guard behind the last run.</summary>
    private static long MostBusySeconds(IReadOnlyList<TimedProgram> programs) =>
        programs.Max(p => p.Phases.Max(f => Math.Min(PermittedSpan.Day, f.Spans.Sum(s => (long)s.Seconds))) + p.Shape.Flow
            .Max(f => f.Offset + f.Seconds) - p.Shape.Seconds);

    /// <summary>Intervals count from any date: shifting them all by a day changes nothing, unless weekdays are in play.</summary>
    private void AnyPhaseWillDoForTheFirstInterval()
    {
        bool weekdays = programs.Any(p => p.Draft.Days.Family == DayRuleKind.DaysOfWeek && !p.Draft.Days.IsDaily);
        int first = programs.ToList()
            .FindIndex(p => p.Draft.Days.Family == DayRuleKind.Interval && !p.Draft.Days.IsDaily && p.Phases.Count == p.Draft.Days.Length);
        bool restricted = programs.Any(p => p.Draft.Days.Family == DayRuleKind.Interval && p.Phases.Count != p.Draft.Days.Length);
        if (first >= 0 && !weekdays && !restricted)
        {
            model.Add(phases[first][0] == 1);
        }
    }

    private IEnumerable<(BoolVar On, TimedProgram Program)> OnAt(int date, bool odd)
    {
        for (int p = 0; p < programs.Count; p++)
        {
            for (int i = 0; i < phases[p].Length; i++)
            {
                bool on = programs[p].Phases[i].Rule switch
                {
                    DaysOfWeek week => week.Days.Any(d => (int)d - 1 == date % 7),
                    EveryNDays every => (date - i) % every.Days == 0,
                    OddDays => odd,
                    EvenDays => !odd,
                    _ => true,
                };
                if (on)
                {
                    yield return (phases[p][i], programs[p]);
                }
            }
        }
    }

    private int CommonCycle()
    {
        long cycle = 1;
        foreach (TimedProgram program in programs)
        {
            long length = program.Draft.Days.Family switch { DayRuleKind.DaysOfWeek => program.Draft.Days.IsDaily ? 1 : 7,
                DayRuleKind.Interval => program.Draft.Days.Length, _ => 1 };
            cycle = cycle / Gcd(cycle, length) * length;
            if (cycle > MostDates)
            {
                return MostDates;
            }
        }

        return (int)cycle;
    }

    private static long Gcd(long a, long b) => b == 0 ? a : Gcd(b, a % b);

    private static long FlowSeconds(TimedProgram program) =>
        program.Draft.Cycles * program.Shape.Flow.Sum(f => (long)f.Seconds * f.FlowTenths);

    private static long TakesTurnsSeconds(TimedProgram program, int supplyTenths) =>
        program.Draft.Cycles * program.Shape.Flow.Where(f => 2 * f.FlowTenths > supplyTenths).Sum(f => (long)f.Seconds);
}
