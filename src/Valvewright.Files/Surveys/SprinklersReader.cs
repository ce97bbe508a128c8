using Valvewright.Engine.Sprinklers;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads how water comes out: kind, rate and flow (each from what was measured), and how evenly it falls.</summary>
internal static class SprinklersReader
{
    /// <summary>Loss of overhead water to drift and evaporation where the survey gives none: common practice for night and dawn.</summary>
    private const double OverheadLoss = 0.05;

    internal static Emission Read(MapReader zone, double areaM2)
    {
        SurveyNode? value = zone.Need("sprinklers", "kind, and a rate or flow");
        MapReader? map = value is null ? null : zone.AsMap(value, KeySet.Sprinklers, $"{zone.Path}/sprinklers");
        if (map is null) return new Emission(EmissionKind.Spray, 1, 1, SpotShares.Even);
        EmissionKind kind = map.Word("kind", Words.Emissions, needed: true) ?? EmissionKind.Spray;
        CatchCans? cans = AuditReader.Read(map);
        (double rate, double flow) = RateReader.Read(map, areaM2, cans);
        double loss = Loss(map, kind, rate, cans);
        if (cans is not null && loss == 0) rate = cans.NetRateMmPerHour;
        return new Emission(kind, rate, flow, SpotsOf(map, kind, cans), loss);
    }

    /// <summary>Where both what left the heads and what reached the cans were measured, the loss is the difference.</summary>
    private static double Loss(MapReader map, EmissionKind kind, double rate, CatchCans? cans)
    {
        string path = $"{map.Path}/loss";
        double own = map.Quantity("loss", QuantityRule.Loss) / 100;
        if (!double.IsNaN(own)) return own;
        if (cans is not null)
        {
            double measured = 1 - (cans.NetRateMmPerHour / rate);
            if (measured is > 1e-9 and < 0.4)
            {
                map.Findings.Assume(path, Shown.Percent(measured), "cans against flow and area");
                return measured;
            }

            if (Math.Abs(measured) > 0.1)
            {
                map.Findings.Question(
                    map.Get("audit")!,
                    $"about {map.Reading.Show.Rate(rate)} from flow and area",
                    $"The cans caught {map.Reading.Show.Rate(cans.NetRateMmPerHour)}; measure flow, area or cans again. The cans are believed");
            }

            return 0;
        }

        double loss = kind is EmissionKind.Spray or EmissionKind.Rotor ? OverheadLoss : 0;
        map.Findings.Assume(path, Shown.Percent(loss), loss > 0 ? "overhead, at night or dawn: common practice" : "no drift from drip and bubblers");
        return loss;
    }

    private static SpotShares SpotsOf(MapReader map, EmissionKind kind, CatchCans? cans)
    {
        double own = map.Quantity("uniformity", QuantityRule.Uniformity) / 100;
        if (cans is not null)
        {
            if (!double.IsNaN(own)) map.Findings.Question(map.Get("uniformity")!, "no uniformity beside an audit", "The cans say how evenly it falls; this is not used");
            return cans.Spots();
        }

        if (!double.IsNaN(own)) return FittedSpots.Of(own);
        double usual = kind switch { EmissionKind.Spray => .55, EmissionKind.Rotor => .65, _ => .85 };
        if (!map.Has("uniformity")) map.Findings.Assume($"{map.Path}/uniformity", Shown.Percent(usual), "common practice for the kind; set out cans to know it");
        return FittedSpots.Of(usual);
    }
}
