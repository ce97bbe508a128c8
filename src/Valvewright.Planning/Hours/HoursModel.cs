using Google.OrTools.Sat;
using Google.OrTools.Util;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Hours;

/// <summary>
/// When each program of a supply starts, its dates being chosen: within permitted hours, no run of a controller into another, the
/// supply's flow never exceeded on any date, and all of it as near to dawn as can be.
/// </summary>
internal sealed class HoursModel
{
    private readonly CpModel model = new();
    private readonly IReadOnlyList<TimedProgram> programs;
    private readonly IReadOnlyList<DateSet> dates;
    private readonly IntVar[][] steps;
    private readonly IntVar before;
    private readonly IntVar after;
    private readonly List<LinearExpr> distances = [];

    public HoursModel(IReadOnlyList<TimedProgram> programs, IReadOnlyList<WaterDayPhase> phases, IReadOnlyList<DateSet> dates, int supplyTenths, int dawnSeconds, IReadOnlyList<int> clockShifts)
    {
        this.programs = programs;
        this.dates = dates;
        steps = [.. programs.Select((p, i) => StartsWithinPermittedHours(p, phases[i]))];
        before = model.NewIntVar(0, PermittedSpan.Day, "before dawn");
        after = model.NewIntVar(0, 2 * PermittedSpan.Day, "after dawn");
        StartsOfAProgramKeepTheirDistance();
        RunsOfAControllerNeverMeet();
        foreach (int shift in clockShifts)
        {
            TheSupplyCarriesEveryMoment(supplyTenths, shift);
        }

        DistanceFromDawn(dawnSeconds);
    }

    /// <summary>Start times in seconds by program, the span they take around dawn, and its bound; null when there are none.</summary>
    public (int[][] Starts, long Span, long Bound, bool IsProven)? Solve(double effort, CancellationToken cancel, out double spent, out bool provenImpossible)
    {
        model.Minimize(before + after);
        CpSolver solver = Solving.Solver(effort);
        CpSolverStatus status = solver.Run(model, cancel);
        spent = solver.Response!.DeterministicTime;
        provenImpossible = status == CpSolverStatus.Infeasible;
        if (!status.IsFeasible())
        {
            return null;
        }

        long span = (long)Math.Round(solver.ObjectiveValue);
        long bound = (long)Math.Ceiling(solver.BestObjectiveBound - 1e-6);
        int[][] starts = Read(solver);
        if (distances.Count > 0)
        {
            // Within that span every run moves as near to dawn as a short search finds; this last step is not proven.
            for (int p = 0; p < steps.Length; p++)
            {
                for (int k = 0; k < steps[p].Length; k++)
                {
                    model.AddHint(steps[p][k], solver.Value(steps[p][k]));
                }
            }

            model.Add(before + after <= span);
            model.Minimize(LinearExpr.Sum(distances));
            CpSolver nearer = Solving.Solver(effort / 4);
            if (nearer.Run(model, cancel).IsFeasible())
            {
                starts = Read(nearer);
            }

            spent += nearer.Response!.DeterministicTime;
        }

        return (starts, span, bound, status == CpSolverStatus.Optimal);
    }

    private int[][] Read(CpSolver solver) => [.. steps.Select((own, p) => own.Select(s => (int)solver.Value(s) * programs[p].StepSeconds).ToArray())];

    private IntVar[] StartsWithinPermittedHours(TimedProgram program, WaterDayPhase phase)
    {
        Domain domain = Domain.FromIntervals([.. program.StartsIn(phase).Select(r => new long[] { r.First, r.Last })]);
        return [.. Enumerable.Range(0, program.Draft.Cycles).Select(k => model.NewIntVarFromDomain(domain, $"start {k}"))];
    }

    private LinearExpr StartOf(int program, int k) => steps[program][k] * programs[program].StepSeconds;

    private void StartsOfAProgramKeepTheirDistance()
    {
        for (int p = 0; p < programs.Count; p++)
        {
            for (int k = 0; k + 1 < steps[p].Length; k++)
            {
                model.Add(StartOf(p, k + 1) >= StartOf(p, k) + programs[p].Shape.StartToStartSeconds);
            }

            if (programs[p].Draft.Days.HasConsecutiveDates)
            {
                model.Add(StartOf(p, 0) + PermittedSpan.Day >= StartOf(p, steps[p].Length - 1) + programs[p].Shape.StartToStartSeconds);
            }
        }
    }

    /// <summary>All runs of a date, and those of the evening before that last past midnight.</summary>
    private IEnumerable<(int Program, int Start, int DayOffset)> RunsOf(DateSet date)
    {
        for (int p = 0; p < programs.Count; p++)
        {
            for (int k = 0; k < steps[p].Length; k++)
            {
                if (date.Has(p))
                {
                    yield return (p, k, 0);
                }

                if (date.HadYesterday(p))
                {
                    yield return (p, k, -PermittedSpan.Day);
                }
            }
        }
    }

    private void RunsOfAControllerNeverMeet()
    {
        HashSet<string> seen = [];
        foreach (DateSet date in dates)
        {
            foreach (var own in RunsOf(date).GroupBy(r => programs[r.Program].Draft.Controller))
            {
                if (own.Select(r => r.Program).Distinct().Count() > 1 && seen.Add(string.Join(',', own)))
                {
                    model.AddNoOverlap(own.Select(r => model.NewFixedSizeIntervalVar(
                        StartOf(r.Program, r.Start) + r.DayOffset,
                        programs[r.Program].Shape.Seconds + programs[r.Program].Of.Profile.PauseBetweenStationsSeconds,
                        "run")));
                }
            }
        }
    }

    /// <param name="supplyTenths">Flow of the supply, tenths of L/min.</param>
    /// <param name="shift">How far clocks that ignore daylight saving are behind those that know it.</param>
    private void TheSupplyCarriesEveryMoment(int supplyTenths, int shift)
    {
        foreach (DateSet date in dates)
        {
            (int Program, int Start, int DayOffset)[] runs = [.. RunsOf(date)];
            int most = runs.GroupBy(r => programs[r.Program].Draft.Controller).Sum(g => g.Max(r => programs[r.Program].Shape.Flow.Max(f => f.FlowTenths)));
            if (most <= supplyTenths)
            {
                continue; // even all controllers' thirstiest stations at once
            }

            CumulativeConstraint flow = model.AddCumulative(supplyTenths);
            foreach ((int program, int start, int dayOffset) in runs)
            {
                int behind = programs[program].Of.Profile.ClockKnowsDaylightSaving ? 0 : shift;
                foreach (FlowPiece piece in programs[program].Shape.Flow)
                {
                    flow.AddDemand(model.NewFixedSizeIntervalVar(StartOf(program, start) + (dayOffset + behind + piece.Offset), piece.Seconds, "flow"), piece.FlowTenths);
                }
            }
        }
    }

    /// <summary>Runs begun after noon belong to the next dawn; a seedbed's are spread over the day and left out.</summary>
    private void DistanceFromDawn(int dawn)
    {
        for (int p = 0; p < programs.Count; p++)
        {
            if (programs[p].IsSeedbed)
            {
                continue;
            }

            for (int k = 0; k < steps[p].Length; k++)
            {
                LinearExpr start = StartOf(p, k);
                BoolVar evening = model.NewBoolVar("evening");
                int noon = Math.Min(dawn + PermittedSpan.Day / 2, PermittedSpan.Day);
                model.Add(start >= noon).OnlyEnforceIf(evening);
                model.Add(start < noon).OnlyEnforceIf(evening.Not());
                LinearExpr toDawn = evening * PermittedSpan.Day + dawn - start;
                model.Add(before >= toDawn);
                model.Add(after >= programs[p].Shape.Seconds - toDawn);
                IntVar off = model.NewIntVar(0, 2 * PermittedSpan.Day, "distance");
                model.Add(off >= toDawn);
                model.Add(off >= programs[p].Shape.Seconds - toDawn);
                distances.Add(off);
            }
        }
    }
}
