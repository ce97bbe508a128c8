using NodaTime;
using Valvewright.Records;

namespace Valvewright.Store.Rows;

/// <summary>A record of any kind, as it stands. A site is a record that belongs to itself.</summary>
internal sealed class RecordRow
{
    public Guid Id { get; set; }

    public Guid SiteId { get; set; }

    public RecordKind Kind { get; set; }

    public long Version { get; set; }

    /// <summary>The value as JSON; null once the record is removed.</summary>
    public string? Value { get; set; }

    /// <summary>The bytes that the value speaks of.</summary>
    public string? Blob { get; set; }

    public Instant At { get; set; }

    public string By { get; set; } = "";
}

/// <summary>An entry of the history. What was there before is the entry of the version before.</summary>
internal sealed class HistoryRow
{
    public long Number { get; set; }

    public Guid SiteId { get; set; }

    public RecordKind Kind { get; set; }

    public Guid RecordId { get; set; }

    public long Version { get; set; }

    public Instant At { get; set; }

    public string By { get; set; } = "";

    /// <summary>The value after as JSON; null where the record was removed.</summary>
    public string? Value { get; set; }

    public long? UndoOf { get; set; }

    /// <summary>Who brought the entry in from an archive; null where it was made here.</summary>
    public string? BroughtInBy { get; set; }

    /// <summary>When it was brought in.</summary>
    public Instant? BroughtInAt { get; set; }
}

/// <summary>Bytes, named by their SHA-256. They stay as long as history speaks of them.</summary>
internal sealed class BlobRow
{
    public string Digest { get; set; } = "";

    public byte[] Bytes { get; set; } = [];
}
