using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Store.Records;

namespace Valvewright.Server.Sites;

/// <summary>A site in a list.</summary>
internal sealed record SiteLine(Guid Id, long Version, string Name, string Digest, Stamp Changed);

/// <summary>A site.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Version">Its version, the ETag.</param>
/// <param name="Name">Its name.</param>
/// <param name="Digest">Digest of what the survey says.</param>
/// <param name="Changed">Who changed it last, and when.</param>
/// <param name="Survey">The survey as written.</param>
/// <param name="Site">The survey as understood, with what was assumed.</param>
/// <param name="Questions">What can be used but is questioned.</param>
/// <param name="Weather">Its weather file; null where none was sent.</param>
internal sealed record SiteView(
    Guid Id, long Version, string Name, string Digest, Stamp Changed, string Survey, JsonElement Site, ListOf<Problem> Questions, WeatherView? Weather);

/// <summary>A site's weather file.</summary>
internal sealed record WeatherView(long Version, string Name, long Bytes, string Digest, int Days, LocalDate? From, LocalDate? To, ListOf<string> Notes);

/// <summary>A record of a site.</summary>
internal sealed record RecordView<T>(Guid Id, long Version, Stamp Changed, T Value);

/// <summary>An entry of a site's history.</summary>
internal sealed record EntryView(long Number, RecordKind Kind, Guid Record, long Version, Stamp Changed, JsonElement? Before, JsonElement? After, long? UndoOf);
