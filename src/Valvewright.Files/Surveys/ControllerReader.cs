using Valvewright.Engine.Controllers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Fields;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads the controllers and holds their zones against what they can do.</summary>
internal static class ControllerReader
{
    internal static ListOf<SiteController> ReadAll(
        MapReader site, ListOf<WaterSupply> supplies, Dictionary<string, Profile> profiles, Ground ground)
    {
        List<SiteController> controllers = [];
        foreach (MapReader named in site.Maps("controllers"))
        {
            string name = named.Text("name") ?? "";
            if (name.Length > 0 && controllers.Any(c => c.Name == name)) named.Findings
                .Refuse(named.Get("name")!, "a name of its own", "Two controllers have this name");
            if (name.Length > 0 && name.All(c => !char.IsLetterOrDigit(c))) named.Findings
                .Refuse(named.Get("name")!, "letters or digits", "Not a name");
            controllers.Add(Read(named.At($"controllers/{name}"), name, supplies, profiles, ground));
        }

        return controllers.ToListOf();
    }

    private static SiteController Read(
        MapReader map, string name, ListOf<WaterSupply> supplies, Dictionary<string, Profile> profiles, Ground ground)
    {
        Profile? profile = ProfileReader.Of(map, profiles);
        if (profile is not null && map.Has("day rules")) profile = Narrowed(map, profile);
        WaterSupply? supply = SupplyOf(map, supplies);
        List<Zone> zones = [];
        foreach (MapReader unnamed in map.Maps("zones"))
        {
            string zoneName = unnamed.Text("name") ?? "";
            MapReader zoneMap = unnamed.At($"{map.Path}/zones/{zoneName}");
            Zone zone = ZoneReader.Read(zoneMap, zoneName, ground, supply);
            Station(zoneMap, zone, zones, profile);
            if (zones.Any(z => z.Name == zoneName)) zoneMap.Findings
                .Question(zoneMap.Get("name") ?? zoneMap.Map, "a name of its own", "Two zones of the controller have this name");
            if (supply is not null && zone.Emission.FlowLpm > supply.FlowLpm) TooThirsty(zoneMap, zone, supply);
            zones.Add(zone);
        }

        return new SiteController
        {
            Name = name,
            Profile = profile ?? GenericProfiles.All[0],
            Supply = supply?.Name ?? "",
            Zones = zones.OrderBy(zone => zone.Station).ToListOf(),
        };
    }

    /// <summary>Only these day rules are to be used, of those that the profile offers.</summary>
    private static Profile Narrowed(MapReader map, Profile profile)
    {
        string[] offered = [.. profile.DayRules.Select(ControllerTable.DayRules.WordOf)];
        List<DayRuleKind> kept = [];
        foreach ((SurveyNode item, DayRuleKind rule) in map.Values<DayRuleKind>("day rules"))
        {
            if (profile.DayRules.Contains(rule)) kept.Add(rule);
            else map.Findings.Refuse(
                item, WordList<DayRuleKind>.OneOf(offered), $"The profile '{profile.Name}' lacks this day rule", offered.FirstOrDefault());
        }

        return kept.Distinct().Count() == profile.DayRules.Count ? profile
            : profile with { DayRules = kept.Distinct().Order().ToListOf(), HeldDayRules = profile.DayRules };
    }

    private static WaterSupply? SupplyOf(MapReader map, ListOf<WaterSupply> supplies)
    {
        if (!map.Has("supply") && supplies.Count == 1)
        {
            map.Findings.Assume($"{map.Path}/supply", $"{supplies[0].Name}", "the only supply of the site");
            return supplies[0];
        }

        Sentence expected = WordList<string>.OneOf(supplies.Select(s => $"'{s.Name}'"));
        if (map.Find("supply", needed: true, expected) is not { } value || map.AsText(value, expected) is not { } text) return null;
        WaterSupply? supply = supplies.FirstOrDefault(s => s.Name == text.Text);
        if (supply is null) map.Findings.Refuse(text, expected, "Unknown supply", NearestWord.To(text.Text, supplies.Select(s => s.Name)));
        return supply;
    }

    private static void Station(MapReader map, Zone zone, List<Zone> before, Profile? profile)
    {
        if (zone.Station == 0) return;
        if (before.FirstOrDefault(other => other.Station == zone.Station) is { } other)
        {
            map.Findings.Refuse(map.Get("station")!, "a station of its own", $"Station {zone.Station} already waters '{other.Name}'");
        }

        if (profile is not null && zone.Station > profile.Stations)
        {
            map.Findings.Refuse(map.Get("station")!, $"a station from 1 to {profile.Stations}",
                $"The profile '{profile.Name}' has {profile.Stations} stations");
        }
    }

    private static void TooThirsty(MapReader map, Zone zone, WaterSupply supply) => map.Findings.Question(
        map.Get("sprinklers") ?? map.Map,
        $"at most {map.Context.Show.Flow(supply.FlowLpm)}",
        $"The zone takes {map.Context.Show.Flow(zone.Emission.FlowLpm)}, more than the supply '{supply.Name}' gives");
}
