using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys.Fields;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads the whole of a site.</summary>
internal static class SiteReader
{
    internal static Site Read(MapNode root, Findings findings, string? folder)
    {
        ReadingContext context = new(findings);
        MapReader map = new(root, SiteTable.Site, context, "");
        context.Units = map.ValueOr("units", UnitSystem.Metric);
        ClockStyle clock = map.TryValue("clock", out ClockStyle given) ? given : ClockFor(context, map);
        WeatherSource? weather = WeatherReader.Read(map.Inner("weather", "weather"), folder);
        (Place place, string zone) = PlaceReader.Read(map, weather);
        ListOf<WaterSupply> supplies = SupplyReader.ReadAll(map);
        Ground ground = new(map, map.Value<AirClimate>("climate"), place);
        Dictionary<string, Profile> profiles = ProfileReader.ReadNamed(map);
        return map.Fill(new Site
        {
            Name = map.Text("site") ?? "",
            Place = place,
            TimeZone = zone,
            Units = context.Units,
            Clock = clock,
            Weather = weather,
            Supplies = supplies,
            Controllers = ControllerReader.ReadAll(map, supplies, profiles, ground),
        }) with { Assumptions = findings.Assumptions };
    }

    private static ClockStyle ClockFor(ReadingContext context, MapReader map)
    {
        bool us = context.Units == UnitSystem.UsCustomary;
        if (!map.Has("clock")) context.Findings.Assume("clock", us ? "12 hours" : "24 hours", "usual with the site's units");
        return us ? ClockStyle.Hours12 : ClockStyle.Hours24;
    }
}

/// <summary>What zones take from the site where they do not say otherwise.</summary>
/// <param name="Site">The site's own keys.</param>
/// <param name="Air">The climate as surveyed, null where it is not.</param>
/// <param name="Place">Where the site lies.</param>
internal sealed record Ground(MapReader Site, AirClimate? Air, Place Place)
{
    /// <summary>Whether it lies south of the equator.</summary>
    internal bool South => Place.LatitudeDeg < 0;

    /// <summary>Whether it lies in California, whose turf was measured month by month.</summary>
    internal bool IsInCalifornia => LandscapeCoefficient.IsInCalifornia(Place);
}
