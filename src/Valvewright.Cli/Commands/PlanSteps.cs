using Valvewright.Cli.Output;
using Valvewright.Planning;

namespace Valvewright.Cli.Commands;

/// <summary>Tells how far planning has come.</summary>
internal sealed class PlanSteps(Progress progress) : IProgress<PlanProgress>
{
    public void Report(PlanProgress value) => progress.Step($"Planning {value.Supply}: {value.Step}");
}
