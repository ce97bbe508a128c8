using System.Globalization;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys;

/// <summary>Reads what grows in a zone.</summary>
internal static class PlantsReader
{
    internal static Planting Read(MapReader zone, Ground ground)
    {
        SurveyNode? value = zone.Need("plants", $"a kind of planting, {Words.OneOf(PlantKinds.All.Select(kind => kind.Name))}");
        if (value is TextNode single) value = new MapNode(single.Line, single.Column, [(new TextNode(single.Line, single.Column, "kind"), single)]);
        MapReader? map = value is null ? null : zone.AsMap(value, KeySet.Plants, $"{zone.Path}/plants");
        if (map is null) return new Planting("", PlantStage.Established, LandscapeCoefficient.AllYear(1), 0.3, 0.5);
        PlantKind kind = KindOf(map);
        PlantStage stage = map.Word("stage", Words.Stages) ?? PlantStage.Established;
        if (!map.Has("stage")) map.Findings.Assume($"{map.Path}/stage", "established", "the survey gives none");
        ListOf<double> coefficient = Coefficient(map, kind, ground);
        double roots = RootDepth(map, kind);
        double depletion = Depletion(map, kind);
        Planting established = new(map.Text("name") ?? kind.Name, PlantStage.Established, coefficient, roots, depletion, map.Date("since"));
        Passing(map, stage);
        Planting staged = StageRules.At(established, stage);
        if (stage != PlantStage.Established)
        {
            map.Findings.Assume(
                $"{map.Path}/stage",
                $"{(Sentence)Words.For(Words.Stages, stage)}: root zone {map.Reading.Show.RootDepth(staged.RootDepthM)}, depletion {Shown.Percent(staged.AllowedDepletion)}, KL {Range(staged.CoefficientByMonth)}",
                "common practice for the stage");
        }

        return staged;
    }

    private static PlantKind KindOf(MapReader map)
    {
        PlantKind otherwise = PlantKinds.All[0];
        Sentence expected = Words.OneOf(PlantKinds.All.Select(kind => kind.Name));
        SurveyNode? value = map.Need("kind", expected);
        if (value is null || map.AsText(value, expected) is not { } text) return otherwise;
        if (PlantKinds.Named(text.Text.ToLowerInvariant()) is { } kind) return kind;
        map.Findings.Refuse(text, expected, "There is no such kind of planting", NearestWord.To(text.Text, PlantKinds.All.Select(k => k.Name)));
        return otherwise;
    }

    private static ListOf<double> Coefficient(MapReader map, PlantKind kind, Ground ground)
    {
        if (map.Has("coefficient"))
        {
            foreach (string other in (string[])["water use", "density", "microclimate"])
            {
                if (map.Has(other)) map.Findings.Question(map.Get(other)!, "no such key beside 'coefficient'", "The coefficient says it all; this is not used");
            }

            return Own(map);
        }

        double around = Factor(map, "microclimate", Words.Microclimates, LandscapeCoefficient.MicroclimateFactor, 0.5, 1.4);
        string path = $"{map.Path}/coefficient";
        if (kind.Turf is { } season && !map.Has("water use"))
        {
            map.Findings.Assume(path, Range(LandscapeCoefficient.TurfByMonth(season, ground.South)), ground.South ? (Sentence)$"{(Sentence)LandscapeCoefficient.TurfSource}, moved half a year" : LandscapeCoefficient.TurfSource);
            return LandscapeCoefficient.TurfByMonth(season, ground.South).Select(kl => kl * around).ToListOf();
        }

        double dense = Factor(map, "density", Words.Densities, LandscapeCoefficient.DensityFactor, 0.5, 1.3);
        if (map.Word("water use", Words.WaterUses) is { } use)
        {
            double factor = LandscapeCoefficient.SpeciesFactor(use);
            map.Findings.Assume($"{map.Path}/water use", $"species factor {Shown.Number(factor, 2)}", "middle of the class (WUCOLS)");
            return LandscapeCoefficient.AllYear(LandscapeCoefficient.Of(factor, dense, around));
        }

        AirClimate air = ground.Air ?? AirClimate.Dry;
        double species = air == AirClimate.Dry ? kind.DryFactor : kind.HumidFactor;
        map.Findings.Assume(path, $"plant factor {Shown.Number(species, 2)}", FactorSource(kind, air, ground.Air is null));
        return LandscapeCoefficient.AllYear(LandscapeCoefficient.Of(species, dense, around));
    }

    private static Sentence FactorSource(PlantKind kind, AirClimate air, bool isAssumed)
    {
        if (kind.DryFactor == kind.HumidFactor) return kind.FactorSource;
        Sentence climate = air == AirClimate.Dry ? "dry climate" : "humid climate";
        return isAssumed ? (Sentence)$"{(Sentence)kind.FactorSource}, {climate} assumed" : (Sentence)$"{(Sentence)kind.FactorSource}, {climate}";
    }

    /// <summary>One coefficient, or twelve from January to December.</summary>
    private static ListOf<double> Own(MapReader map)
    {
        const string Expected = "a coefficient from 0 to 2, or twelve of them from January to December";
        IReadOnlyList<SurveyNode> items = map.Items("coefficient");
        if (items.Count is not (1 or 12))
        {
            map.Findings.Refuse(map.Get("coefficient")!, Expected, "There is one coefficient a month, or one for all");
            return LandscapeCoefficient.AllYear(1);
        }

        double[] values = [.. items.Select(item => Number(map, item, 0, 2, Expected, "a coefficient"))];
        return values.Length == 12 ? values.ToListOf() : LandscapeCoefficient.AllYear(values[0]);
    }

    private static double Factor<T>(MapReader map, string key, Dictionary<string, T> words, Func<T, double> factor, double least, double largest)
        where T : struct
    {
        SurveyNode? value = map.Get(key);
        if (value is null) return 1;
        if (value is TextNode text && text.Text.Any(char.IsAsciiDigit)) return Number(map, text, least, largest, $"{least} to {largest}, or {Words.OneOf(words.Keys)}", key == "density" ? "a density factor" : "a microclimate factor");
        return map.AsWord(value, words, key) is { } word ? factor(word) : 1;
    }

    private static double Number(MapReader map, SurveyNode node, double least, double largest, Sentence expected, Sentence what)
    {
        if (map.AsText(node, expected) is not { } text) return 1;
        if (double.TryParse(text.Text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value) && value >= least && value <= largest) return value;
        map.Findings.Refuse(text, expected, $"This is not {what}");
        return 1;
    }

    private static double RootDepth(MapReader map, PlantKind kind)
    {
        double own = map.Quantity("root depth", QuantityRule.RootDepth);
        if (!double.IsNaN(own)) return own;
        if (!map.Has("root depth")) map.Findings.Assume($"{map.Path}/root depth", map.Reading.Show.RootDepth(kind.RootDepthM), kind.RootSource);
        return kind.RootDepthM;
    }

    private static double Depletion(MapReader map, PlantKind kind)
    {
        double own = map.Quantity("allowed depletion", QuantityRule.Depletion) / 100;
        if (!double.IsNaN(own)) return own;
        if (!map.Has("allowed depletion")) map.Findings.Assume($"{map.Path}/allowed depletion", Shown.Percent(kind.AllowedDepletion), kind.DepletionSource);
        return kind.AllowedDepletion;
    }

    private static void Passing(MapReader map, PlantStage stage)
    {
        bool passes = stage is PlantStage.NewlySeeded or PlantStage.Establishing;
        if (passes && !map.Has("since")) map.Findings.Question(map.Get("stage")!, "'since' with the date of sowing or planting", "This stage passes, and the survey does not say when it began");
    }

    private static Sentence Range(ListOf<double> values) => values.Min() == values.Max()
        ? (Sentence)Shown.Number(values[0], 2)
        : (Sentence)$"{Shown.Number(values.Min(), 2)} to {Shown.Number(values.Max(), 2)} by month";
}
