using Valvewright.Engine.Ground;
using Valvewright.Engine.Quantities;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads a soil: a texture class, or sand, clay and organic matter, with measured values in place of the table's.</summary>
internal static class SoilReader
{
    private const string Expected = "a texture such as 'loam', or sand, clay and organic matter";
    private const string TableSource = "table of the texture class and slope";
    private const string TableFromMemory = TableSource + ", from memory";

    internal static Soil Read(MapReader zone, Ground ground, double slope)
    {
        (SurveyNode? value, MapReader owner) = zone.Has("soil") ? (zone.Get("soil"), zone) : (ground.Site.Get("soil"), ground.Site);
        string path = $"{zone.Path}/soil";
        if (value is null)
        {
            zone.Findings.Assume(path, "loam", "the survey gives none; the middle of the table");
            value = new TextNode(zone.Map.Line, zone.Map.Column, "loam");
        }

        if (value is TextNode text) return Stated(zone, path, OfTexture(zone, text, slope), false, false, false);
        MapReader? map = owner.AsMap(value, KeySet.Soil, path);
        if (map is null) return SoilTextures.At("loam", slope);
        Soil soil = map.Has("sand") || map.Has("clay") ? OfShares(map, path, slope) : OfTexture(map, map.Need("texture", Expected), slope);
        double available = AvailableWater(map);
        double intake = map.Quantity("intake", QuantityRule.Intake);
        double surface = map.Quantity("surface storage", QuantityRule.RuleDepth) * 1000;
        Soil stated = Stated(zone, path, soil, !double.IsNaN(available) || map.Has("sand"), !double.IsNaN(intake), !double.IsNaN(surface));
        return stated with
        {
            AvailableWaterMmPerM = double.IsNaN(available) ? soil.AvailableWaterMmPerM : available,
            IntakeMmPerHour = double.IsNaN(intake) ? soil.IntakeMmPerHour : intake,
            SurfaceStorageMm = double.IsNaN(surface) ? soil.SurfaceStorageMm : surface,
        };
    }

    /// <summary>Says which numbers come from the table.</summary>
    private static Soil Stated(MapReader zone, string path, Soil soil, bool available, bool intake, bool surface)
    {
        Shown show = zone.Reading.Show;
        if (!available) zone.Findings.Assume($"{path}/available water", show.PerDepth(soil.AvailableWaterMmPerM), TableSource);
        if (!intake) zone.Findings.Assume($"{path}/intake", show.Rate(soil.IntakeMmPerHour), TableFromMemory);
        if (!surface) zone.Findings.Assume($"{path}/surface storage", show.Depth(soil.SurfaceStorageMm), TableFromMemory);
        return soil;
    }

    private static Soil OfTexture(MapReader map, SurveyNode? value, double slope)
    {
        Soil otherwise = SoilTextures.At("loam", slope);
        if (value is null || map.AsText(value, Expected) is not { } text) return otherwise;
        string texture = text.Text.ToLowerInvariant();
        string[] known = [.. SoilTextures.Classes, .. SoilTextures.TakenAs.Keys];
        if (known.Contains(texture)) return SoilTextures.At(texture, slope);
        map.Findings.Refuse(text, Words.OneOf(known), "There is no such texture class", NearestWord.To(texture, known));
        return otherwise;
    }

    private static Soil OfShares(MapReader map, string path, double slope)
    {
        double sand = map.Quantity("sand", QuantityRule.Fraction, needed: true) / 100;
        double clay = map.Quantity("clay", QuantityRule.Fraction, needed: true) / 100;
        double organic = map.Quantity("organic matter", QuantityRule.OrganicMatter);
        if (!map.Has("organic matter"))
        {
            organic = 2.5;
            map.Findings.Assume($"{path}/organic matter", "2.5 %", "as in table 3 of Saxton & Rawls 2006");
        }

        if (double.IsNaN(sand + clay + organic)) return SoilTextures.At("loam", slope);
        if (sand + clay > 1)
        {
            map.Findings.Refuse(map.Get("clay")!, "sand and clay of at most 100 % together", "There is more sand and clay than soil");
            return SoilTextures.At("loam", slope);
        }

        if (map.Has("texture")) map.Findings.Question(map.Get("texture")!, "no texture beside sand and clay", "The texture follows from sand and clay; this is not used");
        if (clay > 0.6) map.Findings.Question(map.Get("clay")!, "clay up to 60 %", "The equations of Saxton & Rawls were not fitted to such a soil");
        Soil soil = SaxtonRawls.At(sand, clay, organic, slope);
        if (soil.AvailableWaterMmPerM is > 10 and < 500) return soil;
        map.Findings.Refuse(map.Map, "a soil within the reach of Saxton & Rawls 2006", "These shares give no sensible soil water; name a texture instead");
        return SoilTextures.At("loam", slope);
    }

    /// <summary>Water over depth: a plain number is mm/m, or in/ft at a US customary site; a share of volume may be written in percent.</summary>
    private static double AvailableWater(MapReader map)
    {
        bool us = map.Reading.Units == Engine.Survey.UnitSystem.UsCustomary;
        string expected = us ? "0.4 to 4 in/ft" : "30 to 350 mm/m";
        if (map.Get("available water") is not { } value || map.AsText(value, expected) is not { } text) return double.NaN;
        (string Unit, double Factor)[] units = [("mm/m", 1), ("in/ft", 1000.0 / 12), ("in/in", 1000), ("%", 10)];
        string plain = text.Text.ToLowerInvariant();
        (string unit, double factor) = units.FirstOrDefault(u => plain.EndsWith(u.Unit, StringComparison.Ordinal));
        factor = unit is null ? us ? 1000.0 / 12 : 1 : factor;
        QuantityReading number = QuantityText.Read(plain[..^(unit?.Length ?? 0)], Dimension.Share, Units.Percent);
        double water = number.IsRead ? number.Value * factor : double.NaN;
        if (water is >= 30 and <= 350) return water;
        map.Findings.Refuse(text, expected, "This is not the water that a soil holds");
        return double.NaN;
    }
}
