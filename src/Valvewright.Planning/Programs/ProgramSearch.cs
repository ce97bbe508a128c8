using Google.OrTools.Sat;

namespace Valvewright.Planning.Programs;

/// <summary>What a level of the aims came to.</summary>
internal readonly record struct Reached(long Value, long Bound, bool IsProven);

/// <summary>The best programs under the cuts so far, level by level: stress, then water, then settings.</summary>
internal sealed record ProgramSearch(List<ProgramDraft> Programs, Reached Stress, Reached Water, Reached Settings, double Effort)
{
    /// <summary>Null when no programs exist.</summary>
    public static ProgramSearch? Run(ProgramModel model, PlannerOptions options, double effort, CancellationToken cancel)
    {
        if (model.Controllers.Any(c => c.Zones.Any(z => z.Choices.Count == 0)))
        {
            return null;
        }

        double spent = 0;
        CpSolver? Minimise(LinearExpr aim, out Reached reached)
        {
            model.Model.Minimize(aim);
            CpSolver solver = Solving.Solver(effort / 3);
            CpSolverStatus status = solver.Run(model.Model, cancel);
            spent += solver.Response!.DeterministicTime;
            if (!status.IsFeasible())
            {
                reached = default;
                return null;
            }

            reached = new Reached((long)Math.Round(solver.ObjectiveValue), (long)Math.Ceiling(solver.BestObjectiveBound - 1e-6), status == CpSolverStatus.Optimal);
            model.Model.ClearHints();
            foreach (Taking taking in model.Takings)
            {
                model.Model.AddHint(taking.Taken, solver.BooleanValue(taking.Taken));
            }

            foreach (BoolVar inUse in model.InUse.Values)
            {
                model.Model.AddHint(inUse, solver.BooleanValue(inUse));
            }

            return solver;
        }

        LinearExpr stressAim = model.Stress;
        if (Minimise(stressAim, out Reached stress) is null)
        {
            return null;
        }

        Constraint keepStress = model.Model.Add(stressAim <= stress.Value);
        if (Minimise(model.Water, out Reached water) is not { } watered)
        {
            return null;
        }

        List<Constraint> keep = [keepStress];
        for (int c = 0; c < model.Controllers.Count; c++)
        {
            long least = model.Takings.Where(t => t.Facility.Controller == c && watered.BooleanValue(t.Taken)).Sum(t => t.Choice.LitresPerYear);
            keep.Add(model.Model.Add(model.WaterOf(c) <= least + (long)(least * options.WaterWorthFewerSettings)));
        }

        if (Minimise(model.Settings, out Reached settings) is not { } solver)
        {
            return null;
        }

        List<ProgramDraft> programs = model.Read(solver);
        foreach (Constraint constraint in keep)
        {
            constraint.Proto.ClearConstraint();
        }

        long used = programs.SelectMany(p => p.Stations).Sum(s => s.Choice.LitresPerYear);
        return new ProgramSearch(programs, stress, water with { Value = used }, settings, spent);
    }
}
