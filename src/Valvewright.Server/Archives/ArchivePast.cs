using System.Text.Json;
using Valvewright.Records;
using Valvewright.Server.Plans;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Server.Sites;
using Valvewright.Server.Visits;
using Valvewright.Store;

namespace Valvewright.Server.Archives;

/// <summary>
/// The history in an archive, looked through: each record's versions follow each other, what the last one says is what the archive says
/// of the record as it stands, and every value is one that could have been sent.
/// </summary>
/// <param name="Entries">The history, oldest first.</param>
/// <param name="Bytes">Bytes that its values speak of, by their digests.</param>
internal sealed record ArchivePast(IReadOnlyList<PastEntry> Entries, IReadOnlyDictionary<string, byte[]> Bytes)
{
    private const int MostEntries = 200_000;
    private const int LongestBy = 100;

    private static readonly JsonSerializerOptions Strict = new(Json.Options) { RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true };

    /// <summary>Reads the history.</summary>
    /// <param name="site">The site.</param>
    /// <param name="archived">The entries of <c>history.json</c>.</param>
    /// <param name="changes">The records as they stand, which were looked through before.</param>
    /// <param name="earlier">Bytes that no standing record speaks of, by their digest.</param>
    public static ArchivePast Of(Guid site, ListOf<ArchivedEntry> archived, IReadOnlyList<Change> changes, Func<string, byte[]> earlier)
    {
        if (archived.Count > MostEntries)
        {
            throw Wrong(null, $"{archived.Count} entries", $"at most {MostEntries}");
        }

        Dictionary<string, byte[]> bytes = [];
        foreach (Change change in changes.Where(c => c.Bytes is not null))
        {
            bytes.TryAdd(SiteStore.DigestOf(change.Bytes), change.Bytes!);
        }

        Dictionary<Guid, ArchivedEntry> last = [];
        Dictionary<long, ArchivedEntry> before = [];
        List<PastEntry> entries = [];
        foreach (ArchivedEntry entry in archived)
        {
            Follow(site, entry, last.GetValueOrDefault(entry.Record), before);
            object? value = entry.Value is { } json ? ValueOf(entry, json, bytes, earlier) : null;
            entries.Add(new PastEntry(entry.Number, entry.Kind, entry.Record, entry.Version, entry.Changed, value, entry.UndoOf));
            last[entry.Record] = entry;
            before.Add(entry.Number, entry);
        }

        Agree(entries, changes);
        return new ArchivePast(entries, bytes);
    }

    private static void Follow(Guid site, ArchivedEntry entry, ArchivedEntry? previous, Dictionary<long, ArchivedEntry> before)
    {
        if (entry is null || entry.Changed is null || entry.Number != before.Count + 1 || (before.Count == 0 && entry.Record != site))
        {
            throw Wrong(entry, entry is null ? "null" : (Sentence)$"entry {entry.Number}",
                $"entry {before.Count + 1}, the first of them the site's");
        }

        Given.Line(entry.Changed.By, "by", LongestBy);
        bool isOfSite = entry.Kind == RecordKind.Site, isOfWeather = entry.Kind == RecordKind.Weather;
        if (isOfSite != (entry.Record == site) || isOfWeather != (entry.Record == Ids.WeatherOf(site)) || !Enum.IsDefined(entry.Kind))
        {
            throw Wrong(entry, $"{entry.Kind} {entry.Record}", "a record of the kind that its id says");
        }

        if (!isOfWeather)
        {
            Given.Id(entry.Record.ToString("D"), "record");
        }

        if (entry.Version != (previous?.Version ?? 0) + 1 || (previous is not null && previous.Kind != entry.Kind)
            || (previous?.Value is null && entry.Value is null))
        {
            throw Wrong(entry, $"version {entry.Version}", $"version {(previous?.Version ?? 0) + 1} of the same kind of record");
        }

        if (entry.UndoOf is { } undone && (!before.TryGetValue(undone, out ArchivedEntry? taken) || taken.Record != entry.Record))
        {
            throw Wrong(entry, $"an undoing of entry {undone}", "an undoing of an earlier entry of the same record");
        }
    }

    private static object ValueOf(ArchivedEntry entry, JsonElement json, Dictionary<string, byte[]> bytes, Func<string, byte[]> earlier)
    {
        object value;
        try
        {
            value = json.Deserialize(RecordKinds.TypeOf(entry.Kind), Strict) ?? throw Wrong(entry, "null", "a value");
        }
        catch (Exception wrong) when (
            wrong
                is JsonException or NodaTime.Text.UnparsableValueException or ArgumentException or NotSupportedException or InvalidOperationException)
        {
            throw Wrong(entry, $"{wrong.Message}", "a value of its kind");
        }

        switch (value)
        {
            case SiteValue survey:
                // A survey of long ago need not be one that is understood today.
                Given.Line(survey.Name, "site", 200);
                Given.Line(survey.Digest, "digest", 64);
                Given.Amount(survey.Survey.Length, "the length of a survey", 1, SiteEndpoints.LargestSurveyBytes);
                _ = survey.Survey.Contains('\0', StringComparison.Ordinal) ? throw Wrong(entry, "a NUL character", "text") : 0;
                break;
            case PlanValue plan:
                Plan(entry, plan);
                break;
            case ReadingValue reading:
                RecordRules.Require(reading);
                break;
            case VisitValue visit:
                RecordRules.Require(visit);
                break;
            case TraceValue trace:
                RecordRules.Require(trace);
                break;
            case WeatherValue weather:
                SiteReading.FileName(weather.Name);
                Piece(entry, weather.Blob, weather.Bytes, WeatherEndpoints.LargestBytes, bytes, earlier);
                break;
            case PhotoValue photo:
                byte[] picture = Piece(entry, photo.Blob, photo.Bytes, PhotoEndpoints.LargestBytes, bytes, earlier);
                _ = PhotoBytes.TypeOf(picture) == photo.Type ? 0 : throw Wrong(entry, "bytes", "a picture of the type that is said");
                break;
        }

        return value;
    }

    private static void Plan(ArchivedEntry entry, PlanValue plan)
    {
        Files.Plans.SavedPlan saved = PlanReading.Parse(plan.Plan);
        if (plan.Survey != saved.Survey || plan.From != saved.From)
        {
            throw Wrong(entry, $"{plan.Survey}, {plan.From}", "what the plan's own text says");
        }

        PlanParts.Require(plan);
    }

    private static byte[] Piece(
        ArchivedEntry entry, string digest, long count, int most, Dictionary<string, byte[]> bytes, Func<string, byte[]> earlier)
    {
        if (!bytes.TryGetValue(digest, out byte[]? found))
        {
            found = digest.Length == 64 && digest.All(char.IsAsciiHexDigitLower) ? earlier(digest)
                : throw Wrong(entry, $"{digest}", "a SHA-256 in hexadecimal digits");
            bytes.Add(digest, SiteStore.DigestOf(found) == digest ? found
                : throw Wrong(entry, $"{SiteStore.DigestOf(found)}", $"{digest}"));
        }

        return found.Length == count && count <= most ? found
            : throw Wrong(entry, $"{found.Length} bytes", $"{count} bytes, at most {most}");
    }

    /// <summary>Holds the last entries against the records as they stand; a survey's digest is taken as this program finds it.</summary>
    private static void Agree(List<PastEntry> entries, IReadOnlyList<Change> changes)
    {
        Dictionary<Guid, int> last = [];
        for (int i = 0; i < entries.Count; i++)
        {
            last[entries[i].Record] = i;
        }

        foreach (Change change in changes)
        {
            if (!last.Remove(change.Id, out int at) || !SaysTheSame(entries[at].Value, change.Value))
            {
                throw Wrong(null, $"another value of the record {change.Id:D}", "the value that the archive says it has");
            }

            entries[at] = entries[at] with { Value = change.Value };
        }

        foreach ((Guid record, int at) in last)
        {
            _ = entries[at].Value is null ? 0
                : throw Wrong(null, $"a record {record:D} that is there", "only records that the archive has");
        }
    }

    private static bool SaysTheSame(object? past, object standing) => (past, standing) switch
    {
        (SiteValue a, SiteValue b) => (a.Name, a.Survey) == (b.Name, b.Survey),
        _ => Equals(past, standing),
    };

    private static Refusal Wrong(ArchivedEntry? entry, Sentence found, Sentence expected) => Refusal.Wrong(
        entry is null ? (Sentence)$"{ArchiveWriter.HistoryName}" : (Sentence)$"{ArchiveWriter.HistoryName}, entry {entry.Number}", found,
            expected, "The history in the archive does not hold together. Nothing was stored.");
}
