using Valvewright.Records;

namespace Valvewright.Store;

/// <summary>A record as it stands.</summary>
/// <param name="Site">The site that it belongs to.</param>
/// <param name="Id">Its id, made by the one who made the record.</param>
/// <param name="Version">1 when made, one more with each change.</param>
/// <param name="Value">What it says.</param>
/// <param name="Changed">Who changed it last.</param>
public sealed record Kept<T>(Guid Site, Guid Id, long Version, T Value, Stamp Changed)
    where T : class;

/// <summary>What came of an attempt to change a record.</summary>
public enum Outcome
{
    /// <summary>A new record.</summary>
    Made,

    /// <summary>Changed; the version went up.</summary>
    Changed,

    /// <summary>It says this already; nothing was written. So what is sent twice counts once.</summary>
    Same,

    /// <summary>Another person has changed it since: nothing was written, the record as it stands comes back.</summary>
    Conflict,

    /// <summary>There is a record and no version was named: nothing was written.</summary>
    NeedsVersion,

    /// <summary>No such record, or no such site.</summary>
    Missing,

    /// <summary>The id belongs to a record of another kind or another site.</summary>
    Taken,
}

/// <summary>What came of an attempt to change a record, with the record as it stands afterwards.</summary>
/// <param name="Outcome">What came of it.</param>
/// <param name="Record">The record as it stands; null where there is none.</param>
public sealed record Answer<T>(Outcome Outcome, Kept<T>? Record)
    where T : class
{
    /// <summary>Whether the record now says what was asked for.</summary>
    public bool IsKept => Outcome is Outcome.Made or Outcome.Changed or Outcome.Same;
}

/// <summary>One entry of the history; entries are only ever added.</summary>
/// <param name="Number">Rising over the whole store.</param>
/// <param name="Kind">What the record is of.</param>
/// <param name="Record">The record's id.</param>
/// <param name="Version">The version that the change led to.</param>
/// <param name="Changed">Who and when.</param>
/// <param name="Before">The value before as JSON; null where the record was not there.</param>
/// <param name="After">The value after as JSON; null where the record was removed.</param>
/// <param name="UndoOf">The entry that this one takes back; null where it is no undoing.</param>
/// <param name="BroughtIn">Who brought it in from an archive, and when; null where it was made here.</param>
public sealed record HistoryEntry(
    long Number, RecordKind Kind, Guid Record, long Version, Stamp Changed, string? Before, string? After, long? UndoOf, Stamp? BroughtIn);
