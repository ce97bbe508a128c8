using Orleans;

namespace Valvewright.Server.Jobs;

/// <summary>Does one job of the store, on whichever silo it is placed. It is in one place at a time, but for moments in which a silo is
/// lost: then two may do the same work, and the first result counts.</summary>
internal interface IJobGrain : IGrainWithGuidKey
{
    /// <summary>How far it is. A job that no one is doing is taken up.</summary>
    Task<JobStep> Look();

    /// <summary>Waits for the end, but not longer than said.</summary>
    Task Ended(TimeSpan longest);

    /// <summary>Stops it; a job that has ended stays as it is.</summary>
    Task Stop();
}

/// <summary>How far a job is.</summary>
/// <param name="IsRunning">Whether it is being done now; else it waits, or has ended.</param>
/// <param name="Step">What is being done.</param>
/// <param name="Done">How much is done, 0 to 1.</param>
[GenerateSerializer]
internal sealed record JobStep([property: Id(0)] bool IsRunning, [property: Id(1)] string Step, [property: Id(2)] double Done);
