using System.Globalization;
using Valvewright.Engine.Survey;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Measured;

/// <summary>Names in a file of measurements that must be those of the site file.</summary>
internal static class MeasuredNames
{
    internal static string Controller(MapReader map, Site site) => Known(map, "controller", [.. site.Controllers.Select(c => c.Name)]);

    internal static string Supply(MapReader map, Site site) => Known(map, "supply", [.. site.Supplies.Select(s => s.Name)]);

    internal static int Station(MapReader map, Site site, string controller)
    {
        int station = map.ValueOr("station", 0);
        SiteController? known = site.Controllers.FirstOrDefault(c => c.Name == controller);
        if (known is not null && station > 0 && known.Zones.All(z => z.Station != station))
        {
            map.Findings.Refuse(
                map.Get("station")!,
                    $"one of: {string.Join(", ", known.Zones.Select(z => z.Station.ToString(CultureInfo.InvariantCulture)))}",
                        $"Controller '{controller}' waters no zone with this station");
        }

        return station;
    }

    private static string Known(MapReader map, string key, string[] names)
    {
        string name = map.Text(key) ?? "";
        if (name.Length > 0 && !names.Contains(name))
        {
            map.Findings.Refuse(map.Get(key)!, $"one of: {string.Join(", ", names)}", $"The site file has no {key} of this name",
                NearestWord.To(name, names));
        }

        return name;
    }
}
