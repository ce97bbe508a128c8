using NodaTime;
using Valvewright.Records.Jobs;

namespace Valvewright.Store;

/// <summary>Long work that was asked for.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Site">The site that it works on.</param>
/// <param name="Kind">plan, proof, season or found.</param>
/// <param name="Request">What was asked for, and what it rests on, as JSON.</param>
/// <param name="Asked">When.</param>
/// <param name="State">How it stands; whether it is being done now is known to whoever does it.</param>
/// <param name="Ended">When it ended; null while it has not.</param>
/// <param name="Result">What came of it, as JSON.</param>
/// <param name="Problem">Why it could not be done, as JSON.</param>
public sealed record KeptJob(
    Guid Id, Guid Site, string Kind, string Request, Instant Asked, JobState State = JobState.Waiting, Instant? Ended = null,
    string? Result = null, string? Problem = null)
{
    /// <summary>How often the work was begun.</summary>
    public int Begun { get; init; }
}

/// <summary>How many jobs there may be.</summary>
/// <param name="MostOpen">That have not ended.</param>
/// <param name="MostOpenOfASite">That have not ended, of one site.</param>
/// <param name="MostKept">Altogether; the oldest that have ended make room.</param>
public sealed record JobLimits(int MostOpen, int MostOpenOfASite, int MostKept);

/// <summary>Whether a job was taken.</summary>
public enum JobTaking
{
    /// <summary>It is kept and will be done.</summary>
    Taken,

    /// <summary>Too many are open.</summary>
    TooMany,

    /// <summary>Too many of its site are open.</summary>
    TooManyOfSite,
}

/// <summary>What became of a result.</summary>
public enum JobWriting
{
    /// <summary>It is kept, with the record that it made.</summary>
    Written,

    /// <summary>The job had ended already; nothing was written.</summary>
    Dropped,

    /// <summary>The record that it made can't be kept; nothing was written.</summary>
    NotKept,
}

/// <summary>This year's advice for a site.</summary>
/// <param name="Site">The site.</param>
/// <param name="Night">The date at the site.</param>
/// <param name="Mark">Sum of the versions that it rests on (<see cref="SiteStore.Marks"/>).</param>
/// <param name="At">When it was found.</param>
/// <param name="Value">The advice, as JSON.</param>
public sealed record KeptAdvice(Guid Site, LocalDate Night, long Mark, Instant At, string Value);

/// <summary>A secret address at which the advice is read.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Name">What it is for.</param>
/// <param name="Digest">Digest of the secret.</param>
/// <param name="Organization">Whose sites it shows; null where people do not sign in.</param>
/// <param name="Made">Who made it, and when.</param>
public sealed record KeptFeed(Guid Id, string Name, string Digest, Guid? Organization, Records.Stamp Made);
