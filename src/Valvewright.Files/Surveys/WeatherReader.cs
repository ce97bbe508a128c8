using Valvewright.Engine.Survey;
using Valvewright.Files.Surveys.Yaml;

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
            map.Findings.Refuse(map.Map, "either 'file' or 'service'", map.Has("file") ? "The weather has two sources" : "The weather has no source");
        }

        string? path = file is null || folder is null ? file : Path.GetFullPath(Path.Combine(folder.Length == 0 ? "." : folder, file.Replace('\0', '?')));
        if (folder is not null && path is not null && !File.Exists(path))
        {
            map.Findings.Refuse(map.Get("file")!, "a file that exists, by its path from the survey's folder", Directory.Exists(path) ? "This is a folder" : "There is no such file");
        }

        return new WeatherSource(path, map.Text("layout"), map.Text("source"))
        {
            Service = service,
            Station = Station(map.Inner("station")),
            WindHeightM = map.Amount("wind height"),
            MovedHalfAYear = map.ValueOr("moved half a year", false),
        };
    }

    private static Place? Station(MapReader? map)
    {
        if (map is null) return null;
        (double latitude, double longitude) = PlaceReader.Coordinates(map);
        double elevation = map.Amount("elevation", needed: true);
        return new Place(latitude, longitude, elevation);
    }
}
