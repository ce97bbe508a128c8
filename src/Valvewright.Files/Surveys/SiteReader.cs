using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads the whole of a site.</summary>
internal static class SiteReader
{
    internal static Site Read(MapNode root, Findings findings, string? folder)
    {
        Reading reading = new(findings);
        MapReader map = new(root, KeySet.Site, reading, "");
        reading.Units = map.Word("units", Words.UnitSystems) ?? Assumed(findings, "units", "metric", "the survey names none", UnitSystem.Metric);
        ClockStyle clock = map.Word("clock", Words.Clocks) ?? ClockFor(reading, map);
        WeatherSource? weather = WeatherReader.Read(map.Inner("weather", KeySet.Weather, "weather"), folder);
        (Place place, string zone) = PlaceReader.Read(map, weather);
        ListOf<WaterSupply> supplies = SupplyReader.ReadAll(map);
        Ground ground = new(map, AirOf(map), place.LatitudeDeg < 0);
        Dictionary<string, Profile> profiles = ProfileReader.ReadNamed(map);
        return new Site
        {
            Name = map.Text("site", needed: true) ?? "",
            Place = place,
            TimeZone = zone,
            Units = reading.Units,
            Clock = clock,
            Weather = weather,
            Supplies = supplies,
            Controllers = ControllerReader.ReadAll(map, supplies, profiles, ground),
            Assumptions = findings.Assumptions,
        };
    }

    private static ClockStyle ClockFor(Reading reading, MapReader map)
    {
        if (map.Has("clock")) return ClockStyle.Hours24;
        bool us = reading.Units == UnitSystem.UsCustomary;
        return Assumed(reading.Findings, "clock", us ? "12 hours" : "24 hours", "usual with the site's units", us ? ClockStyle.Hours12 : ClockStyle.Hours24);
    }

    private static AirClimate? AirOf(MapReader map) => map.Word("climate", Words.Climates);

    private static T Assumed<T>(Findings findings, string path, string value, string why, T result)
    {
        findings.Assume(path, value, why);
        return result;
    }
}

/// <summary>What zones take from the site where they do not say otherwise.</summary>
/// <param name="Site">The site's own keys.</param>
/// <param name="Air">The climate as surveyed, null where it is not.</param>
/// <param name="South">Whether it lies south of the equator.</param>
internal sealed record Ground(MapReader Site, AirClimate? Air, bool South);
