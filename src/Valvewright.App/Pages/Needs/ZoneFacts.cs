using Valvewright.App.Parts;
using Valvewright.App.Texts;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;
using Valvewright.Files.Texts;

namespace Valvewright.App.Pages.Needs;

/// <summary>The figures of a zone's needs with what went into each: measured, told or assumed, and where from.</summary>
public sealed class ZoneFacts(Site site, SiteController controller, Zone zone, ZoneNeed need, SiteWords say, PageWords words)
{
    private readonly string path = $"controllers/{controller.Name}/zones/{zone.Name}/";

    /// <summary>All of them, in the order in which one follows from the other.</summary>
    public ListOf<Fact> All() =>
    [
        new(words["needs.storage"], say.Depth(need.StorageMm), Said(need.StorageMm.From), [Available, Roots]),
        new(words["needs.readily"], say.Depth(need.ReadilyMm), Said(need.ReadilyMm.From), [Storage, Depletion]),
        new(words["needs.use"], words.Fill("needs.perDay", ("amount", say.Depth(need.PeakUseMm))), Said(need.PeakUseMm.From),
            [Coefficient]),
        .. zone.Planting.Stage == PlantStage.NewlySeeded
            ? (Fact[])[new(words["needs.perDayWaterings"], SiteWords.Number(need.WateringsPerDay, 0), Said(need.WateringsPerDay.From),
                [Readily, new(words["needs.use"], say.Depth(need.PeakUseMm), false)])]
            : [new(words["needs.gap"], words.Count("needs.days", (int)Math.Floor(need.LongestGapDays.EightInTen)),
                $"{Said(need.LongestGapFrom)}. {words.Fill("needs.gap.range", ("mean", SiteWords.Number(need.LongestGapDays.Mean, 1)), ("worst", SiteWords.Number(need.LongestGapDays.Worst, 0)))}", [Readily, Coefficient])],
        new(words["needs.multiplier"], SiteWords.Number(need.RunTimeMultiplier, 2), Said(need.RunTimeMultiplier.From), [Uniformity]),
        new(words["needs.refill"], AsRun(need.RefillMm), Said(need.RefillMm.From), [Readily, Uniformity, Loss]),
        new(words["needs.shortest"], AsRun(need.ShortestUsefulMm), Said(need.ShortestUsefulMm.From), [Readily, Loss]),
        new(words["needs.cycle"], need.LongestCycleSeconds is { } cycle ? SiteWords.Duration(cycle) : words["needs.noLimit"],
            Said(need.LongestCycleFrom), [Rate, Intake, Surface, Slope]),
        new(words["needs.soak"], need.SoakSeconds > 0 ? SiteWords.Duration(need.SoakSeconds) : words["needs.none"], Said(need.SoakFrom),
            [Intake, Surface]),
        .. need.LongestDaySeconds is { } day
            ? (Fact[])[new(words["needs.dayRule"], SiteWords.Duration(day), words["needs.dayRule.how"],
                [new(words["needs.in.dayRule"], say.Depth(zone.LargestDepthPerDayMm), false), Rate])]
            : [],
        new(words["needs.week"], say.Depth(need.PeakWeekMm), Said(need.PeakWeekMm.From), [Coefficient, Uniformity, Loss]),
        new(words["needs.season"], Season(), words.Fill("needs.season.how", ("depth", say.Depth(Irrigating.LeastWeekMm))), []),
        new(words["needs.least"], words.Fill("needs.perYear", ("amount", say.LargeDepth(need.LeastWaterMm.Mean))),
            words.Fill("needs.least.how", ("dry", say.LargeDepth(need.LeastWaterMm.EightInTen)),
                ("worst", say.LargeDepth(need.LeastWaterMm.Worst)), ("volume", say.Volume(need.LeastWaterMm.Mean * zone.AreaM2 / 1000)),
                    ("years", need.Years)), [Area, Coefficient, Uniformity]),
    ];

    private WhenceInput Available => Input("needs.in.available",
        Sentences.Say(new Amount(zone.Soil.AvailableWaterMmPerM, Measure.WaterPerDepth), site.Units), "soil/available water", "soil");

    private WhenceInput Roots =>
        Input("needs.in.roots", Sentences.Say(new Amount(zone.Planting.RootDepthM, Measure.Roots), site.Units), "plants/root depth");

    private WhenceInput Storage => new(words["needs.storage"], say.Depth(need.StorageMm), Available.IsAssumed || Roots.IsAssumed);

    private WhenceInput Readily => new(words["needs.readily"], say.Depth(need.ReadilyMm), Storage.IsAssumed || Depletion.IsAssumed);

    private WhenceInput Depletion =>
        Input("needs.in.depletion", words.Percent(SiteWords.Number(100 * zone.Planting.AllowedDepletion, 0)), "plants/allowed depletion");

    private WhenceInput Coefficient =>
        Input("needs.in.coefficient", RangeOf(zone.Planting.CoefficientByMonth), "plants/coefficient", "plants/water use");

    private WhenceInput Uniformity => Input("needs.in.uniformity",
        words.Percent(SiteWords.Number(100 * Engine.Sprinklers.LowQuarter.UniformityOf(zone.Emission.Spots), 0)), "sprinklers/uniformity");

    private WhenceInput Loss =>
        Input("needs.in.loss", words.Percent(SiteWords.Number(100 * zone.Emission.ApplicationLossFraction, 0)), "sprinklers/loss");

    private WhenceInput Rate => Input("needs.in.rate", say.Rate(zone.Emission.PrecipitationRateMmPerHour), "sprinklers/rate");

    private WhenceInput Intake => Input("needs.in.intake", say.Rate(zone.Soil.IntakeMmPerHour), "soil/intake", "soil");

    private WhenceInput Surface => Input("needs.in.surface", say.Depth(zone.Soil.SurfaceStorageMm), "soil/surface storage", "soil");

    private WhenceInput Slope => Input("needs.in.slope", words.Percent(SiteWords.Number(zone.SlopePercent, 0)), "slope");

    private WhenceInput Area => Input("needs.in.area", say.Area(zone.AreaM2), "area");

    private string Said(Sentence sentence) => words.Say(sentence, site.Units);

    /// <summary>A gross depth and the run that gives it.</summary>
    private string AsRun(double grossMm) =>
        $"{say.Depth(grossMm)} ({SiteWords.Duration((long)Math.Round(grossMm / zone.Emission.PrecipitationRateMmPerHour * 60) * 60)})";

    private string Season() => need.Season switch
    {
        null => words["needs.season.never"],
        { } season when season == PeriodOfYear.WholeYear => words["needs.season.always"],
        { } season => words.Fill("needs.season.span", ("from", say.Date(season.From)), ("to", say.Date(season.To))),
    };

    private WhenceInput Input(string name, string value, params string[] under)
    {
        Assumption? assumed = under.Select(u => site.Assumptions.FirstOrDefault(a => a.Path == path + u)).FirstOrDefault(
            a => a is not null);
        return new WhenceInput(words.All[name], value, assumed is not null, assumed is null ? null : words.Say(assumed.Why, site.Units));
    }

    private static string RangeOf(ListOf<double> values) => values.Min() == values.Max() ? SiteWords.Number(values[0], 2)
        : $"{SiteWords.Number(values.Min(), 2)}–{SiteWords.Number(values.Max(), 2)}";
}
