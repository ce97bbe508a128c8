using Google.OrTools.Sat;

namespace Valvewright.Planning.Programs;

/// <summary>What a level of the aims came to.</summary>
internal readonly record struct Reached(long Value, long Bound, bool IsProven);

/// <summary>The best programs under the cuts so far, level by level: use that must be met, then cost, then settings.</summary>
internal sealed record ProgramSearch(List<ProgramDraft> Programs, Reached Short, Reached Cost, Reached Settings, double Effort)
{
    /// <summary>Searches of single controllers put together: what is least for each is least for all.</summary>
    public static ProgramSearch Together(IReadOnlyList<ProgramSearch> each) => new(
        [.. each.SelectMany((s, c) => s.Programs.Select(p => p with { Controller = c }))],
        Sum(each.Select(s => s.Short)), Sum(each.Select(s => s.Cost)), Sum(each.Select(s => s.Settings)), each.Sum(s => s.Effort));

    /// <summary>Null when no programs exist or, where <paramref name="isProof"/> says so, when none were found with the effort
    /// allowed.</summary>
    public static ProgramSearch? Run(ProgramModel model, PlannerOptions options, double effort, CancellationToken cancel, out bool isProof)
    {
        bool ended = true;
        isProof = true;
        if (model.Controllers.Sum(c => c.Zones.Count) > model.Takings.Select(t => (t.Facility.Controller, t.Zone)).Distinct().Count())
        {
            return null; // a zone has no choice at all
        }

        double spent = 0;
        CpSolver? Minimise(LinearExpr aim, out Reached reached)
        {
            model.Model.Minimize(aim);
            CpSolver solver = Solving.Solver(effort / 3);
            CpSolverStatus status = solver.Run(model.Model, cancel);
            spent += solver.Response!.DeterministicTime;
            ended = status != CpSolverStatus.Unknown;
            if (!status.IsFeasible())
            {
                reached = default;
                return null;
            }

            reached = new Reached((long)Math.Round(solver.ObjectiveValue), (long)Math.Ceiling(solver.BestObjectiveBound - 1e-6),
                status == CpSolverStatus.Optimal);
            model.Model.ClearHints();
            foreach (Taking taking in model.Takings)
            {
                model.Model.AddHint(taking.Taken, solver.BooleanValue(taking.Taken));
            }

            foreach (BoolVar inUse in model.InUse.Values)
            {
                model.Model.AddHint(inUse, solver.BooleanValue(inUse));
            }

            foreach (IntVar variable in model.Kinds.Variables)
            {
                model.Model.AddHint(variable, solver.Value(variable));
            }

            return solver;
        }

        if (options.OnlyWhether)
        {
            CpSolver? any = Minimise(model.Cost, out Reached least);
            isProof = ended;
            return any is null ? null : new ProgramSearch(model.Read(any), default, least, default, spent);
        }

        // Nearly always every need can be met: that is tried first, and spares a level.
        List<Constraint> keep = [.. model.Takings.Where(t => t.Choice.Shortfall > 0).Select(t => model.Model.Add(t.Taken == 0))];
        Reached lacking = new(0, 0, true);
        CpSolver? priced = Minimise(model.Cost, out Reached cost);
        if (priced is null && keep.Count > 0)
        {
            keep.ForEach(c => c.Proto.ClearConstraint());
            LinearExpr shortAim = model.Short;
            if (Minimise(shortAim, out lacking) is not null)
            {
                keep = [model.Model.Add(shortAim <= lacking.Value),
                    .. WithoutWhatCannotBeAfforded(model, model.Takings, t => t.Choice.Shortfall, lacking.Value)];
                priced = Minimise(model.Cost, out cost);
                ended &= priced is not null;
            }
        }

        if (priced is null)
        {
            isProof = ended;
            return null;
        }

        for (int c = 0; c < model.Controllers.Count; c++)
        {
            long least = priced.Value(model.CostOf(c));
            long affordable = least + (long)(least * options.WaterWorthFewerSettings);
            keep.Add(model.Model.Add(model.CostOf(c) <= affordable));
            keep.AddRange(WithoutWhatCannotBeAfforded(
                model, model.Takings.Where(t => t.Facility.Controller == c), t => t.Choice.CostLitres, affordable));
        }

        if (Minimise(model.Settings, out Reached settings) is not { } solver)
        {
            isProof = false;
            return null;
        }

        List<ProgramDraft> programs = model.Read(solver);
        foreach (Constraint constraint in keep)
        {
            constraint.Proto.ClearConstraint();
        }

        long used = solver.Value(model.Cost);
        return new ProgramSearch(programs, lacking, cost with { Value = used }, settings, spent);
    }

    /// <summary>
    /// With every station at its least, what is left of the total is all that any one may add: choices that cost more are out. (It
    /// follows from the total; said outright it lets the solver drop most choices.)
    /// </summary>
    private static List<Constraint> WithoutWhatCannotBeAfforded(
        ProgramModel model, IEnumerable<Taking> takings, Func<Taking, long> cost, long total)
    {
        IGrouping<(int, int), Taking>[] stations = [.. takings.GroupBy(t => (t.Facility.Controller, t.Zone))];
        long left = total - stations.Sum(s => s.Min(cost));
        return [.. from station in stations
                   let least = station.Min(cost)
                   from taking in station
                   where cost(taking) - least > left
                   select model.Model.Add(taking.Taken == 0)];
    }

    private static Reached Sum(IEnumerable<Reached> each)
    {
        Reached[] all = [.. each];
        return new Reached(all.Sum(r => r.Value), all.Sum(r => r.Bound), all.All(r => r.IsProven));
    }
}
