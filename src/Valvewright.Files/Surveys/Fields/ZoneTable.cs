using Valvewright.Engine.Ground;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Quantities;

namespace Valvewright.Files.Surveys.Fields;

/// <summary>The fields of a zone, of its soil and of the rules that apply to it.</summary>
internal static class ZoneTable
{
    private static readonly Dictionary<string, string> TexturesInSpanish = new()
    {
        ["sand"] = "Arenoso", ["loamy sand"] = "Arenoso franco", ["sandy loam"] = "Franco arenoso",
        ["loam"] = "Franco", ["silt loam"] = "Franco limoso",
        ["silt"] = "Limoso", ["sandy clay loam"] = "Franco arcillo arenoso",
        ["clay loam"] = "Franco arcilloso", ["silty clay loam"] = "Franco arcillo limoso",
        ["sandy clay"] = "Arcillo arenoso", ["silty clay"] = "Arcillo limoso", ["clay"] = "Arcilloso",
    };

    private static readonly WordList<string> Textures = new(
        [.. SoilTextures.Classes.Concat(SoilTextures.TakenAs.Keys).Select(t => (t, t, Bilingual.Capital(t), TexturesInSpanish[t]))])
    {
        Unknown = "Unknown soil texture",
    };

    private static readonly Bilingual FromTexture = new("from the texture", "según la textura");

    internal static readonly FieldGroup Soil = new("soil", null,
        new("texture", Textures)
        {
            Label = new("Texture", "Textura"), LeftOut = new("as the site's", "como la del sitio"),
            Help = new("Class of the USDA texture triangle.", "Clase del triángulo textural del USDA."),
        },
        new("sand", QuantityRule.Percent("a share of the soil", 0, 100, 0, 100))
        {
            Examples = ["40 %"], Label = new("Sand", "Arena"),
            Help = new(
                "With clay, instead of the texture (Saxton and Rawls 2006).",
                "Con la arcilla, en lugar de la textura (Saxton y Rawls 2006)."),
        },
        new("clay", QuantityRule.Percent("a share of the soil", 0, 100, 0, 100)) { Examples = ["20 %"], Label = new("Clay", "Arcilla") },
        new("organic matter", QuantityRule.Percent("organic matter", 0, 30, 0, 8))
        {
            Examples = ["2.5 %"], Label = new("Organic matter", "Materia orgánica"), LeftOut = new("2.5%", "2.5 %"),
            Assumed = ("2.5 %", "as in table 3 of Saxton & Rawls 2006"), Help = new("Percent by weight.", "Porcentaje en peso."),
        },
        new("available water", new SoilWaterKind())
        {
            Examples = ["150 mm/m", "1.8 in/ft"], Label = new("Available water", "Agua disponible"), LeftOut = FromTexture,
            Help = new(
                "Water between field capacity and wilting point, measured.",
                "Agua entre capacidad de campo y punto de marchitez, medida."),
        },
        new("intake", new QuantityRule("an intake rate", Units.MillimetrePerHour, Units.InchPerHour, 0.1, 500, 1, 60))
        {
            Examples = ["8 mm/h", "0.3 in/h"], Label = new("Intake rate", "Infiltración"), LeftOut = FromTexture,
            Help = new("Rate at which wet ground takes water in, measured.", "Rapidez con que el suelo mojado absorbe agua, medida."),
        },
        new("surface storage", RuleDepth)
        {
            Examples = ["6 mm", ".25 in"], Label = new("Surface storage", "Retención en la superficie"), LeftOut = FromTexture,
            Help = new(
                "Depth of water the surface holds before runoff starts.",
                "Lámina que puede quedar en la superficie antes de escurrir."),
        }) { IsOnOneLine = true };

    internal static readonly FieldGroup Rules = new("rules", null,
        SurveyField.Of<Zone, double>("largest depth per cycle", RuleDepth, (z, m) => z with { LargestDepthPerCycleMm = m * 1000 }) with
        {
            Examples = ["6 mm", ".25 in"], Label = new("Largest depth per cycle", "Mayor lámina por ciclo"),
            Help = new("The most that an ordinance allows in one cycle.", "Lo más que una norma permite en un ciclo."),
        },
        SurveyField.Of<Zone, double>("largest depth per day", RuleDepth, (z, m) => z with { LargestDepthPerDayMm = m * 1000 }) with
        {
            Examples = ["19 mm", ".75 in"], Label = new("Largest depth per day", "Mayor lámina por día"),
            Help = new("The most that an ordinance allows in one day.", "Lo más que una norma permite en un día."),
        }) { IsOnOneLine = true };

    internal static readonly FieldGroup Zone = new("zone", "a zone",
        new("station", new WholeKind(1, 48))
        {
            IsNeeded = true, Label = new("Station", "Estación"), Help = new("The controller's station.", "La estación del programador."),
        },
        new("name", new TextKind())
        {
            IsNeeded = true, Label = new("Name", "Nombre"),
            Help = new("Such as: Lawn by the gate.", "Por ejemplo: Césped junto al portón."),
        },
        new("area", new QuantityRule("an area", Units.SquareMetre, Units.SquareFoot, 0.05, 1_000_000, 0.5, 20_000))
        {
            IsNeeded = true, Examples = ["1,200 sq ft", "110 m2"], Label = new("Irrigated area", "Área regada"),
            Help = new("Pacing it off is close enough.", "Basta medirla a pasos."),
        },
        new("plants", new KeysKind(PlantTable.Plants, "kind"))
        {
            IsNeeded = true, Label = new("Plants", "Plantas"),
            Help = new("A kind of planting, or keys.", "Una clase de plantas, o claves."),
        },
        SlopeField(new("the site's, else 0%", "la del sitio, si no, 0 %")),
        SoilField(new("the site's, else loam", "el del sitio, si no, franco")),
        new("sprinklers", new KeysKind(SprinklerTable.Sprinklers) { Hint = "kind, and a rate or flow" })
        {
            IsNeeded = true, Label = new("Sprinklers or drip", "Aspersores o goteo"),
            Help = new("How the water comes out, how fast and how evenly.", "Cómo sale el agua, con qué rapidez y uniformidad."),
        },
        SurveyField.Of<Zone, PlantQuality>("quality", new WordList<PlantQuality>(
            ("high", PlantQuality.High, "High: show turf, flower beds", "Alta: césped de vista, flores"),
            ("normal", PlantQuality.Normal, "Normal: sound and green", "Normal: sano y verde"),
            ("acceptable", PlantQuality.Acceptable, "Acceptable: some browning in a dry spell", "Aceptable: algo seco en una sequía"),
            ("survival", PlantQuality.Survival, "Survival: alive, nothing more", "Supervivencia: vivo, nada más")), (z, quality) =>
                z with { Quality = quality }) with
        {
            Label = new("Quality", "Calidad"), LeftOut = new("normal", "normal"),
            Help = new(
                "How good it must look; decides how much dryness a plan may leave.",
                "Qué tan bien debe verse; decide cuánta sequedad puede dejar un plan."),
        },
        SurveyField.Of<Zone, double>(
            "shade", QuantityRule.Percent("shade", 0, 95, 0, 80), (z, percent) => z with { ShadeFraction = percent / 100 }) with
        {
            Examples = ["30 %"], Label = new("Shade", "Sombra"), LeftOut = new("0%", "0 %"),
            Help = new("Part of the day's sun that buildings or trees take away.", "Parte del sol del día que quitan edificios o árboles."),
        },
        new("rules", new KeysKind(Rules))
        {
            Label = new("Limits on depth", "Límites de lámina"),
            Help = new("Limits that an ordinance sets.", "Límites que fija una norma."),
        });

    private static QuantityRule RuleDepth => new("a depth of water", Units.Millimetre, Units.Inch, 0.0005, 0.5, 0.001, 0.1);

    internal static SurveyField SoilField(Bilingual leftOut) => new("soil", new KeysKind(Soil, "texture"))
    {
        Label = new("Soil", "Suelo"), LeftOut = leftOut,
        Help = new("A texture class, or keys with measured values.", "Una clase textural, o claves con valores medidos."),
    };

    internal static SurveyField SlopeField(Bilingual leftOut) => new("slope", QuantityRule.Percent("a slope", 0, 200, 0, 60))
    {
        Examples = ["4 %", "4"], Label = new("Slope", "Pendiente"), LeftOut = leftOut,
        Help = new("Rise over run.", "Subida entre distancia."),
    };
}
