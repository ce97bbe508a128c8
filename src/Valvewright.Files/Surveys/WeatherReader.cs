using Valvewright.Engine.Survey;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Surveys;

/// <summary>Reads where the weather comes from.</summary>
internal static class WeatherReader
{
    internal static WeatherSource? Read(MapReader? map, string folder)
    {
        if (map is null) return null;
        string? file = map.Text("file", expected: "a file");
        string? service = map.Text("service", expected: "a service that gives weather");
        if (file is null == service is null)
        {
            map.Findings.Refuse(map.Map, "either 'file' or 'service'", file is null ? "The weather has no source" : "The weather has two sources");
        }

        string? path = file is null ? null : Path.GetFullPath(Path.Combine(folder.Length == 0 ? "." : folder, file.Replace('\0', '?')));
        if (path is not null && !File.Exists(path))
        {
            map.Findings.Refuse(map.Get("file")!, "a file that exists, by its path from the survey's folder", Directory.Exists(path) ? "This is a folder" : "There is no such file");
        }

        return new WeatherSource(path, Layout(map), map.Text("source", expected: "who publishes it"))
        {
            Service = service,
            Station = Station(map.Inner("station", KeySet.Location)),
            WindHeightM = map.Quantity("wind height", QuantityRule.WindHeight),
            MovedHalfAYear = map.YesNo("moved half a year") ?? false,
        };
    }

    private static string? Layout(MapReader map)
    {
        string? word = map.Text("layout", expected: Words.OneOf(WeatherLayouts.Words));
        if (word is null || WeatherLayouts.Named(word) is not null) return word;
        map.Findings.Refuse(map.Get("layout")!, Words.OneOf(WeatherLayouts.Words), "There is no such layout", NearestWord.To(word, WeatherLayouts.Words));
        return null;
    }

    private static Place? Station(MapReader? map)
    {
        if (map is null) return null;
        (double latitude, double longitude) = PlaceReader.Coordinates(map);
        double elevation = map.Quantity("elevation", QuantityRule.Elevation, needed: true);
        return new Place(latitude, longitude, elevation);
    }
}
