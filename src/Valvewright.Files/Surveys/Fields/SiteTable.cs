using Valvewright.Engine.Plants;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Weather;
using Valvewright.Files.Weather.Fetch;

namespace Valvewright.Files.Surveys.Fields;

/// <summary>The fields of the site itself and of its place.</summary>
internal static class SiteTable
{
    internal static readonly FieldGroup Site = new("site", "a site",
        new("site", new TextKind())
        {
            IsNeeded = true, Label = new("Site name", "Nombre del sitio"), Help = new("The name people use.", "Como lo llama la gente."),
        },
        new("location", new KeysKind(PlaceTable.Location) { Hint = "latitude, longitude and elevation" })
        {
            IsNeeded = true, Label = new("Location", "Ubicación"),
            Help = new(
                "Day length and weather depend on it. Checked against the time zone.",
                "De ella dependen la duración del día y el clima. Se compara con la zona horaria."),
        },
        new("time zone", new TimeZoneKind())
        {
            IsNeeded = true, Examples = ["America/Denver", "Europe/Madrid"], Label = new("Time zone", "Zona horaria"),
            Help = new("The IANA name, such as America/Denver.", "El nombre IANA, por ejemplo America/Bogota."),
        },
        new("units", new WordList<UnitSystem>(
            ("metric", UnitSystem.Metric, "Metric", "Métricas"), ("us", UnitSystem.UsCustomary, "US customary", "De EE. UU.")))
        {
            Label = new("Units", "Unidades"), LeftOut = new("metric", "métricas"), Assumed = ("metric", "the survey names none"),
            Help = new(
                "Units of plain numbers and of everything shown.",
                "Unidades de los números sin unidad y de todo lo que se muestra."),
        },
        new("clock", new WordList<ClockStyle>(
            ("24 hours", ClockStyle.Hours24, "16:30", "16:30"), ("12 hours", ClockStyle.Hours12, "4:30 pm", "4:30 pm")))
        {
            Label = new("Times", "Horas"), LeftOut = new("as usual with the units", "lo usual con las unidades"),
            Help = new("How times of day are shown.", "Cómo se muestran las horas del día."),
        },
        new("climate", new WordList<AirClimate>(("dry", AirClimate.Dry, "Dry", "Seco"), ("humid", AirClimate.Humid, "Humid", "Húmedo")))
        {
            Label = new("Climate", "Clima"), LeftOut = new("from the weather record", "según el registro meteorológico"),
            Help = new(
                "Air in the growing season; plant factors of trees, shrubs and beds depend on it.",
                "Aire en la época de crecimiento; de él dependen los factores de árboles, arbustos y macizos."),
        },
        new("monthly coefficients", new WordList<bool>(("california", true, "California's, by month", "Las de California, por mes"),
            ("flat", false, "The same all year", "Iguales todo el año")))
        {
            Label = new("Turf coefficients", "Coeficientes del césped"),
                LeftOut = new("california in California, flat elsewhere", "por mes en California, iguales fuera de ella"),
            Help = new(
                "Turf by month as measured in California (Meyer et al. 1985), or one plant factor all year (ANSI/ASABE S623).",
                "Césped por mes según se midió en California (Meyer et al. 1985), o un factor de planta todo el año (ANSI/ASABE S623)."),
        },
        SurveyField.Of<Site, double>(
            "weight of unmet use", new NumberKind("a weight", 1, 50), (site, weight) => site with { UnmetUseWeight = weight }) with
        {
            Examples = ["4"], Label = new("Weight of unmet use", "Peso del consumo no cubierto"), LeftOut = new("4", "4"),
            Help = new(
                "Parts of water worth spending to save one part of plant use, at normal quality.",
                "Partes de agua que vale la pena gastar para cubrir una parte del consumo de las plantas, con calidad normal."),
        },
        new("soil evening", new NumberKind("a share", 0, 1))
        {
            Examples = ["0.4"], Label = new("Soil evening", "Compensación del suelo"), LeftOut = new("0.4", "0.4"),
            Help = new(
                "The low quarter receives this share of the mean depth plus the rest times DUlq; 0 takes the cans as they are.",
                "El cuarto más seco recibe esta parte de la lámina media más el resto por DU; 0 toma los recipientes como están."),
        },
        new("weather", new KeysKind(WeatherTable.Weather))
        {
            Label = new("Weather", "Tiempo"), LeftOut = new("the command asks for it", "el comando lo pide"),
            Help = new("Where the daily weather record comes from.", "De dónde viene el registro meteorológico diario."),
        },
        ZoneTable.SoilField(new("loam", "franco")),
        ZoneTable.SlopeField(new("0%", "0 %")),
        new("profiles", new ListKind(new KeysKind(ControllerTable.Profile), TakesOne: false))
        {
            Label = new("Profiles", "Perfiles"),
            Help = new(
                "Profiles read off manuals, each with a name, for controllers to use.",
                "Perfiles leídos de manuales, cada uno con nombre, para los programadores."),
        },
        new("supplies", new ListKind(new KeysKind(SupplyFields.Supply), TakesOne: false) { Hint = "a list of supplies" })
        {
            IsNeeded = true, Label = new("Water supplies", "Suministros de agua"),
            Help = new(
                "Pipes, tanks and meters. Controllers on one supply share its flow.",
                "Tuberías, tanques y medidores. Los programadores de un suministro comparten su caudal."),
        },
        new("controllers", new ListKind(new KeysKind(ControllerTable.Controller), TakesOne: false) { Hint = "a list of controllers" })
        {
            IsNeeded = true, Label = new("Controllers", "Programadores"),
            Help = new("Each battery controller with its zones.", "Cada programador de pilas con sus zonas."),
        });
}
