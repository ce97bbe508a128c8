using System.Text.Json;
using Valvewright.Records;

namespace Valvewright.Server.Archives;

/// <summary>What the file <c>archive.json</c> of a site's archive says; surveys, weather and photos lie beside it.</summary>
/// <param name="Layout">Version of the layout, <see cref="Latest"/>.</param>
/// <param name="Site">The site's id.</param>
/// <param name="Name">Its name.</param>
/// <param name="Written">When the archive was written.</param>
/// <param name="Weather">Its weather file, in the folder <c>weather</c>; null where there is none.</param>
/// <param name="Plans">Its plans.</param>
/// <param name="Readings">Its readings.</param>
/// <param name="Visits">Its visits.</param>
/// <param name="Photos">Its photos, in the folder <c>photos</c>, each named by its id.</param>
internal sealed record ArchiveValue(
    int Layout, Guid Site, string Name, Instant Written, Archived<WeatherValue>? Weather, ListOf<Archived<PlanValue>> Plans,
    ListOf<Archived<ReadingValue>> Readings, ListOf<Archived<VisitValue>> Visits, ListOf<Archived<PhotoValue>> Photos)
{
    /// <summary>Its traces of faults; archives of before there were any lack them.</summary>
    public ListOf<Archived<TraceValue>> Traces { get; init; } = [];

    /// <summary>The layout that is written: with <c>history.json</c> to be read back, and bytes that only the history speaks of in the
    /// folder <c>earlier</c>.</summary>
    public const int Latest = 2;

    /// <summary>The layout before: the history in it was for people only, and is left where it is.</summary>
    public const int WithoutHistory = 1;
}

/// <summary>A record in an archive.</summary>
internal sealed record Archived<T>(Guid Id, Stamp Changed, T Value);

/// <summary>An entry of the history in an archive, the file <c>history.json</c>; oldest first.</summary>
/// <param name="Number">1, 2, 3 ...</param>
/// <param name="Kind">What the record is of.</param>
/// <param name="Record">The record's id.</param>
/// <param name="Version">The version that the change led to.</param>
/// <param name="Changed">Who and when.</param>
/// <param name="Value">The value after; null where the record was removed.</param>
/// <param name="UndoOf">The entry that this one takes back; null where it is no undoing.</param>
/// <param name="BroughtIn">Who brought it into the store that the archive is of; null where it was made there.</param>
internal sealed record ArchivedEntry(
    long Number, RecordKind Kind, Guid Record, long Version, Stamp Changed, JsonElement? Value, long? UndoOf, Stamp? BroughtIn);
