using System.Text.Json;
using Valvewright.Records.Views;

namespace Valvewright.Records.Jobs;

/// <summary>How a job stands.</summary>
public enum JobState
{
    /// <summary>Others are before it.</summary>
    Waiting,

    /// <summary>It is being done.</summary>
    Running,

    /// <summary>Done; there is a result.</summary>
    Done,

    /// <summary>It could not be done; there is a problem.</summary>
    Failed,

    /// <summary>A person stopped it.</summary>
    Stopped,
}

/// <summary>A job as people see it.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Site">The site that it works on.</param>
/// <param name="Kind">plan, proof, season or found.</param>
/// <param name="State">How it stands.</param>
/// <param name="Step">What is being done.</param>
/// <param name="Done">How much is done, 0 to 1.</param>
/// <param name="Asked">When it was asked for.</param>
/// <param name="Ended">When it ended; null while it has not.</param>
/// <param name="Result">What it came to: <see cref="PlanMade"/>, <see cref="PlanProven"/>,
/// <see cref="VisitsFound"/> or <see cref="ProgramsFound"/>.</param>
/// <param name="Problem">Why it could not be done.</param>
public sealed record JobView(Guid Id, Guid Site, string Kind, JobState State, string Step, double Done, Instant Asked, Instant? Ended,
    JsonElement? Result, ProblemDocument? Problem)
{
    /// <summary>The result as a value.</summary>
    public T? ResultAs<T>()
        where T : class => Result?.Deserialize<T>(Json.Options);
}
