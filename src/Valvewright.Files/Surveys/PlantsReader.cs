using Valvewright.Engine.Plants;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys.Fields;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads what grows in a zone.</summary>
internal static class PlantsReader
{
    internal static Planting Read(MapReader zone, Ground ground)
    {
        if (zone.Inner("plants") is not { } map) return new Planting("", PlantStage.Established, LandscapeCoefficient.AllYear(1), 0.3, 0.5);
        PlantKind kind = map.ValueOr("kind", PlantKinds.All[0]);
        PlantStage stage = map.ValueOr("stage", PlantStage.Established);
        ListOf<double> coefficient = Coefficient(map, kind, ground);
        double roots = RootDepth(map, kind);
        double depletion = Depletion(map, kind);
        Planting established = map.Fill(
            new Planting(map.Text("name") ?? kind.Name, PlantStage.Established, coefficient, roots, depletion) { Turf = kind.Turf });
        Passing(map, stage, established);
        Planting staged = StageRules.At(established, stage);
        if (stage != PlantStage.Established)
        {
            map.Findings.Assume(
                $"{map.Path}/stage",
                $"{(Sentence)PlantTable.Stages.WordOf(stage)}: root zone {map.Context.Show.RootDepth(staged.RootDepthM)}, depletion {SiteAmounts.Percent(staged.AllowedDepletion)}, KL {Range(staged.CoefficientByMonth)}",
                "common practice for the stage");
        }

        return staged;
    }

    private static ListOf<double> Coefficient(MapReader map, PlantKind kind, Ground ground)
    {
        if (map.Has("coefficient"))
        {
            foreach (string other in (string[])["water use", "density", "microclimate"])
            {
                if (map.Has(other)) map.Findings
                    .Question(map.Get(other)!, "no such key next to 'coefficient'", "The coefficient says it all; this is not used");
            }

            return Own(map);
        }

        double around = map.ValueOr("microclimate", 1.0);
        string path = $"{map.Path}/coefficient";
        if (kind.Turf is { } season && !map.Has("water use") && ground.Site.ValueOr("monthly coefficients", true))
        {
            map.Findings.Assume(path, Range(LandscapeCoefficient.TurfByMonth(season, ground.South)), ground.South
                ? (Sentence)$"{(Sentence)LandscapeCoefficient.TurfSource}, moved half a year" : LandscapeCoefficient.TurfSource);
            return LandscapeCoefficient.TurfByMonth(season, ground.South).Select(kl => kl * around).ToListOf();
        }

        double dense = map.ValueOr("density", 1.0);
        if (map.TryValue("water use", out WaterUse use))
        {
            double factor = LandscapeCoefficient.SpeciesFactor(use);
            map.Findings.Assume($"{map.Path}/water use", $"species factor {SiteAmounts.Number(factor, 2)}", "middle of the class (WUCOLS)");
            return LandscapeCoefficient.AllYear(LandscapeCoefficient.Of(factor, dense, around));
        }

        AirClimate air = ground.Air ?? AirClimate.Dry;
        double species = air == AirClimate.Dry ? kind.DryFactor : kind.HumidFactor;
        map.Findings.Assume(path, $"plant factor {SiteAmounts.Number(species, 2)}", FactorSource(kind, air, ground.Air is null));
        return LandscapeCoefficient.AllYear(LandscapeCoefficient.Of(species, dense, around));
    }

    private static Sentence FactorSource(PlantKind kind, AirClimate air, bool isAssumed)
    {
        if (kind.DryFactor == kind.HumidFactor) return kind.FactorSource;
        Sentence climate = air == AirClimate.Dry ? "dry climate" : "humid climate";
        return isAssumed ? (Sentence)$"{(Sentence)kind.FactorSource}, {climate} assumed"
            : (Sentence)$"{(Sentence)kind.FactorSource}, {climate}";
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
            .Assume($"{map.Path}/root depth", map.Context.Show.RootDepth(kind.RootDepthM), kind.RootSource);
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
