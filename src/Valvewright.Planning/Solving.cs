using Google.OrTools.Sat;

namespace Valvewright.Planning;

/// <summary>How every model is solved: one worker, fixed seed, limits in counted work, so that two runs give the same plan.</summary>
internal static class Solving
{
    private const int Seed = 20;

    public static CpSolver Solver(double effortSeconds) => new()
    {
        StringParameters = $"num_workers:1,random_seed:{Seed},max_deterministic_time:{effortSeconds.ToString(System.Globalization.CultureInfo.InvariantCulture)}",
    };

    /// <summary>Solves, stopping early when cancelled.</summary>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static CpSolverStatus Run(this CpSolver solver, CpModel model, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        using CancellationTokenRegistration registration = cancel.Register(solver.StopSearch);
        CpSolverStatus status = solver.Solve(model);
        cancel.ThrowIfCancellationRequested();
        return status == CpSolverStatus.ModelInvalid ? throw new InvalidOperationException("The planning model is malformed: " + model.Validate()) : status;
    }

    public static bool IsFeasible(this CpSolverStatus status) => status is CpSolverStatus.Optimal or CpSolverStatus.Feasible;
}
