using Valvewright.Engine.Ground;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads a soil: a texture class, or sand, clay and organic matter, with measured values in place of the table's.</summary>
internal static class SoilReader
{
    private const string TableSource = "table of the texture class and slope";
    private const string TableUnread = TableSource + ", not checked against the printed table";

    internal static Soil Read(MapReader zone, Ground ground, double slope)
    {
        string path = $"{zone.Path}/soil";
        MapReader owner = zone.Has("soil") ? zone : ground.Site;
        if (!owner.Has("soil"))
        {
            zone.Findings.Assume(path, "loam", "the survey gives none; the middle of the table");
            return Stated(zone, path, SoilTextures.At("loam", slope), false, false, false);
        }

        if (owner.Inner("soil", path) is not { } map) return SoilTextures.At("loam", slope);
        Soil soil = map.Has("sand") || map.Has("clay") ? OfShares(map, slope)
            : SoilTextures.At(map.ValueOr("texture", "loam", needed: true), slope);
        double available = map.Amount("available water");
        double intake = map.Amount("intake");
        double surface = map.Amount("surface storage") * 1000;
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
        SiteAmounts show = zone.Context.Show;
        if (!available) zone.Findings.Assume($"{path}/available water", show.PerDepth(soil.AvailableWaterMmPerM), TableSource);
        if (!intake) zone.Findings.Assume($"{path}/intake", show.Rate(soil.IntakeMmPerHour), TableUnread);
        if (!surface) zone.Findings.Assume($"{path}/surface storage", show.Depth(soil.SurfaceStorageMm), TableUnread);
        return soil;
    }

    private static Soil OfShares(MapReader map, double slope)
    {
        double sand = map.Amount("sand", needed: true) / 100;
        double clay = map.Amount("clay", needed: true) / 100;
        double organic = map.ValueOr("organic matter", 2.5);
        if (double.IsNaN(sand + clay + organic)) return SoilTextures.At("loam", slope);
        if (sand + clay > 1)
        {
            map.Findings.Refuse(map.Get("clay")!, "sand and clay of at most 100% together", "There is more sand and clay than soil");
            return SoilTextures.At("loam", slope);
        }

        if (map.Has("texture")) map.Findings
            .Question(map.Get("texture")!, "no texture next to sand and clay", "The texture follows from sand and clay; this is not used");
        if (clay > 0.6) map.Findings
            .Question(map.Get("clay")!, "clay up to 60%", "The equations of Saxton & Rawls were not fitted to such a soil");
        Soil soil = SaxtonRawls.At(sand, clay, organic, slope);
        if (soil.AvailableWaterMmPerM is > 10 and < 500) return soil;
        map.Findings.Refuse(
            map.Map, "a soil within the reach of Saxton & Rawls 2006", "These shares give no sensible soil water; name a texture instead");
        return SoilTextures.At("loam", slope);
    }
}
