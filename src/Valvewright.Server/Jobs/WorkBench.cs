namespace Valvewright.Server.Jobs;

/// <summary>What the work of a program has room for.</summary>
internal sealed class WorkBench : IDisposable
{
    /// <summary>One long job at a time: the planner takes all processors for itself.</summary>
    public SemaphoreSlim Turn { get; } = new(1);

    /// <summary>Short work: as much at once as there are processors.</summary>
    public SemaphoreSlim Processors { get; } = new(Environment.ProcessorCount);

    public void Dispose()
    {
        Turn.Dispose();
        Processors.Dispose();
    }
}
