namespace Valvewright.App.Outbox;

/// <summary>Something recorded on this device that the server does not have yet.</summary>
/// <param name="Id">The record's id, made here: sent twice it counts once.</param>
/// <param name="Site">The site that it belongs to.</param>
/// <param name="Kind">What it is: <c>visit</c>, <c>reading</c>, <c>photo</c>, <c>survey</c>.</param>
/// <param name="Address">Where it is put, below the page's address.</param>
/// <param name="Type">The media type of its body.</param>
/// <param name="Body">Its text; null for a photo, whose bytes lie in the store of photos under its id.</param>
/// <param name="Version">The version that the change rests on; null for a new record.</param>
/// <param name="MadeAt">When it was recorded, by the device's clock.</param>
/// <param name="By">Who recorded it.</param>
public sealed record UnsentRecord(
    Guid Id, Guid Site, string Kind, string Address, string Type, string? Body, string? Version, Instant MadeAt, string By)
{
    /// <summary>The site's name, for the person; empty where it was not at hand.</summary>
    public string SiteName { get; init; } = "";

    /// <summary>The site's units; null where it was not at hand.</summary>
    public UnitSystem? Units { get; init; }

    /// <summary>The site's clock style; null where it was not at hand.</summary>
    public ClockStyle? Clock { get; init; }

    /// <summary>Its place in the order of recording on this device; a clock that jumps does not change it.</summary>
    public long Number { get; init; }

    /// <summary>The visit that a photo belongs to: it can't go before its visit has gone.</summary>
    public Guid? After { get; init; }

    /// <summary>
    /// What was on its way to the server without a certain answer, the last last: any of it may have arrived. Where the server says that
    /// a person was first, and it is one of these, no one else was.
    /// </summary>
    public ListOf<string> Tried { get; init; } = [];

    /// <summary>Why the server refused it, as the server said; null while it only waits.</summary>
    public string? Refusal { get; init; }

    /// <summary>The whole problem document of the refusal.</summary>
    public string? Problem { get; init; }
}
