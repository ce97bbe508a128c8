using System.IO.Compression;
using System.Text;
using System.Text.Json;
using Valvewright.Files.Surveys;
using Valvewright.Files.Weather;
using Valvewright.Server.Plans;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Server.Sites;
using Valvewright.Server.Visits;
using Valvewright.Store;
using Valvewright.Records;

namespace Valvewright.Server.Archives;

/// <summary>
/// Reads an archive of a site: one that was written here, or a plain ZIP of a site's folder, with <c>site.yaml</c> and the weather file
/// beside it. Nothing is unpacked onto the disk, so that names in it are only names.
/// </summary>
internal sealed class ArchiveReader
{
    /// <summary>Most bytes of an archive, packed.</summary>
    public const int LargestBytes = 100_000_000;

    private const long LargestUnpacked = 300_000_000;
    private const int MostEntries = 5000;
    private const int LargestList = 50_000_000;

    private readonly Dictionary<string, ZipArchiveEntry> entries = new(StringComparer.Ordinal);
    private readonly List<Change> changes = [];
    private readonly Stamp stamp;
    private ArchivePast? past;
    private long unpacked;

    private ArchiveReader(Stamp stamp) => this.stamp = stamp;

    /// <summary>What the archive holds.</summary>
    /// <exception cref="Refusal">It is no archive, or something in it can't be used.</exception>
    public static ArchiveContent Read(byte[] bytes, Stamp stamp)
    {
        try
        {
            using ZipArchive zip = new(new MemoryStream(bytes), ZipArchiveMode.Read);
            ArchiveReader reader = new(stamp);
            reader.List(zip);
            Guid site = reader.ReadAll();
            return new ArchiveContent(site, reader.changes, reader.past);
        }
        catch (Exception reason) when (reason is InvalidDataException or EndOfStreamException or NotSupportedException or IOException)
        {
            throw Refusal.Garbled("the body", reason.Message, "a ZIP file", "Not an archive, or damaged. Nothing was stored.");
        }
    }

    private void List(ZipArchive zip)
    {
        if (zip.Entries.Count > MostEntries)
        {
            throw Refusal.Wrong("the archive", $"{zip.Entries.Count} files", $"at most {MostEntries}",
                "This is too much for the archive of one site. Nothing was stored.");
        }

        foreach (ZipArchiveEntry entry in zip.Entries.Where(e => !e.FullName.EndsWith('/')))
        {
            string name = entry.FullName;
            if (name.Length > 300 || name.StartsWith('/') || name.Contains('\\', StringComparison.Ordinal)
                || name.Contains(':', StringComparison.Ordinal) || name.Any(char.IsControl)
                || name.Split('/').Any(p => p is ".." or "." or "") || !entries.TryAdd(name, entry))
            {
                throw Refusal.Wrong("the archive", $"{name}", "plain names, each once, none that leads out of the archive",
                    "There is a file in it that no archive has. Nothing was stored.");
            }
        }
    }

    private Guid ReadAll()
    {
        string survey = Text(ArchiveWriter.SurveyName, SiteEndpoints.LargestSurveyBytes);
        (SiteValue value, Site site, _) = SiteReading.Survey(survey);
        ArchiveValue? list = entries.ContainsKey(ArchiveWriter.ListName) ? ReadList() : null;
        Guid id = list?.Site ?? Ids.New();
        Add(id, id, RecordKind.Site, value);
        if (list is null)
        {
            AddWeatherOfFolder(id, site);
            return id;
        }

        if (list.Weather is { } weather)
        {
            AddWeather(id, site, weather.Value.Name, ArchiveWriter.WeatherFolder + weather.Value.Name);
        }

        foreach (Archived<PlanValue> plan in list.Plans)
        {
            PlanParts.Require(plan.Value);
            Files.Plans.SavedPlan saved = PlanReading.Parse(plan.Value.Plan);
            Add(id, plan.Id, RecordKind.Plan, plan.Value with { Survey = saved.Survey, From = saved.From }, plan.Changed);
        }

        foreach (Archived<ReadingValue> reading in list.Readings)
        {
            RecordRules.Require(reading.Value);
            Add(id, reading.Id, RecordKind.Reading, reading.Value, reading.Changed);
        }

        foreach (Archived<VisitValue> visit in list.Visits)
        {
            RecordRules.Require(visit.Value);
            Add(id, visit.Id, RecordKind.Visit, visit.Value, visit.Changed);
        }

        foreach (Archived<TraceValue> trace in list.Traces)
        {
            RecordRules.Require(trace.Value);
            Add(id, trace.Id, RecordKind.Trace, trace.Value, trace.Changed);
        }

        foreach (Archived<PhotoValue> photo in list.Photos)
        {
            AddPhoto(id, photo, list);
        }

        past = list.Layout == ArchiveValue.WithoutHistory ? null
            : ArchivePast.Of(id, Parsed<ListOf<ArchivedEntry>>(Text(ArchiveWriter.HistoryName, LargestList), ArchiveWriter.HistoryName),
                changes, digest => Bytes(ArchiveWriter.EarlierFolder + digest, SiteStore.LargestBlobBytes));
        return id;
    }

    private ArchiveValue ReadList()
    {
        ArchiveValue list = Parsed<ArchiveValue>(Text(ArchiveWriter.ListName, LargestList), ArchiveWriter.ListName);
        if (list.Layout is not (ArchiveValue.Latest or ArchiveValue.WithoutHistory))
        {
            throw Refusal.Wrong($"{ArchiveWriter.ListName}", $"layout {list.Layout}",
                $"layout {ArchiveValue.WithoutHistory} or {ArchiveValue.Latest}",
                    "Another version has written this archive. Nothing was stored.");
        }

        foreach (Guid id in (Guid[])[list.Site, .. list.Plans.Select(p => p.Id), .. list.Readings.Select(r => r.Id),
            .. list.Visits.Select(v => v.Id), .. list.Traces.Select(t => t.Id), .. list.Photos.Select(p => p.Id)])
        {
            Given.Id(id.ToString("D"), "record");
        }

        return list;
    }

    private void AddWeatherOfFolder(Guid id, Site site)
    {
        if (SiteReading.WeatherName(site) is { } name && entries.Keys.FirstOrDefault(k => k.Split('/')[^1] == name) is { } found)
        {
            AddWeather(id, site, name, found);
        }
    }

    private void AddWeather(Guid id, Site site, string name, string entry)
    {
        SiteReading.FileName(name);
        byte[] bytes = Bytes(entry, WeatherEndpoints.LargestBytes);
        if (site.Weather?.File is not null && SiteWeather.ReadBytes(site, name, bytes) is { Ok: false } wrong)
        {
            throw Refusal.Of(wrong.Problems, "The archive's weather file cannot be used. Nothing was stored.");
        }

        Add(id, Ids.WeatherOf(id), RecordKind.Weather, new WeatherValue(name, SiteStore.DigestOf(bytes), bytes.Length), null, bytes);
    }

    private void AddPhoto(Guid id, Archived<PhotoValue> photo, ArchiveValue list)
    {
        byte[] bytes = Bytes(ArchiveWriter.PhotoFolder + photo.Id.ToString("D"), PhotoEndpoints.LargestBytes);
        if (PhotoBytes.TypeOf(bytes) is not { } type || list.Visits.All(v => v.Id != photo.Value.Visit))
        {
            throw Refusal.Wrong($"{photo.Id:D}", "bytes", "a picture of one of the archive's visits",
                "A photo in the archive is none. Nothing was stored.");
        }

        Add(id, photo.Id, RecordKind.Photo, new PhotoValue(photo.Value.Visit, type, SiteStore.DigestOf(bytes), bytes.Length),
            photo.Changed, bytes);
    }

    private void Add(Guid site, Guid id, RecordKind kind, object value, Stamp? changed = null, byte[]? bytes = null) =>
        changes.Add(new Change(
            site, id, kind, value, null, changed is null ? stamp : changed with { By = Given.Line(changed.By, "by", 100) }, bytes));

    private string Text(string name, int most)
    {
        try
        {
            return new UTF8Encoding(false, true).GetString(Bytes(name, most));
        }
        catch (DecoderFallbackException)
        {
            throw Refusal.Wrong($"{name}", "bytes that are not UTF-8", "text in UTF-8", "This is not text. Nothing was stored.");
        }
    }

    private byte[] Bytes(string name, int most)
    {
        if (!entries.TryGetValue(name, out ZipArchiveEntry? entry))
        {
            throw Refusal.Wrong("the archive", "", $"{name}", $"The archive lacks the file {Shown.Of(name)}. Nothing was stored.");
        }

        // What the file says of its size is not trusted: reading stops where too much has come.
        using Stream stream = entry.Open();
        using MemoryStream whole = new();
        byte[] buffer = new byte[64 * 1024];
        for (int read; (read = stream.Read(buffer)) > 0;)
        {
            unpacked += read;
            if (whole.Length + read > most || unpacked > LargestUnpacked)
            {
                throw new Refusal(StatusCodes.Status413PayloadTooLarge, "too-large",
                    $"{Shown.Of(name)} in the archive is too large. Nothing was stored.");
            }

            whole.Write(buffer, 0, read);
        }

        return whole.ToArray();
    }

    private static T Parsed<T>(string text, string name)
    {
        try
        {
            return JsonSerializer.Deserialize<T>(text, Strict) ?? throw Refusal
                .Wrong($"{name}", "null", "JSON", "There is nothing in it. Nothing was stored.");
        }
        catch (Exception wrong) when (
            wrong
                is JsonException or NodaTime.Text.UnparsableValueException or ArgumentException or NotSupportedException or InvalidOperationException)
        {
            throw Refusal.Garbled($"{name}", wrong.Message, "what an archive has there", "This cannot be understood. Nothing was stored.");
        }
    }

    private static JsonSerializerOptions Strict { get; } = new(Json.Options)
        { RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true };
}

/// <summary>What an archive holds.</summary>
/// <param name="Site">The site.</param>
/// <param name="Changes">Its records as they stand, the site first.</param>
/// <param name="Past">All that was ever changed of them; null where the archive does not say.</param>
internal sealed record ArchiveContent(Guid Site, IReadOnlyList<Change> Changes, ArchivePast? Past);
