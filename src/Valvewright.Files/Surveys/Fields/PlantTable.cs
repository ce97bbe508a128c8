using Valvewright.Engine.Plants;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Values;

namespace Valvewright.Files.Surveys.Fields;

/// <summary>The fields of what grows in a zone.</summary>
internal static class PlantTable
{
    private static readonly Dictionary<string, string> KindsInSpanish = new()
    {
        ["cool-season turf"] = "Césped de clima frío", ["warm-season turf"] = "Césped de clima cálido",
        ["trees"] = "Árboles", ["shrubs"] = "Arbustos",
        ["groundcover"] = "Cubresuelos", ["perennials"] = "Vivaces (herbáceas perennes)",
        ["annual flowers"] = "Flores anuales", ["desert plants"] = "Plantas de desierto",
        ["vegetables"] = "Hortalizas",
    };

    private static readonly WordList<PlantKind> Kinds = new(
        [.. PlantKinds.All.Select(kind => (kind.Name, kind, Bilingual.Capital(kind.Name), KindsInSpanish[kind.Name]))])
    {
        Unknown = "Unknown kind of planting",
    };

    private static readonly Bilingual ByKind = new("as usual for the kind", "lo usual para su clase");
    private static readonly Bilingual Average = new("average", "media");

    internal static readonly WordList<PlantStage> Stages = new(
        ("established", PlantStage.Established, "Established", "Establecida"),
        ("establishing", PlantStage.Establishing, "Planted, roots not out yet", "Plantada, con raíces aún cortas"),
        ("newly seeded", PlantStage.NewlySeeded, "Newly seeded", "Recién sembrada"),
        ("dormant", PlantStage.Dormant, "Dormant", "En reposo"));

    internal static readonly FieldGroup Plants = new("plants", null,
        new("name", new TextKind())
        {
            Label = new("Name", "Nombre"), LeftOut = new("the kind", "la clase"),
            Help = new("Your own words for them.", "Como usted las llama."),
        },
        new("kind", Kinds)
        {
            IsNeeded = true, Label = new("Kind", "Clase"), Help = new("The kind of planting.", "La clase de plantas."),
        },
        new("water use", new WordList<WaterUse>(
            ("very low", WaterUse.VeryLow, "Very low", "Muy bajo"),
            ("low", WaterUse.Low, "Low", "Bajo"),
            ("moderate", WaterUse.Moderate, "Moderate", "Moderado"),
            ("high", WaterUse.High, "High", "Alto")))
        {
            Label = new("Water use", "Consumo de agua"), LeftOut = ByKind,
            Help = new(
                "Class of water use (WUCOLS), instead of the kind's plant factor.",
                "Clase de consumo (WUCOLS), en lugar del factor de planta de su clase."),
        },
        new("density", new NumberKind("a density factor", 0.5, 1.3, new WordList<double>(
            ("sparse", LandscapeCoefficient.DensityFactor(Density.Sparse), "Sparse", "Rala"), ("average", 1, "Average", "Media"),
            ("dense", LandscapeCoefficient.DensityFactor(Density.Dense), "Dense", "Densa"))))
        {
            Label = new("Density", "Densidad"), LeftOut = Average, Help = new("How much leaf there is.", "Cuánta hoja hay."),
        },
        new("microclimate", new NumberKind("a microclimate factor", 0.5, 1.4, new WordList<double>(
            ("sheltered", LandscapeCoefficient.MicroclimateFactor(Microclimate.Sheltered), "Sheltered", "Protegido"),
            ("average", 1, "Average", "Medio"),
            ("exposed", LandscapeCoefficient.MicroclimateFactor(Microclimate.Exposed), "Exposed to wind, walls or paving",
                "Expuesto a viento, muros o pavimento"))))
        {
            Label = new("Microclimate", "Microclima"), LeftOut = new("average", "medio"),
            Help = new("What surrounds the plants.", "Lo que rodea a las plantas."),
        },
        new("coefficient", new ListKind(new NumberKind("a coefficient", 0, 2) { Hint = Coefficients }) { Most = 12, Hint = Coefficients })
        {
            Label = new("Landscape coefficient", "Coeficiente de jardín"),
            LeftOut = new("from kind, density and microclimate", "según clase, densidad y microclima"), Examples = ["0.7"],
            Help = new(
                "Your own coefficient, or twelve from January to December; replaces water use, density and microclimate.",
                "Su propio coeficiente, o doce de enero a diciembre; reemplaza consumo, densidad y microclima."),
        },
        new("root depth", new QuantityRule("a root depth", Units.Centimetre, Units.Inch, 0.005, 5, 0.02, 2))
        {
            Examples = ["40 cm", "12 in"], Label = new("Root depth", "Profundidad de raíces"), LeftOut = ByKind,
            Help = new(
                "Depth of the roots that are watered; look in a soil core.",
                "Profundidad de las raíces que se riegan; mírela en una muestra de suelo."),
        },
        new("allowed depletion", QuantityRule.Percent("an allowed depletion", 1, 95, 15, 80))
        {
            Examples = ["50 %"], Label = new("Allowed depletion", "Agotamiento permitido"), LeftOut = ByKind,
            Help = new(
                "Share of the available water that may be used between waterings.",
                "Parte del agua disponible que puede usarse entre riegos."),
        },
        SurveyField.Of<Planting,
            double>("soil salinity", new NumberKind("a salinity", 0.5, 20), (planting, salinity) =>
                planting with { OwnSoilSalinityDsPerM = salinity }) with
        {
            Examples = ["3"], Label = new("Bears soil salinity, dS/m", "Soporta salinidad del suelo, dS/m"), LeftOut = ByKind,
            Help = new(
                "Conductivity of the soil's saturation extract that the plants bear. Only salty water makes use of it.",
                "Conductividad del extracto de saturación que soportan las plantas. Solo cuenta con agua salina."),
        },
        new("stage", Stages)
        {
            Label = new("Stage", "Etapa"), LeftOut = new("established", "establecida"), Assumed = ("established", "the survey gives none"),
            Help = new("How far along the planting is.", "Qué tan avanzada está la plantación."),
        },
        SurveyField.Of<Planting, LocalDate>("since", new DateKind(), (planting, date) => planting with { Since = date }) with
        {
            Examples = ["2026-04-15"], Label = new("Sown or planted on", "Fecha de siembra o plantación"),
            Help = new("Needed for stages that pass.", "Necesaria para etapas que pasan."),
        },
        SurveyField.Of<Planting, LocalDate>(
            "established by", new DateKind(), (planting, date) => planting with { EstablishedBy = date }) with
        {
            Examples = ["2027-04-15"], Label = new("Established by", "Establecida para el"),
            Help = new(
                "Date by which new plants have rooted out of their root balls.",
                "Fecha para la que las plantas nuevas han enraizado."),
        },
        Span("dormant", (planting, dates) => planting with { DormantDates = dates }) with
        {
            Examples = ["11-15..3-1"], Label = new("Dormant", "En reposo"),
            Help = new("Dates on which it is dormant, month-day.", "Fechas en que está en reposo, mes-día."),
        },
        Span("overseeded", (planting, dates) => planting with { OverseededDates = dates }) with
        {
            Examples = ["10-1..4-30"], Label = new("Overseeded", "Resembrado"),
            Help = new(
                "Dates on which a cool-season grass grows in dormant turf.",
                "Fechas en que un césped de clima frío crece en el césped en reposo."),
        },
        SurveyField.Of<Planting, double>("canopy", Canopy, (planting, m2) => planting with { CanopyM2 = m2 }) with
        {
            Examples = ["60 m2", "650 sq ft"], Label = new("Canopy area", "Área de copas"),
            Help = new("Ground under the crowns of all trees of the zone.", "Suelo bajo las copas de todos los árboles de la zona."),
        }) { IsOnOneLine = true };

    private static SurveyField Span(string key, Func<Planting, PeriodOfYear, Planting> into) =>
        SurveyField.Of(key, new DateSpanKind(), into);

    private static QuantityRule Canopy => new("a canopy area", Units.SquareMetre, Units.SquareFoot, 0.05, 1_000_000, 0.5, 20_000);

    private static Sentence Coefficients => "a coefficient from 0 to 2, or twelve of them from January to December";
}
