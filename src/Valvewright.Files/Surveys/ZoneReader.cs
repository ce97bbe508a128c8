using Valvewright.Engine.Ground;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads a zone.</summary>
internal static class ZoneReader
{
    internal static Zone Read(MapReader map, string name, Ground ground)
    {
        int station = map.Whole("station", 1, 48, needed: true) ?? 0;
        double area = map.Quantity("area", QuantityRule.Area, needed: true);
        double slope = Slope(map, ground.Site);
        Soil soil = SoilReader.Read(map, ground, slope);
        Planting planting = PlantsReader.Read(map, ground);
        Emission emission = SprinklersReader.Read(map, double.IsNaN(area) ? 1 : area);
        MapReader? rules = map.Inner("rules", KeySet.Rules);
        return new Zone
        {
            Name = name,
            Station = station,
            AreaM2 = area,
            Planting = planting,
            Soil = soil,
            SlopePercent = slope,
            Emission = emission,
            LargestDepthPerCycleMm = Depth(rules, "largest depth per cycle"),
            LargestDepthPerDayMm = Depth(rules, "largest depth per day"),
        };
    }

    private static double Slope(MapReader map, MapReader site)
    {
        if (map.Has("slope")) return OrZero(map.Quantity("slope", QuantityRule.Slope));
        if (site.Has("slope")) return OrZero(site.Quantity("slope", QuantityRule.Slope));
        map.Findings.Assume($"{map.Path}/slope", "0 %", "the survey gives none");
        return 0;
    }

    private static double OrZero(double value) => double.IsNaN(value) ? 0 : value;

    private static double Depth(MapReader? rules, string key) => rules is null ? double.NaN : rules.Quantity(key, QuantityRule.RuleDepth) * 1000;
}
