using Valvewright.Engine.Ground;
using Valvewright.Engine.Sprinklers;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads how water comes out: kind, rate and flow (each from what was measured), and how evenly it falls.</summary>
internal static class SprinklersReader
{
    /// <summary>Loss of overhead water to drift and evaporation where the survey gives none: common practice for night and dawn.</summary>
    private const double OverheadLoss = 0.05;

    internal static Emission Read(MapReader zone, double areaM2, Soil soil)
    {
        if (zone.Inner("sprinklers") is not { } map) return new Emission(EmissionKind.Spray, 1, 1, SpotShares.Even);
        EmissionKind kind = map.ValueOr("kind", EmissionKind.Spray);
        CatchCans? cans = AuditReader.Read(map);
        (double rate, double flow, double emitters) = RateReader.Read(map, areaM2, cans);
        double loss = Loss(map, kind, rate, cans);
        if (cans is not null && loss == 0) rate = cans.NetRateMmPerHour;
        return map.Fill(new Emission(kind, rate, flow, SpotsOf(map, kind, cans), loss)
        {
            WettedFraction = Wetted(map, kind, emitters, soil, areaM2),
        });
    }

    /// <summary>What emitters wet, where they are counted; all of it where only their rate is known.</summary>
    private static double Wetted(MapReader map, EmissionKind kind, double emitters, Soil soil, double areaM2)
    {
        string path = $"{map.Path}/wetted part";
        double own = map.Amount("wetted part") / 100;
        if (kind != EmissionKind.Drip)
        {
            if (!double.IsNaN(own)) map.Findings
                .Question(map.Get("wetted part")!, "a wetted part for drip only", "this is not used");
            return 1;
        }

        if (!double.IsNaN(own)) return own;
        string circle = map.Context.Show.ShortLength(WettedPart.DiameterM(soil));
        double part = double.IsNaN(emitters) ? 1 : WettedPart.Of(emitters, soil, areaM2);
        map.Findings.Assume(
            path, SiteAmounts.Percent(part), double.IsNaN(emitters) ? (Sentence)"no emitters are counted"
                : (Sentence)$"{SiteAmounts.Number(emitters, 0)} emitters, each a circle of {circle}: rule of thumb for the soil");
        return part;
    }

    /// <summary>Where both what left the heads and what reached the cans were measured, the loss is the difference.</summary>
    private static double Loss(MapReader map, EmissionKind kind, double rate, CatchCans? cans)
    {
        string path = $"{map.Path}/loss";
        double own = map.Amount("loss") / 100;
        if (!double.IsNaN(own)) return own;
        if (cans is not null)
        {
            double measured = 1 - (cans.NetRateMmPerHour / rate);
            if (measured is > 1e-9 and < 0.4)
            {
                map.Findings.Assume(path, SiteAmounts.Percent(measured), "cans against flow and area");
                return measured;
            }

            if (Math.Abs(measured) > 0.1)
            {
                map.Findings.Question(
                    map.Get("audit")!,
                    $"about {map.Context.Show.Rate(rate)} from flow and area",
                    $"The cans caught {map.Context.Show.Rate(cans.NetRateMmPerHour)}; measure flow, area or cans again. The cans are believed");
            }

            return 0;
        }

        double loss = kind is EmissionKind.Spray or EmissionKind.Rotor ? OverheadLoss : 0;
        map.Findings.Assume(
            path, SiteAmounts.Percent(loss), loss > 0 ? "overhead, at night or dawn: common practice" : "no drift from drip and bubblers");
        return loss;
    }

    private static SpotShares SpotsOf(MapReader map, EmissionKind kind, CatchCans? cans)
    {
        double own = map.Amount("uniformity") / 100;
        if (cans is not null)
        {
            if (!double.IsNaN(own)) map.Findings
                .Question(map.Get("uniformity")!, "no uniformity next to an audit", "The cans say how evenly it falls; this is not used");
            return cans.Spots();
        }

        if (!double.IsNaN(own)) return FittedSpots.Of(own);
        double usual = kind switch { EmissionKind.Spray => .55, EmissionKind.Rotor => .65, _ => .85 };
        if (!map.Has("uniformity")) map.Findings
            .Assume($"{map.Path}/uniformity", SiteAmounts.Percent(usual), "common practice for the kind; set out cans to know it");
        return FittedSpots.Of(usual);
    }
}
