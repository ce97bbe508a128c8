using Valvewright.Engine.Plants;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Files.Weather;
using Valvewright.Files.Weather.Fetch;

namespace Valvewright.Files.Surveys.Fields;

/// <summary>The fields of the site itself, of its place and of its weather.</summary>
internal static class SiteFields
{
    private static readonly Bilingual SeaLevel = new("the weather station's, else sea level", "la de la estación meteorológica, si no, el nivel del mar");

    internal static readonly FieldGroup Location = new("location", "a location",
        new("latitude", new DegreesKind("NS"))
        {
            IsNeeded = true, Examples = ["39.74", "33.1 S"], Label = new("Latitude", "Latitud"),
            Help = new("Degrees north; south is negative.", "Grados norte; el sur es negativo."),
        },
        new("longitude", new DegreesKind("EW"))
        {
            IsNeeded = true, Examples = ["-104.99", "18.4 E"], Label = new("Longitude", "Longitud"),
            Help = new("Degrees east; west is negative.", "Grados este; el oeste es negativo."),
        },
        new("elevation", new QuantityRule("an elevation", Units.Metre, Units.Foot, -450, 6000, -100, 4500))
        {
            Examples = ["120 m", "400"], Label = new("Elevation", "Altitud"), LeftOut = SeaLevel,
            Help = new("Height above sea level.", "Altura sobre el nivel del mar."),
        }) { IsOnOneLine = true };

    internal static readonly FieldGroup Weather = new("weather", null,
        new("file", new TextKind("a file"))
        {
            Label = new("Weather file", "Archivo meteorológico"),
            Help = new("The daily record, by its path from the survey's folder.", "El registro diario, por su ruta desde la carpeta del levantamiento."),
        },
        new("layout", WordsOf(WeatherLayouts.Words, "There is no such layout"))
        {
            Label = new("Layout", "Formato"), LeftOut = new("recognized from the content", "se reconoce por el contenido"),
            Help = new("The file's layout, where the content does not show it.", "El formato del archivo, si el contenido no lo muestra."),
        },
        new("service", WordsOf(WeatherServices.Words, "There is no such service"))
        {
            Label = new("Weather service", "Servicio meteorológico"),
            Help = new("In place of a file: the service to ask.", "En lugar de un archivo: el servicio que se consulta."),
        },
        new("source", new TextKind("who publishes it"))
        {
            Label = new("Publisher", "Quién lo publica"),
            Help = new("Who publishes the record and under which license; shown with every result.", "Quién publica el registro y con qué licencia; aparece con cada resultado."),
        },
        new("station", new KeysKind(Location))
        {
            Label = new("Weather station", "Estación meteorológica"), LeftOut = new("as the file says, else the site's place", "lo que dice el archivo, si no, el lugar del sitio"),
            Help = new("Where the station is.", "Dónde está la estación."),
        },
        new("wind height", new QuantityRule("the height of a wind gauge", Units.Metre, Units.Foot, 0.5, 100, 1.5, 12))
        {
            Examples = ["2 m"], Label = new("Wind gauge height", "Altura del anemómetro"), LeftOut = new("as the file says, else 2 m", "lo que dice el archivo, si no, 2 m"),
            Help = new("Height of the wind gauge above the ground.", "Altura del anemómetro sobre el suelo."),
        },
        new("moved half a year", new YesNoKind())
        {
            Label = new("Moved half a year", "Movido medio año"), LeftOut = new("no", "no"),
            Help = new(
                "The record is from the other hemisphere: move it by 181 days to the opposite latitude. It is not the site's weather, and every result says so.",
                "El registro es del otro hemisferio: se mueve 181 días a la latitud opuesta. No es el clima del sitio, y cada resultado lo dice."),
        }) { OneOf = ["file", "service"] };

    internal static readonly FieldGroup Site = new("site", "a site",
        new("site", new TextKind())
        {
            IsNeeded = true, Label = new("Site name", "Nombre del sitio"), Help = new("The name people use.", "Como lo llama la gente."),
        },
        new("location", new KeysKind(Location) { Hint = "latitude, longitude and elevation" })
        {
            IsNeeded = true, Label = new("Location", "Ubicación"),
            Help = new("Day length and weather depend on it. Checked against the time zone.", "De ella dependen la duración del día y el clima. Se compara con la zona horaria."),
        },
        new("time zone", new TimeZoneKind())
        {
            IsNeeded = true, Examples = ["America/Denver", "Europe/Madrid"], Label = new("Time zone", "Zona horaria"),
            Help = new("The IANA name, such as America/Denver.", "El nombre IANA, por ejemplo America/Bogota."),
        },
        new("units", new WordList<UnitSystem>(("metric", UnitSystem.Metric, "Metric", "Métricas"), ("us", UnitSystem.UsCustomary, "US customary", "De EE. UU.")))
        {
            Label = new("Units", "Unidades"), LeftOut = new("metric", "métricas"), Assumed = ("metric", "the survey names none"),
            Help = new("Units of plain numbers and of everything shown.", "Unidades de los números sin unidad y de todo lo que se muestra."),
        },
        new("clock", new WordList<ClockStyle>(("24 hours", ClockStyle.Hours24, "16:30", "16:30"), ("12 hours", ClockStyle.Hours12, "4:30 pm", "4:30 pm")))
        {
            Label = new("Times", "Horas"), LeftOut = new("as usual with the units", "lo usual con las unidades"),
            Help = new("How times of day are shown.", "Cómo se muestran las horas del día."),
        },
        new("climate", new WordList<AirClimate>(("dry", AirClimate.Dry, "Dry", "Seco"), ("humid", AirClimate.Humid, "Humid", "Húmedo")))
        {
            Label = new("Climate", "Clima"), LeftOut = new("dry", "seco"),
            Help = new("Air in the growing season; some plant factors depend on it.", "Aire en la época de crecimiento; de él dependen algunos factores de planta."),
        },
        new("weather", new KeysKind(Weather))
        {
            Label = new("Weather", "Tiempo"), LeftOut = new("the command asks for it", "el comando lo pide"),
            Help = new("Where the daily weather record comes from.", "De dónde viene el registro meteorológico diario."),
        },
        ZoneFields.SoilField(new("loam", "franco")),
        ZoneFields.SlopeField(new("0%", "0 %")),
        new("profiles", new ListKind(new KeysKind(ControllerFields.Profile), TakesOne: false))
        {
            Label = new("Profiles", "Perfiles"),
            Help = new("Profiles read off manuals, each with a name, for controllers to use.", "Perfiles leídos de manuales, cada uno con nombre, para los programadores."),
        },
        new("supplies", new ListKind(new KeysKind(SupplyFields.Supply), TakesOne: false) { Hint = "a list of supplies" })
        {
            IsNeeded = true, Label = new("Water supplies", "Suministros de agua"),
            Help = new("Pipes, tanks and meters. Controllers on one supply share its flow.", "Tuberías, tanques y medidores. Los programadores de un suministro comparten su caudal."),
        },
        new("controllers", new ListKind(new KeysKind(ControllerFields.Controller), TakesOne: false) { Hint = "a list of controllers" })
        {
            IsNeeded = true, Label = new("Controllers", "Programadores"),
            Help = new("Each battery controller with its zones.", "Cada programador de pilas con sus zonas."),
        });

    private static WordList<string> WordsOf(IEnumerable<string> words, string unknown) =>
        new([.. words.Select(word => (word, word, word, word))]) { Unknown = unknown };
}
