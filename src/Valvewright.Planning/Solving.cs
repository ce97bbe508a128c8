using Google.OrTools.Sat;

namespace Valvewright.Planning;

/// <summary>How every model is solved: one worker, fixed seed, limits in counted work, so that two runs give the same plan.</summary>
/// <remarks>
/// The solver's own SIGINT handler stays off: it calls back into an object that is gone once the solve has ended (the process aborts), and
/// takes the signal away from the command for good. Cancelling goes through <see cref="Run"/>.
/// </remarks>
internal static class Solving
{
    private const int Seed = 20;

    public static CpSolver Solver(double effortSeconds) => new()
    {
        StringParameters = string.Create(
            System.Globalization.CultureInfo.InvariantCulture,
            $"num_workers:1,random_seed:{Seed},catch_sigint_signal:false,max_deterministic_time:{effortSeconds}"),
    };

    /// <summary>Solves, stopping early when cancelled.</summary>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static CpSolverStatus Run(this CpSolver solver, CpModel model, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        using CancellationTokenRegistration registration = cancel.Register(solver.StopSearch);
        CpSolverStatus status = solver.Solve(model);
        cancel.ThrowIfCancellationRequested();
        return status == CpSolverStatus.ModelInvalid ? throw new InvalidOperationException(
            "The planning model is malformed: " + model.Validate()) : status;
    }

    public static bool IsFeasible(this CpSolverStatus status) => status is CpSolverStatus.Optimal or CpSolverStatus.Feasible;
}
