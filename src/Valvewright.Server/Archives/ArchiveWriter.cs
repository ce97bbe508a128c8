using System.IO.Compression;
using System.Text;
using System.Text.Json;
using Valvewright.Store;
using Valvewright.Records;

namespace Valvewright.Server.Archives;

/// <summary>Writes a whole site as one ZIP file.</summary>
internal static class ArchiveWriter
{
    public const string SurveyName = "site.yaml", ListName = "archive.json", HistoryName = "history.json", WeatherFolder = "weather/",
        PhotoFolder = "photos/", EarlierFolder = "earlier/";

    public static byte[] Write(SiteStore store, Kept<SiteValue> site, Instant now)
    {
        using MemoryStream stream = new();
        using (ZipArchive zip = new(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            Kept<WeatherValue>? weather = store.Find<WeatherValue>(site.Id, Ids.WeatherOf(site.Id));
            ArchiveValue list = new(
                ArchiveValue.Latest, site.Id, site.Value.Name, now, weather is null ? null : Of(weather),
                All<PlanValue>(store, site.Id), All<ReadingValue>(store, site.Id), All<VisitValue>(store, site.Id),
                    All<PhotoValue>(store, site.Id))
            {
                Traces = All<TraceValue>(store, site.Id),
            };
            void Add(string name, byte[] bytes) => ArchiveWriter.Add(zip, now, name, bytes);
            Add(SurveyName, Encoding.UTF8.GetBytes(site.Value.Survey));
            Add(ListName, Encoding.UTF8.GetBytes(Json.Write(list)));
            ListOf<HistoryEntry> history = store.History(site.Id, int.MaxValue).Reverse().ToListOf();
            Add(HistoryName, Encoding.UTF8.GetBytes(Json.Write(Entries(history))));
            if (weather is not null)
            {
                Add(WeatherFolder + weather.Value.Name, store.Blob(weather.Value.Blob)!);
            }

            foreach (Archived<PhotoValue> photo in list.Photos)
            {
                Add(PhotoFolder + photo.Id.ToString("D"), store.Blob(photo.Value.Blob)!);
            }

            foreach (string digest in Digests(history).Except(list.Photos.Select(p => p.Value.Blob))
                .Except(weather is null ? [] : [weather.Value.Blob]))
            {
                Add(EarlierFolder + digest, store.Blob(digest)!);
            }
        }

        return stream.ToArray();
    }

    /// <summary>Numbered within the site, so that the archive does not depend on what else is in the store.</summary>
    private static ListOf<ArchivedEntry> Entries(ListOf<HistoryEntry> history)
    {
        Dictionary<long, long> numbers = history.Select((e, i) => (e.Number, i + 1L)).ToDictionary();
        return history.Select(e => new ArchivedEntry(
            numbers[e.Number], e.Kind, e.Record, e.Version, e.Changed, e.After is null ? null : JsonSerializer.Deserialize<JsonElement>(
                e.After), e.UndoOf is { } undone ? numbers[undone] : null, e.BroughtIn)).ToListOf();
    }

    private static IEnumerable<string> Digests(ListOf<HistoryEntry> history) => history
        .Where(e => e is { After: not null, Kind: RecordKind.Weather or RecordKind.Photo })
        .Select(e => e.Kind == RecordKind.Weather ? JsonSerializer.Deserialize<WeatherValue>(e.After!, Json.Compact)!.Blob
            : JsonSerializer.Deserialize<PhotoValue>(e.After!, Json.Compact)!.Blob)
        .Distinct();

    private static ListOf<Archived<T>> All<T>(SiteStore store, Guid site)
        where T : class => store.All<T>(site).Select(Of).ToListOf();

    private static Archived<T> Of<T>(Kept<T> kept)
        where T : class => new(kept.Id, kept.Changed, kept.Value);

    private static void Add(ZipArchive zip, Instant now, string name, byte[] bytes)
    {
        ZipArchiveEntry entry = zip.CreateEntry(name, CompressionLevel.Optimal);
        entry.LastWriteTime = now.ToDateTimeOffset();
        using Stream stream = entry.Open();
        stream.Write(bytes);
    }
}
