namespace Valvewright.App.Pages.Reading;

/// <summary>A reading as it is being typed.</summary>
/// <param name="Id">The reading's id.</param>
public sealed record ReadingDraft(Guid Id)
{
    /// <summary>The version that it rests on; null for a new one.</summary>
    public string? Version { get; init; }

    /// <summary>The controller's name; empty until chosen.</summary>
    public string Controller { get; init; } = "";

    /// <summary>Date at the site, as a date field gives it.</summary>
    public string Date { get; init; } = "";

    /// <summary>Time of day at the site, as a time field gives it.</summary>
    public string Time { get; init; } = "";

    /// <summary>What was read.</summary>
    public string Text { get; init; } = "";

    /// <summary>What was seen.</summary>
    public string Seen { get; init; } = "";

    /// <summary>Whether it is judged without the plan.</summary>
    public bool IsAlone { get; init; }

    /// <summary>When it was last written to.</summary>
    public Instant At { get; init; }
}
