using Valvewright.Engine.Plants;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Weather;
using Valvewright.Files.Weather.Fetch;

namespace Valvewright.Files.Surveys.Fields;

/// <summary>The fields of where the weather comes from and how reference evapotranspiration is found.</summary>
internal static class WeatherTable
{
    private static readonly Dictionary<string, string> ColumnsInSpanish = new()
    {
        ["date"] = "Fecha", ["year"] = "Año", ["month"] = "Mes", ["day"] = "Día", ["day of year"] = "Día del año",
            ["tmax"] = "Temperatura máxima", ["tmin"] = "Temperatura mínima",
        ["rain"] = "Lluvia", ["rh max"] = "Humedad máxima", ["rh min"] = "Humedad mínima", ["rh mean"] = "Humedad media",
            ["vapor pressure"] = "Presión de vapor",
        ["dew point"] = "Punto de rocío", ["radiation"] = "Radiación", ["sunshine"] = "Horas de sol", ["wind"] = "Viento", ["eto"] = "ETo",
            ["missing"] = "Sin dato", ["decimal"] = "Decimal",
    };

    private static readonly QuantityRule WindSpeed = new("a wind speed", Units.MetrePerSecond, Units.MilePerHour, 0, 15, 0, 8);

    internal static readonly FieldGroup Eto = new("eto", "the choices for ETo",
        SurveyField.Of<EtoOptions, double>(
            "radiation floor", new NumberKind("a ratio", 0, 1), (o, v) => o with { RelativeShortwaveFloor = v }) with
        {
            Examples = ["0"], Label = new("Radiation floor", "Mínimo de radiación"),
            LeftOut = new("0.3 (ASCE-EWRI 2005)", "0.3 (ASCE-EWRI 2005)"),
            Help = new(
                "Least Rs/Rso in the long-wave term; 0 for none.",
                "El menor Rs/Rso en el término de onda larga; 0 si no hay mínimo."),
        },
        SurveyField.Of<EtoOptions, ClearSkyForm>(
            "clear sky", new WordList<ClearSkyForm>(("simple", ClearSkyForm.Simple, "From elevation", "Según la altitud"),
                ("full", ClearSkyForm.Full, "Also from humidity and the sun's height", "También según la humedad y la altura del sol")),
                    (o, v) => o with { ClearSky = v }) with
        {
            Label = new("Clear sky", "Cielo despejado"), LeftOut = new("simple", "simple"),
            Help = new(
                "How clear-sky radiation is found: FAO-56 eq. 37, or ASCE-EWRI 2005 appendix D.",
                "Cómo se calcula la radiación con cielo despejado: FAO-56 ec. 37, o apéndice D de ASCE-EWRI 2005."),
        },
        new("humidity from", new ListKind(new WordList<VapourSource>(
            ("vapor pressure", VapourSource.VapourPressure, "Vapor pressure", "Presión de vapor"),
                ("dew point", VapourSource.DewPoint, "Dew point", "Punto de rocío"),
            ("humidity range", VapourSource.HumidityRange, "Highest and lowest humidity", "Humedad máxima y mínima"),
                ("highest humidity", VapourSource.HighestHumidity, "Highest humidity", "Humedad máxima"),
            ("mean humidity", VapourSource.MeanHumidity, "Mean humidity", "Humedad media"))))
        {
            Label = new("Humidity from", "Humedad según"),
            LeftOut = new("the best that a day has, in this order", "lo mejor que tenga el día, en este orden"),
            Help = new(
                "What vapor pressure is found from: the first of these that a day has.",
                "De qué se obtiene la presión de vapor: lo primero de la lista que tenga el día."),
        },
        SurveyField.Of<EtoOptions, double>("albedo", new NumberKind("a ratio", 0, 1), (o, v) => o with { Albedo = v }) with
        {
            Label = new("Albedo", "Albedo"), LeftOut = new("0.23", "0.23"),
            Help = new("Part of radiation that the reference grass reflects.", "Parte de la radiación que refleja el pasto de referencia."),
        },
        SurveyField.Of<EtoOptions, double>("angstrom a", new NumberKind("a ratio", 0, 1), (o, v) => o with { AngstromOvercast = v }) with
        {
            Label = new("Angstrom's a", "a de Angstrom"), LeftOut = new("0.25", "0.25"),
            Help = new(
                "Radiation from hours of sunshine: the part under an overcast sky.",
                "Radiación según las horas de sol: la parte con cielo cubierto."),
        },
        SurveyField.Of<EtoOptions, double>("angstrom b", new NumberKind("a ratio", 0, 1), (o, v) => o with { AngstromSunshine = v }) with
        {
            Label = new("Angstrom's b", "b de Angstrom"), LeftOut = new("0.50", "0.50"),
            Help = new(
                "Radiation from hours of sunshine: what full sunshine adds.",
                "Radiación según las horas de sol: lo que añade el sol pleno."),
        },
        SurveyField.Of<EtoOptions, double>(
            "temperature range factor", new NumberKind("a factor", 0.05, 0.4), (o, v) => o with { TemperatureRangeFactor = v }) with
        {
            Examples = ["0.19"], Label = new("Temperature range factor", "Factor de la amplitud térmica"), LeftOut = new("0.16", "0.16"),
            Help = new(
                "Radiation that is not measured (FAO-56 eq. 50): 0.16 inland, 0.19 on a coast.",
                "Radiación que no se mide (FAO-56 ec. 50): 0.16 en el interior, 0.19 en la costa."),
        },
        SurveyField.Of<EtoOptions, double>(
            "dew point below tmin", new NumberKind("a difference in K", 0, 15), (o, v) => o with { DewPointBelowTminK = v }) with
        {
            Label = new("Dew point below Tmin", "Punto de rocío bajo Tmin"), LeftOut = new("0 K", "0 K"),
            Help = new("Humidity that is not measured: 2 to 3 K in a dry climate.", "Humedad que no se mide: de 2 a 3 K en clima seco."),
        },
        SurveyField.Of<EtoOptions, double>("assumed wind", WindSpeed, (o, v) => o with { AssumedWindMs = v }) with
        {
            Label = new("Assumed wind", "Viento supuesto"),
            LeftOut = new("the mean of the record, else 2 m/s", "la media del registro; si no, 2 m/s"),
            Help = new("Wind at the standard height where none is measured.", "Viento a la altura normalizada donde no se mide."),
        },
        SurveyField.Of<EtoOptions, double>("least wind", WindSpeed, (o, v) => o with { LeastWindMs = v }) with
        {
            Label = new("Least wind", "Viento mínimo"), LeftOut = new("0", "0"),
            Help = new(
                "Least wind at the standard height; FAO-56 advises 0.5 m/s (1.1 mph) for still places.",
                "El menor viento a la altura normalizada; FAO-56 aconseja 0.5 m/s en lugares sin viento."),
        },
        SurveyField.Of<EtoOptions, TemperatureOnlyForm>(
            "temperatures alone", new WordList<TemperatureOnlyForm>(
                ("hargreaves-samani", TemperatureOnlyForm.HargreavesSamani, "Hargreaves-Samani", "Hargreaves-Samani"),
                    ("penman-monteith", TemperatureOnlyForm.PenmanMonteith, "Penman-Monteith", "Penman-Monteith")), (o, v) =>
                        o with { TemperatureOnly = v }) with
        {
            Label = new("Temperatures alone", "Solo temperaturas"), LeftOut = new("hargreaves-samani", "hargreaves-samani"),
            Help = new("The formula for days with temperatures and nothing else.", "La fórmula para días con solo temperaturas."),
        });

    internal static readonly FieldGroup Columns = new("columns", "the columns of a weather file",
        [.. ColumnMap.Words.Select(word => new SurveyField(word, new TextKind("a column's header with its unit in brackets"))
    {
        Label = new(char.ToUpperInvariant(word[0]) + word[1..], ColumnsInSpanish[word]),
    })]);

    internal static readonly FieldGroup Weather = new("weather", null,
        new("file", new TextKind("a file"))
        {
            Label = new("Weather file", "Archivo meteorológico"),
            Help = new(
                "The daily record, by its path from the survey's folder.",
                "El registro diario, por su ruta desde la carpeta de los datos del sitio."),
        },
        new("layout", WordsOf(WeatherLayouts.Words, "Unknown layout"))
        {
            Label = new("Layout", "Formato"), LeftOut = new("recognized from the content", "se reconoce por el contenido"),
            Help = new("The file's layout, where the content does not show it.", "El formato del archivo, si el contenido no lo muestra."),
        },
        new("service", WordsOf(WeatherServices.Words, "Unknown service"))
        {
            Label = new("Weather service", "Servicio meteorológico"),
            Help = new("In place of a file: the service to ask.", "En lugar de un archivo: el servicio que se consulta."),
        },
        new("source", new TextKind("who publishes it"))
        {
            Label = new("Publisher", "Quién lo publica"),
            Help = new(
                "Who publishes the record and under which license; shown with every result.",
                "Quién publica el registro y con qué licencia; aparece con cada resultado."),
        },
        new("station", new KeysKind(PlaceTable.Location))
        {
            Label = new("Weather station", "Estación meteorológica"),
            LeftOut = new("as the file says, else the site's place", "lo que dice el archivo, si no, el lugar del sitio"),
            Help = new("Where the station is.", "Dónde está la estación."),
        },
        new("wind height", new QuantityRule("the height of a wind gauge", Units.Metre, Units.Foot, 0.5, 100, 1.5, 12))
        {
            Examples = ["2 m", "6.6 ft"], Label = new("Wind gauge height", "Altura del anemómetro"),
            LeftOut = new("as the file says; needed where it does not", "lo que dice el archivo; hace falta si no lo dice"),
            Help = new("Height of the wind gauge above the ground.", "Altura del anemómetro sobre el suelo."),
        },
        new("columns", new KeysKind(Columns))
        {
            Label = new("Columns", "Columnas"), LeftOut = new("as the file's layout has them", "las del formato del archivo"),
            Help = new(
                "For a table that no layout knows: which column is what, with its unit in brackets.",
                "Para una tabla de formato desconocido: qué es cada columna, con su unidad entre corchetes."),
        },
        new("eto", new KeysKind(Eto))
        {
            Label = new("ETo options", "Opciones de ETo"), LeftOut = new("ASCE-EWRI 2005", "ASCE-EWRI 2005"),
            Help = new(
                "Choices for reference evapotranspiration on which agencies differ.",
                "Elecciones para la evapotranspiración de referencia en que difieren los servicios."),
        },
        new("moved half a year", new YesNoKind())
        {
            Label = new("Moved half a year", "Movido medio año"), LeftOut = new("no", "no"),
            Help = new(
                "The record is from the other hemisphere: move it by 181 days. It is not the site's weather, and every result says so.",
                "El registro es del otro hemisferio: se mueve 181 días. No es el clima del sitio, y cada resultado lo dice."),
        }) { OneOf = ["file", "service"] };

    private static WordList<string> WordsOf(IEnumerable<string> words, string unknown) =>
        new([.. words.Select(word => (word, word, word, word))]) { Unknown = unknown };
}
