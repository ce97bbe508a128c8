using System.IO.Compression;
using System.Text;
using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Store;
using Valvewright.Records;

namespace Valvewright.Server.Archives;

/// <summary>Writes a whole site as one ZIP file.</summary>
internal static class ArchiveWriter
{
    public const string SurveyName = "site.yaml", ListName = "archive.json", HistoryName = "history.json", WeatherFolder = "weather/", PhotoFolder = "photos/";

    public static byte[] Write(SiteStore store, Kept<SiteValue> site, Instant now)
    {
        using MemoryStream stream = new();
        using (ZipArchive zip = new(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            Kept<WeatherValue>? weather = store.Find<WeatherValue>(site.Id, Ids.WeatherOf(site.Id));
            ArchiveValue list = new(
                ArchiveValue.Latest, site.Id, site.Value.Name, now, weather is null ? null : Of(weather),
                All<PlanValue>(store, site.Id), All<ReadingValue>(store, site.Id), All<VisitValue>(store, site.Id), All<PhotoValue>(store, site.Id));
            Add(zip, SurveyName, Encoding.UTF8.GetBytes(site.Value.Survey));
            Add(zip, ListName, Encoding.UTF8.GetBytes(Json.Write(list)));
            Add(zip, HistoryName, Encoding.UTF8.GetBytes(Json.Write(store.History(site.Id, int.MaxValue))));
            if (weather is not null)
            {
                Add(zip, WeatherFolder + weather.Value.Name, store.Blob(weather.Value.Blob)!);
            }

            foreach (Archived<PhotoValue> photo in list.Photos)
            {
                Add(zip, PhotoFolder + photo.Id.ToString("D"), store.Blob(photo.Value.Blob)!);
            }
        }

        return stream.ToArray();
    }

    private static ListOf<Archived<T>> All<T>(SiteStore store, Guid site)
        where T : class => store.All<T>(site).Select(Of).ToListOf();

    private static Archived<T> Of<T>(Kept<T> kept)
        where T : class => new(kept.Id, kept.Changed, kept.Value);

    private static void Add(ZipArchive zip, string name, byte[] bytes)
    {
        using Stream entry = zip.CreateEntry(name, CompressionLevel.Optimal).Open();
        entry.Write(bytes);
    }
}
