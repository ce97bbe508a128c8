using NodaTime;
using Valvewright.Records.Jobs;

namespace Valvewright.Store.Rows;

/// <summary>Long work that was asked for, and what came of it.</summary>
internal sealed class JobRow
{
    public Guid Id { get; set; }

    public Guid SiteId { get; set; }

    public string Kind { get; set; } = "";

    /// <summary>What was asked for, and what it rests on, as JSON.</summary>
    public string Request { get; set; } = "";

    public Instant Asked { get; set; }

    /// <summary>How often the work was begun.</summary>
    public int Begun { get; set; }

    public JobState State { get; set; }

    /// <summary>When it ended; null while it has not.</summary>
    public Instant? Ended { get; set; }

    public string? Result { get; set; }

    public string? Problem { get; set; }
}

/// <summary>What this year's weather advises for a site: the latest night's.</summary>
internal sealed class AdviceRow
{
    public Guid SiteId { get; set; }

    /// <summary>The date at the site, year-month-day.</summary>
    public string Night { get; set; } = "";

    /// <summary>Sum of the versions that it rests on.</summary>
    public long Mark { get; set; }

    public Instant At { get; set; }

    public string Value { get; set; } = "";
}

/// <summary>A secret address at which the advice is read. Of the secret only a digest is kept.</summary>
internal sealed class FeedRow
{
    public Guid Id { get; set; }

    public string Name { get; set; } = "";

    public string Digest { get; set; } = "";

    /// <summary>Whose sites it shows; null where people do not sign in.</summary>
    public Guid? OrganizationId { get; set; }

    public string By { get; set; } = "";

    public Instant MadeAt { get; set; }
}
