using System.Text.Json;
using Valvewright.Engine.Needs;

namespace Valvewright.Records.Views;

/// <summary>A site in a list.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Version">Its version, the ETag.</param>
/// <param name="Name">Its name.</param>
/// <param name="Digest">Digest of what the survey says.</param>
/// <param name="Changed">Who changed it last, and when.</param>
public sealed record SiteLine(Guid Id, long Version, string Name, string Digest, Stamp Changed);

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
public sealed record SiteView(
    Guid Id, long Version, string Name, string Digest, Stamp Changed, string Survey, Site Site, ListOf<TextProblem> Questions,
        WeatherView? Weather);

/// <summary>What a survey says, of which nothing has been stored.</summary>
/// <param name="Site">The survey as understood, with what was assumed.</param>
/// <param name="Digest">Digest of what it says.</param>
/// <param name="Questions">What can be used but is questioned.</param>
public sealed record SurveyUnderstood(Site Site, string Digest, ListOf<TextProblem> Questions);

/// <summary>What the zones of a site need.</summary>
/// <param name="Years">Which years it was worked out with.</param>
/// <param name="Zones">Each zone's need, with where each number comes from.</param>
public sealed record NeedsView(string Years, ListOf<ZoneNeed> Zones);

/// <summary>A site's weather file.</summary>
/// <param name="Version">Its version, the ETag.</param>
/// <param name="Name">The file's name.</param>
/// <param name="Bytes">How many bytes it has.</param>
/// <param name="Digest">Digest of its bytes.</param>
/// <param name="Days">How many days it holds; 0 where it was not read for this answer.</param>
/// <param name="From">Its first day.</param>
/// <param name="To">Its last day.</param>
/// <param name="Notes">What a reader of it should know.</param>
public sealed record WeatherView(
    long Version, string Name, long Bytes, string Digest, int Days, LocalDate? From, LocalDate? To, ListOf<string> Notes);

/// <summary>A record of a site.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Version">Its version, the ETag.</param>
/// <param name="Changed">Who changed it last, and when.</param>
/// <param name="Value">What it says.</param>
public sealed record RecordView<T>(Guid Id, long Version, Stamp Changed, T Value);

/// <summary>An entry of a site's history.</summary>
/// <param name="Number">Rising over the whole store.</param>
/// <param name="Kind">What the record is of.</param>
/// <param name="Record">The record's id.</param>
/// <param name="Version">The version that the change led to.</param>
/// <param name="Changed">Who and when.</param>
/// <param name="Before">The value before; null where the record was not there.</param>
/// <param name="After">The value after; null where the record was removed.</param>
/// <param name="UndoOf">The entry that this one takes back; null where it is no undoing.</param>
/// <param name="BroughtIn">Who brought it in from an archive, and when; null where it was made here.</param>
public sealed record EntryView(long Number, RecordKind Kind, Guid Record, long Version, Stamp Changed, JsonElement? Before,
    JsonElement? After, long? UndoOf, Stamp? BroughtIn);
