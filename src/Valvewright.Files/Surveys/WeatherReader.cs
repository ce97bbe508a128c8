using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys.Yaml;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Surveys;

/// <summary>Reads where the weather comes from.</summary>
internal static class WeatherReader
{
    internal static WeatherSource? Read(MapReader? map, string? folder)
    {
        if (map is null) return null;
        string? file = map.Text("file");
        string? service = map.Text("service");
        if (map.Has("file") == map.Has("service"))
        {
            map.Findings.Refuse(
                map.Map, "either 'file' or 'service'", map.Has("file") ? "The weather has two sources" : "The weather has no source");
        }

        string? path = file is null || folder is null ? file
            : Path.GetFullPath(Path.Combine(folder.Length == 0 ? "." : folder, file.Replace('\0', '?')));
        if (folder is not null && path is not null && !File.Exists(path))
        {
            map.Findings.Refuse(map.Get("file")!, "a file that exists, by its path from the survey's folder",
                Directory.Exists(path) ? "This is a folder" : "File not found");
        }

        return new WeatherSource(path, map.Text("layout"), map.Text("source"))
        {
            Service = service,
            Station = Station(map.Inner("station")),
            WindHeightM = map.Amount("wind height"),
            Eto = Eto(map.Inner("eto")),
            Columns = Columns(map.Inner("columns")),
            MovedHalfAYear = map.ValueOr("moved half a year", false),
        };
    }

    private static EtoOptions Eto(MapReader? map)
    {
        if (map is null) return EtoOptions.Default;
        EtoOptions options = map.Fill(EtoOptions.Default);
        VapourSource[] sources = [.. map.Values<VapourSource>("humidity from").Select(item => item.Value).Distinct()];
        return sources.Length == 0 ? options : options with { VapourSources = sources.ToListOf() };
    }

    /// <summary>The map as it was written, once it has been read without a problem.</summary>
    private static ListOf<ColumnEntry> Columns(MapReader? map)
    {
        if (map is null) return [];
        ListOf<ColumnEntry> entries = ColumnMap.Words.Where(map.Has).Select(word => new ColumnEntry(word, map.Text(word) ?? "")).ToListOf();
        ColumnMap.Read([.. entries.Select(e => (e.Word, e.Column))], (word, _, expected, nearest, message) =>
            map.Findings.Refuse(map.Get(word) ?? map.Map, expected, message, nearest));
        return entries;
    }

    private static Place? Station(MapReader? map)
    {
        if (map is null) return null;
        (double latitude, double longitude) = PlaceReader.Coordinates(map);
        double elevation = map.Amount("elevation", needed: true);
        return new Place(latitude, longitude, elevation);
    }
}
