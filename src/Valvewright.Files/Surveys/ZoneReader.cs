using Valvewright.Engine.Ground;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads a zone.</summary>
internal static class ZoneReader
{
    internal static Zone Read(MapReader map, string name, Ground ground, WaterSupply? supply)
    {
        int station = map.ValueOr("station", 0);
        double area = map.Amount("area");
        double slope = Slope(map, ground.Site);
        Soil soil = SoilReader.Read(map, ground, slope);
        Planting planting = PlantsReader.Read(map, ground, area);
        Emission emission = SprinklersReader.Read(map, double.IsNaN(area) ? 1 : area, soil);
        Zone zone = map.Fill(new Zone
        {
            Name = name,
            Station = station,
            AreaM2 = area,
            Planting = planting,
            Soil = soil,
            SlopePercent = slope,
            Emission = emission,
            LeachingFraction = Leached(map, planting, supply),
            SoilEvening = ground.Site.ValueOr("soil evening", LowQuarter.UsualSoilEvening),
        });
        return map.Inner("rules") is { } rules ? rules.Fill(zone) : zone;
    }

    private static double Leached(MapReader map, Planting planting, WaterSupply? supply)
    {
        double fraction = supply is null ? 0 : Leaching.FractionOf(supply.SalinityDsPerM, planting.SoilSalinityDsPerM);
        if (fraction <= 0) return 0;
        var bears = SiteAmounts.Number(planting.SoilSalinityDsPerM, 1);
        map.Findings.Assume(
            $"{map.Path}/plants/soil salinity",
            $"{bears} dS/m: {SiteAmounts.Percent(fraction)} of the water must drain to carry salt away",
            "ECw / (5 ECe - ECw), FAO Irrigation and Drainage Paper 29; what the plants bear is not checked against its printed table");
        if (fraction >= Leaching.LargestFraction && map.Get("plants") is { } plants)
        {
            map.Findings.Question(plants, $"at most {SiteAmounts.Percent(Leaching.LargestFraction)} of leaching",
                "The water is too salty for these plants: choose plants that bear more, or other water");
        }

        return fraction;
    }

    private static double Slope(MapReader map, MapReader site)
    {
        if (map.Has("slope")) return map.ValueOr("slope", 0.0);
        if (site.Has("slope")) return site.ValueOr("slope", 0.0);
        map.Findings.Assume($"{map.Path}/slope", "0 %", "the survey gives none");
        return 0;
    }
}
