using Valvewright.Engine.Survey;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Yaml;
using Valvewright.Files.Weather;
using Valvewright.Files.Weather.Fetch;

namespace Valvewright.Files.Surveys;

/// <summary>Reads where the weather comes from.</summary>
internal static class WeatherReader
{
    internal static WeatherSource? Read(MapReader? map, string? folder)
    {
        if (map is null) return null;
        string? file = map.Text("file", expected: "a file");
        string? service = OneOf(map, "service", WeatherServices.Words, "There is no such service");
        if (map.Has("file") == map.Has("service"))
        {
            map.Findings.Refuse(map.Map, "either 'file' or 'service'", map.Has("file") ? "The weather has two sources" : "The weather has no source");
        }

        string? path = file is null || folder is null ? file : Path.GetFullPath(Path.Combine(folder.Length == 0 ? "." : folder, file.Replace('\0', '?')));
        if (folder is not null && path is not null && !File.Exists(path))
        {
            map.Findings.Refuse(map.Get("file")!, "a file that exists, by its path from the survey's folder", Directory.Exists(path) ? "This is a folder" : "There is no such file");
        }

        return new WeatherSource(path, OneOf(map, "layout", WeatherLayouts.Words, "There is no such layout"), map.Text("source", expected: "who publishes it"))
        {
            Service = service,
            Station = Station(map.Inner("station", KeySet.Location)),
            WindHeightM = map.Quantity("wind height", QuantityRule.WindHeight),
            MovedHalfAYear = map.YesNo("moved half a year") ?? false,
        };
    }

    private static string? OneOf(MapReader map, string key, IEnumerable<string> words, Sentence otherwise)
    {
        Sentence expected = Words.OneOf(words);
        string? word = map.Text(key, expected: expected);
        if (word is null || words.Contains(word, StringComparer.OrdinalIgnoreCase)) return word?.ToLowerInvariant();
        map.Findings.Refuse(map.Get(key)!, expected, otherwise, NearestWord.To(word, words));
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
