namespace Valvewright.Planning;

/// <summary>Tells how far the planning of all supplies is; steps that a supply takes again do not set it back.</summary>
internal sealed class SupplyProgress(int supplies, IProgress<PlanProgress>? progress)
{
    private readonly double[] done = new double[supplies];
    private readonly Lock gate = new();

    /// <summary>A supply begins a step.</summary>
    public void Begin(int index, string supply, PlanStep step)
    {
        lock (gate)
        {
            done[index] = Math.Max(done[index], (double)step / (double)PlanStep.Done);
            if (step != PlanStep.Done)
            {
                progress?.Report(new PlanProgress(supply, InWords(step), done.Average()));
            }
        }
    }

    private static string InWords(PlanStep step) => step switch
    {
        PlanStep.Needs => "What each zone needs",
        PlanStep.Programs => "Programs",
        PlanStep.ProgramsAgain => "Programs that can be timed together",
        PlanStep.Hours => "Dates and start times",
        PlanStep.Obstacles => "What is in the way",
        _ => "Changes that would free it",
    };
}

/// <summary>A step of planning a supply, in their order.</summary>
internal enum PlanStep
{
    /// <summary>Needs and choices of every zone.</summary>
    Needs,

    /// <summary>Programs of each controller by itself.</summary>
    Programs,

    /// <summary>Programs of all controllers, without those that could not be timed.</summary>
    ProgramsAgain,

    /// <summary>Dates and start times.</summary>
    Hours,

    /// <summary>By how much which limit is missed.</summary>
    Obstacles,

    /// <summary>Changes that would free the supply.</summary>
    Changes,

    /// <summary>All of it.</summary>
    Done,
}
