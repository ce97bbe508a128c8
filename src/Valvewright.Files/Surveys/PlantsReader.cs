using Valvewright.Engine.Plants;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys.Fields;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads what grows in a zone.</summary>
internal static class PlantsReader
{
    private const double LargestCrowns = 6;

    internal static Planting Read(MapReader zone, Ground ground, double areaM2)
    {
        if (zone.Inner("plants") is not { } map) return new Planting("", PlantStage.Established, LandscapeCoefficient.AllYear(1), 0.3, 0.5);
        PlantKind kind = map.ValueOr("kind", PlantKinds.All[0]);
        PlantStage stage = map.ValueOr("stage", PlantStage.Established);
        (ListOf<double> coefficient, double? humid) = Coefficient(map, kind, ground);
        double crowns = Crowns(map, kind, areaM2);
        double roots = RootDepth(map, kind);
        double depletion = Depletion(map, kind);
        Planting established = map.Fill(
            new Planting(map.Text("name") ?? kind.Name, PlantStage.Established, coefficient.Select(kl => kl * crowns).ToListOf(),
                roots, depletion)
            {
                Turf = kind.Turf, HumidAirFactor = humid,
            });
        Passing(map, stage, established);
        Planting staged = StageRules.At(established, stage);
        if (stage != PlantStage.Established)
        {
            map.Findings.Assume(
                $"{map.Path}/stage",
                $"{(Sentence)PlantTable.Stages.WordOf(stage)}: root zone {map.Context.Show.ShortLength(staged.RootDepthM)}, depletion {SiteAmounts.Percent(staged.AllowedDepletion)}, KL {Range(staged.CoefficientByMonth)}",
                "common practice for the stage");
        }

        return staged;
    }

    private static (ListOf<double> ByMonth, double? HumidAirFactor) Coefficient(MapReader map, PlantKind kind, Ground ground)
    {
        if (map.Has("coefficient"))
        {
            foreach (string other in (string[])["water use", "density", "microclimate"])
            {
                if (map.Has(other)) map.Findings
                    .Question(map.Get(other)!, "no such key next to 'coefficient'", "The coefficient says it all; this is not used");
            }

            return (Own(map), null);
        }

        double around = map.ValueOr("microclimate", 1.0);
        string path = $"{map.Path}/coefficient";
        if (kind.Turf is { } season && !map.Has("water use") && ground.Site.ValueOr("monthly coefficients", ground.IsInCalifornia))
        {
            map.Findings.Assume(path, Range(LandscapeCoefficient.TurfByMonth(season, ground.South)), ground.South
                ? (Sentence)$"{(Sentence)LandscapeCoefficient.TurfSource}, moved half a year" : LandscapeCoefficient.TurfSource);
            return (LandscapeCoefficient.TurfByMonth(season, ground.South).Select(kl => kl * around).ToListOf(), null);
        }

        double dense = map.ValueOr("density", 1.0);
        if (map.TryValue("water use", out WaterUse use))
        {
            double factor = LandscapeCoefficient.SpeciesFactor(use);
            map.Findings.Assume($"{map.Path}/water use", $"species factor {SiteAmounts.Number(factor, 2)}", "middle of the class (WUCOLS)");
            return (LandscapeCoefficient.AllYear(LandscapeCoefficient.Of(factor, dense, around)), null);
        }

        bool isOpen = ground.Air is null && kind.DryFactor != kind.HumidFactor;
        double species = ground.Air == AirClimate.Humid ? kind.HumidFactor : kind.DryFactor;
        Sentence source = kind.DryFactor == kind.HumidFactor ? kind.FactorSource
            : (Sentence)$"{(Sentence)kind.FactorSource}, {(Sentence)(species == kind.DryFactor ? "dry climate" : "humid climate")}";
        string dry = SiteAmounts.Number(species, 2), humid = SiteAmounts.Number(kind.HumidFactor, 2);
        map.Findings.Assume(
            path, isOpen
                ? (Sentence)$"plant factor {dry} in dry air, {humid} in humid air"
                : (Sentence)$"plant factor {dry}",
            isOpen ? (Sentence)$"{(Sentence)kind.FactorSource}; the weather record decides" : source);
        return (LandscapeCoefficient.AllYear(LandscapeCoefficient.Of(species, dense, around)),
            isOpen ? kind.HumidFactor / kind.DryFactor : null);
    }

    /// <summary>Crowns over the zone's area: trees use water by their crowns. 1 where the survey does not measure them.</summary>
    private static double Crowns(MapReader map, PlantKind kind, double areaM2)
    {
        double canopy = map.Amount("canopy");
        if (double.IsNaN(canopy)) return 1;
        if (kind.Name != PlantKinds.Trees)
        {
            map.Findings.Question(
                map.Get("canopy")!, "a canopy area for trees only", "this is not used");
            return 1;
        }

        double share = canopy / areaM2;
        if (double.IsNaN(share)) return 1;
        if (share is > LargestCrowns or < 1 / LargestCrowns)
        {
            map.Findings.Question(
                map.Get("canopy")!, $"about the zone's area, {map.Context.Show.Area(areaM2)}",
                "measure both again");
        }

        map.Findings.Assume(
            $"{map.Path}/coefficient", $"KL x {SiteAmounts.Number(share, 2)}", "canopy over area: trees use water by their crowns");
        return share;
    }

    /// <summary>One coefficient, or twelve from January to December.</summary>
    private static ListOf<double> Own(MapReader map)
    {
        int given = map.Items("coefficient").Count;
        if (given is not (1 or 12))
        {
            map.Findings.Refuse(
                map.Get("coefficient")!, "a coefficient from 0 to 2, or twelve of them from January to December",
                    "There is one coefficient a month, or one for all");
            return LandscapeCoefficient.AllYear(1);
        }

        double[] values = [.. map.Values<double>("coefficient").Select(item => item.Value)];
        return values.Length == 12 ? values.ToListOf() : LandscapeCoefficient.AllYear(values.Length == 1 ? values[0] : 1);
    }

    private static double RootDepth(MapReader map, PlantKind kind)
    {
        double own = map.Amount("root depth");
        if (!double.IsNaN(own)) return own;
        if (!map.Has("root depth")) map.Findings
            .Assume($"{map.Path}/root depth", map.Context.Show.ShortLength(kind.RootDepthM), kind.RootSource);
        return kind.RootDepthM;
    }

    private static double Depletion(MapReader map, PlantKind kind)
    {
        double own = map.Amount("allowed depletion") / 100;
        if (!double.IsNaN(own)) return own;
        if (!map.Has("allowed depletion")) map.Findings
            .Assume($"{map.Path}/allowed depletion", SiteAmounts.Percent(kind.AllowedDepletion), kind.DepletionSource);
        return kind.AllowedDepletion;
    }

    private static void Passing(MapReader map, PlantStage stage, Planting planting)
    {
        if (planting.EstablishedBy <= planting.Since)
        {
            map.Findings.Refuse(map.Get("established by")!, "a date after 'since'", "The plants are established before they are planted");
        }

        bool passes = stage is PlantStage.NewlySeeded or PlantStage.Establishing;
        if (passes && !map.Has("since")) map.Findings.Question(map.Get("stage")!, "'since' with the date of sowing or planting",
            "This stage passes, and the survey does not say when it began");
    }

    private static Sentence Range(ListOf<double> values) => values.Min() == values.Max()
        ? (Sentence)SiteAmounts.Number(values[0], 2)
        : (Sentence)$"{SiteAmounts.Number(values.Min(), 2)} to {SiteAmounts.Number(values.Max(), 2)} by month";
}
