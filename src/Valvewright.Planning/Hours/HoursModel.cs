using Google.OrTools.Sat;
using Google.OrTools.Util;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Hours;

/// <summary>
/// When each program of a supply starts, its dates being chosen: within permitted hours, no run of a controller into another, the
/// supply's flow never exceeded on any date, and overhead water in the early hours (<see cref="EarlyHours"/>) as far as can be.
/// </summary>
internal sealed partial class HoursModel
{
    private const double EffortOfLastStep = 0.2;

    private readonly CpModel model = new();
    private readonly IReadOnlyList<TimedProgram> programs;
    private readonly IReadOnlyList<DateSet> dates;
    private readonly Tidiness tidiness;
    private readonly int[] grid;
    private readonly IntVar[][] steps;
    private readonly Dictionary<int, List<DateSet>> waiting = [];
    private readonly int supplyTenths;
    private readonly IReadOnlyList<int> clockShifts;
    private readonly IntVar outside;
    private readonly IntVar late;
    private readonly Dictionary<(int, int, int, int), IntervalVar> intervals = [];

    public HoursModel(IReadOnlyList<TimedProgram> programs, IReadOnlyList<WaterDayPhase> phases, IReadOnlyList<DateSet> dates,
        int supplyTenths, IReadOnlyList<int> clockShifts, Tidiness tidiness)
    {
        this.programs = programs;
        this.dates = dates;
        this.supplyTenths = supplyTenths;
        this.clockShifts = clockShifts;
        this.tidiness = tidiness;
        grid = [.. programs.Select(p => p.StartSteps[Math.Min(tidiness.Grid, p.StartSteps.Count - 1)])];
        steps = [.. programs.Select((p, i) => StartsWithinPermittedHours(p, phases[i], grid[i]))];
        outside = model.NewIntVar(0, 2 * PermittedSpan.Day, "outside the early hours");
        late = model.NewIntVar(0, 2 * PermittedSpan.Day, "after sunrise");
        HasStarts = steps.All(own => own.Length > 0);
        if (!HasStarts)
        {
            return;
        }

        StartsOfAProgramKeepTheirDistance();
        RunsOfAControllerNeverMeet();
        foreach (int shift in clockShifts)
        {
            TheSupplyCarriesEveryMoment(shift);
        }

        OverheadWaterInTheEarlyHours();
    }

    /// <summary>Whether every program has a start time on the grid at all.</summary>
    public bool HasStarts { get; }

    /// <summary>Whether the last search ended with a proof that there are no start times, rather than for lack of effort.</summary>
    public bool IsProvenImpossible { get; private set; }

    /// <summary>
    /// Start times in seconds by program, how far overhead water lies from the early hours, and its bound; null when there are none. Flow
    /// is first held on the fullest dates only; dates that the answer turns out to break are added until none is. (Fewer dates only loosen
    /// the problem, so the bound holds.)
    /// </summary>
    public TimedStarts? Solve(double effort, CancellationToken cancel, out double spent, HoursAim aim = HoursAim.OutsideThenPrice)
    {
        spent = 0;
        if (!HasStarts)
        {
            IsProvenImpossible = true;
            return null;
        }

        CpSolver solver;
        CpSolverStatus status;
        if (aim != HoursAim.Any)
        {
            model.Minimize(outside * OutsideWeight + late);
        }

        do
        {
            solver = Solving.Solver(effort);
            status = solver.Run(model, cancel);
            spent += solver.Response!.DeterministicTime;
            if (!status.IsFeasible() || spent > 3 * effort)
            {
                IsProvenImpossible = status == CpSolverStatus.Infeasible;
                return null;
            }
        }
        while (AddBrokenDates(Read(solver)));

        long weighed = aim == HoursAim.Any ? 0 : solver.Value(outside) * OutsideWeight + solver.Value(late);
        int[][] starts = aim == HoursAim.OutsideThenPrice ? LeastPrice(solver, weighed, cancel, ref spent) : Read(solver);
        return new TimedStarts(
            starts, solver.Value(outside), weighed, (long)Math.Ceiling(solver.BestObjectiveBound - 1e-6), status == CpSolverStatus.Optimal);
    }

    /// <summary>Without going farther outside, every run moves to where it costs least, as a short search finds; this last step is not
    /// proven.</summary>
    private int[][] LeastPrice(CpSolver found, long weighed, CancellationToken cancel, ref double spent)
    {
        int[][] starts = Read(found);
        for (int p = 0; p < steps.Length; p++)
        {
            for (int k = 0; k < steps[p].Length; k++)
            {
                model.AddHint(steps[p][k], found.Value(steps[p][k]));
            }
        }

        model.Add(outside * OutsideWeight + late <= weighed);
        model.Minimize(PriceOfStarts());
        for (int trial = 0; trial < 3; trial++)
        {
            CpSolver nearer = Solving.Solver(EffortOfLastStep);
            CpSolverStatus status = nearer.Run(model, cancel);
            spent += nearer.Response!.DeterministicTime;
            if (!status.IsFeasible())
            {
                break;
            }

            if (!AddBrokenDates(Read(nearer)))
            {
                return Read(nearer);
            }
        }

        return starts;
    }

    private int[][] Read(CpSolver solver) => [.. steps.Select((own, p) => own.Select(s => (int)solver.Value(s) * grid[p]).ToArray())];

    /// <summary>Nothing where no start on the grid is permitted.</summary>
    private IntVar[] StartsWithinPermittedHours(TimedProgram program, WaterDayPhase phase, int step)
    {
        long[][] ranges = [.. program.StartsIn(phase, step).Select(r => new long[] { r.First, r.Last })];
        return ranges.Length == 0
            ? []
            : [.. Enumerable.Range(0, program.Draft.Cycles)
                .Select(k => model.NewIntVarFromDomain(Domain.FromIntervals(ranges), $"start {k}"))];
    }

    private LinearExpr StartOf(int program, int k) => steps[program][k] * grid[program];

    /// <summary>A stretch of a run; dates share them, as start times are the same on every date.</summary>
    private IntervalVar Interval(int program, int start, int offset, int seconds)
    {
        if (!intervals.TryGetValue((program, start, offset, seconds), out IntervalVar? interval))
        {
            interval = model.NewFixedSizeIntervalVar(StartOf(program, start) + offset, seconds, "run");
            intervals.Add((program, start, offset, seconds), interval);
        }

        return interval;
    }

    private void StartsOfAProgramKeepTheirDistance()
    {
        for (int p = 0; p < programs.Count; p++)
        {
            for (int k = 0; k + 1 < steps[p].Length; k++)
            {
                model.Add(StartOf(p, k + 1) >= StartOf(p, k) + programs[p].Shape.StartToStartSeconds);
            }

            if (tidiness.CyclesTogether && programs[p].HasCyclesToKeepTogether)
            {
                model.Add(StartOf(p, steps[p].Length - 1) - StartOf(p, 0) <= programs[p].CyclesAndSoaksSeconds + MostBetweenCyclesSeconds);
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
                    model.AddNoOverlap(own.Select(r => Interval(
                        r.Program, r.Start, r.DayOffset,
                            programs[r.Program].Shape.Seconds + programs[r.Program].Of.Profile.PauseBetweenStationsSeconds)));
                }
            }
        }
    }
}
