using NodaTime;

namespace Valvewright.Engine.Readings;

/// <summary>What a word of a reading announces.</summary>
internal enum Sense
{
    /// <summary>"program".</summary>
    Program,

    /// <summary>"starts".</summary>
    Starts,

    /// <summary>"run", "station".</summary>
    Station,

    /// <summary>"days".</summary>
    Days,

    /// <summary>"percent".</summary>
    Percent,

    /// <summary>"clock".</summary>
    Clock,

    /// <summary>"read at".</summary>
    ReadAt,

    /// <summary>"controller".</summary>
    Controller,

    /// <summary>"off".</summary>
    Off,

    /// <summary>"on", "auto".</summary>
    On,

    /// <summary>"hold".</summary>
    Hold,

    /// <summary>"none", "empty", "-".</summary>
    None,

    /// <summary>"every", before a number.</summary>
    Every,

    /// <summary>"odd".</summary>
    Odd,

    /// <summary>"even".</summary>
    Even,

    /// <summary>"daily".</summary>
    Daily,

    /// <summary>"left", after a number.</summary>
    Left,

    /// <summary>"next", before a date.</summary>
    Next,

    /// <summary>"am".</summary>
    Am,

    /// <summary>"pm".</summary>
    Pm,

    /// <summary>"noon".</summary>
    Noon,

    /// <summary>"midnight".</summary>
    Midnight,

    /// <summary>"minutes", after a number.</summary>
    Minutes,

    /// <summary>"hours", after a number.</summary>
    Hours,

    /// <summary>"seconds", after a number.</summary>
    Seconds,

    /// <summary>A word that says nothing: "and", "the".</summary>
    Filler,
}

/// <summary>The words of a reading, English and Spanish side by side: whoever dictates may mix them.</summary>
internal static class Lexicon
{
    private static readonly Dictionary<string, Sense> Senses = Build(
        (Sense.Program, "program prog programme programa"),
        (Sense.Starts, "start starts started starting begins begin arranque arranques inicio inicios empieza hora horas-de-inicio"),
        (Sense.Station, "station stations sta stn run runs runtime runtimes zone zones valve valves estacion estaciones est riego riegos zona zonas"),
        (Sense.Days, "day days water-days waterdays dia dias"),
        (Sense.Percent, "percent percentage pct adjust adjustment % porcentaje porciento ajuste"),
        (Sense.Clock, "clock shows reloj muestra"),
        (Sense.ReadAt, "now actually real ahora"),
        (Sense.Controller, "controller controlador programador"),
        (Sense.Off, "off apagado"),
        (Sense.On, "on automatic encendido automatico"),
        (Sense.Hold, "hold rain-hold lluvia pausa"),
        (Sense.None, "none no nothing empty blank - -- --:-- ninguno ninguna nada vacio sin"),
        (Sense.Every, "every each interval cada intervalo"),
        (Sense.Odd, "odd odds impar impares"),
        (Sense.Even, "even evens par pares"),
        (Sense.Daily, "daily everyday all diario todos"),
        (Sense.Left, "left remaining togo faltan quedan restan"),
        (Sense.Next, "next from since proximo desde"),
        (Sense.Am, "am a.m a.m. morning manana"),
        (Sense.Pm, "pm p.m p.m. evening afternoon tarde noche"),
        (Sense.Noon, "noon midday mediodia"),
        (Sense.Midnight, "midnight medianoche"),
        (Sense.Minutes, "min mins minute minutes minuto minutos m '"),
        (Sense.Hours, "h hr hrs hour hours"),
        (Sense.Seconds, "s sec secs second seconds seg segundos"),
        (Sense.Filler, "and y the a at is are it to of for with in time times rain it's al el la los las es son de del con un una se o e set times: =>"));

    private static readonly Dictionary<string, IsoDayOfWeek> Weekdays = BuildWeekdays();

    private static readonly Dictionary<string, int> Months = BuildMonths();

    /// <summary>All words that mean something, for the nearest valid one.</summary>
    public static IEnumerable<string> Known => Senses.Where(s => s.Value != Sense.Filler && s.Key.Length > 1).Select(s => s.Key)
        .Concat(Weekdays.Keys.Where(w => w.Length > 2)).Order(StringComparer.Ordinal);

    /// <summary>What the word announces; null for none.</summary>
    public static Sense? SenseOf(string word) => Senses.TryGetValue(word, out Sense sense) ? sense : null;

    /// <summary>The weekday that a word of two or more letters names; null for none.</summary>
    public static IsoDayOfWeek? WeekdayOf(string word) => Weekdays.TryGetValue(word, out IsoDayOfWeek day) ? day : null;

    /// <summary>The month a word names, 1 to 12; null for none.</summary>
    public static int? MonthOf(string word) => Months.TryGetValue(word, out int month) ? month : null;

    private static Dictionary<string, Sense> Build(params (Sense Sense, string Words)[] rows) =>
        rows.SelectMany(row => row.Words.Split(' ').Distinct().Select(word => (word, row.Sense)))
            .GroupBy(pair => pair.word).ToDictionary(pair => pair.Key, pair => pair.First().Sense);

    private static Dictionary<string, IsoDayOfWeek> BuildWeekdays()
    {
        string[] words =
        [
            "mo mon monday mondays lu lun lunes",
            "tu tue tues tuesday tuesdays mar martes",
            "we wed weds wednesday wednesdays mi mie mier miercoles",
            "th thu thur thurs thursday thursdays ju jue jueves",
            "fr fri friday fridays vi vie viernes",
            "sa sat saturday saturdays sab sabado sabados",
            "su sun sunday sundays dom domingo domingos",
        ];
        return words.SelectMany((row, index) => row.Split(' ').Select(word => (word, day: (IsoDayOfWeek)(index + 1))))
            .ToDictionary(pair => pair.word, pair => pair.day);
    }

    private static Dictionary<string, int> BuildMonths()
    {
        string[] words =
        [
            "jan january ene enero", "feb february febrero", "march marzo", "apr april abr abril", "may mayo", "jun june junio",
            "jul july julio", "aug august ago agosto", "sep sept september septiembre", "oct october octubre",
            "nov november noviembre", "dec december dic diciembre",
        ];
        return words.SelectMany((row, index) => row.Split(' ').Select(word => (word, index + 1))).ToDictionary(pair => pair.word, pair => pair.Item2);
    }
}
