using System.Collections.Frozen;

namespace Valvewright.Engine.Readings.Spoken;

/// <summary>The words of a reading, English and Spanish side by side: anyone who dictates may mix them.</summary>
internal static class Lexicon
{
    /// <summary>Shorter words are not taken for misspelt ones: too many words are near.</summary>
    private const int ShortestMisspelt = 4;

    private static readonly (Sense Sense, string Words)[] Rows =
    [
        (Sense.Program, "program programs prog progs pgm prgm programme programa programas"),
        (Sense.Start, "start starts started starting begin begins beginning arranque arranques arranca arrancan inicio inicios inicia " +
            "inician empieza empiezan comienza comienzan comienzo entra"),
        (Sense.Station,
            "station stations sta stas stn stns st zone zones valve valves estacion estaciones est zona zonas valvula valvulas s e z"),
        (Sense.Run, "run runs runtime runtimes running duration durations duracion duraciones riega riegan regar riego riegos water " +
            "waters watering watered goes irrigates"),
        (Sense.Day, "day days water-days waterdays date dates dia dias fecha fechas"),
        (Sense.Percent, "percent percentage pct % porcentaje porciento"),
        (Sense.Adjust, "season seasonal seasonally adjust adjustment adjusted budget percent percentage pct ajuste estacional " +
            "presupuesto porcentaje temporada"),
        (Sense.Clock, "clock display reloj pantalla"),
        (Sense.Time, "time times hora horas tiempo tiempos"),
        (Sense.Says, "says say reads read shows show showing reading displays marca marcan dice dicen muestra pone tiene shown puesto"),
        (Sense.Now, "now today ahora hoy actually"),
        (Sense.Controller, "controller controllers controlador programador timer unit aparato box caja equipo system sistema"),
        (Sense.Whole, "it it's its everything thing todo that's"),
        (Sense.Off, "off apagado apagada apagados apagadas desconectado desactivado desactivada"),
        (Sense.On, "on automatic auto encendido encendida prendido prendida automatico activado activada"),
        (Sense.Rain, "rain lluvia lluvias"),
        (Sense.Hold, "hold delay pause pausa retraso retardo espera demora rain-hold suspension"),
        (Sense.None, "none no nothing empty blank zero ninguno ninguna nada vacio vacia vacios sin cero blanco"),
        (Sense.Not, "not no isn't doesn't don't won't never wasn't aren't nunca tampoco sin without"),
        (Sense.Used, "used use usa using using programmed set usado"),
        (Sense.Every, "every each cada intervalo interval"),
        (Sense.All, "all every each both todas todos toda cada ambas ambos"),
        (Sense.Each, "each apiece cada una uno every"),
        (Sense.Other, "other alternate otro alterno alternos"),
        (Sense.Odd, "odd odds impar impares"),
        (Sense.Even, "even evens par pares"),
        (Sense.Daily, "daily everyday diario diariamente diaria"),
        (Sense.Left, "left remaining togo faltan falta quedan queda restan"),
        (Sense.Next, "next due from since proximo proxima desde toca tocan siguiente"),
        (Sense.Interval, "interval intervalo"),
        (Sense.Weekdays, "weekdays weekday workdays laborables laborales habiles"),
        (Sense.Weekend, "weekend weekends"),
        (Sense.Week, "week semana semanas"),
        (Sense.Except, "except excepting but excepto menos salvo minus skip skips skipping"),
        (Sense.Through, "to through thru till until - a al hasta"),
        (Sense.Am, "am a morning mornings manana madrugada"),
        (Sense.Pm, "pm p evening afternoon afternoons tarde"),
        (Sense.Night, "night nights tonight noche"),
        (Sense.Noon, "noon midday mediodia"),
        (Sense.Midnight, "midnight medianoche"),
        (Sense.Minute, "min mins minute minutes minuto minutos m '"),
        (Sense.Hour, "h hr hrs hour hours hora horas"),
        (Sense.Second, "s sec secs second seconds seg segs segundo segundos \""),
        (Sense.Half, "half media medio"),
        (Sense.Quarter, "quarter quarters cuarto cuartos"),
        (Sense.Past, "past after pasadas"),
        (Sense.Before, "to before till of menos para"),
        (Sense.Oclock, "o'clock oclock"),
        (Sense.And, "and y e & plus then luego"),
        (Sense.Article, "the a an el la los las lo un una"),
        (Sense.Of, "of on in for to with de del en para por al with"),
        (Sense.At, "at al a @"),
        (Sense.Is, "is are be was has have had it's there's that's gets get been being esta estan es son tiene tienen hay va van queda " +
            "se shows says there goes runs comes iba"),
        (Sense.Yes, "yes si"),
        (Sense.Hedge, "maybe perhaps probably possibly about around approximately roughly think thinks guess guesses supposedly seems ? " +
            "or o unos unas como creo cree quiza quizas parece supongo aproximadamente unsure"),
        (Sense.Correction, "sorry wait perdon digo mean scratch correction correccion rather mejor"),
        (Sense.Filler, "and y the a an at is are was it of to for with in on that that's this there there's its it's i i'm we we're he " +
            "he's she they so ok okay well um uh er hi hello yeah has have gets get set "
            + "el la los las lo es son de del con un una se e o' al en a por eso este esta esto aqui hay tiene tienen bueno mire mira " +
                "pues hola si ya ver "
            + "only just here right also then both solo solamente tambien mismo two's one's looking standing see only looks been starts' " +
                "water watering waters runs run goes go comes come get "
            + "riega riegan riego regar va van times time set single sola estoy viendo now today says shows reads show y/o : = ( ) - / # " +
                "=> > \" ' . * too please puesto otro otra one another"),
    ];

    private static readonly FrozenDictionary<string, Sense[]> Senses = Rows
        .SelectMany(row => row.Words.Split(' ', StringSplitOptions.RemoveEmptyEntries).Distinct().Select(word => (word, row.Sense)))
        .GroupBy(pair => pair.word).ToFrozenDictionary(
            pair => pair.Key, pair => pair.Select(p => p.Sense).ToArray(), StringComparer.Ordinal);

    private static readonly string[] Spellings = [.. Senses.Keys.Concat(CalendarNames.Names).Concat(Numerals.Names)
        .Where(w => w.Length >= ShortestMisspelt && w.All(char.IsLetter)).Distinct().Order(StringComparer.Ordinal)];

    /// <summary>What a word can mean; nothing for an unknown one. Names of days, months and numbers are no senses, yet known.</summary>
    public static IReadOnlyList<Sense> SensesOf(string word) => Senses.TryGetValue(Bare(word), out Sense[]? senses) ? senses : [];

    /// <summary>"clock's" is "clock", unless the whole of it is a word of its own.</summary>
    private static string Bare(string word) => word.Length > 3 && word.EndsWith("'s", StringComparison.Ordinal) && !Senses.ContainsKey(word)
        ? word[..^2] : word;

    /// <summary>Words that announce a setting, and names of days: what a word that was left out is compared with.</summary>
    public static IEnumerable<string> Announcing => Spellings;

    /// <summary>Whether it is a word of the vocabulary.</summary>
    public static bool Knows(string word) => Senses.ContainsKey(Bare(word)) || CalendarNames.Knows(word) || Numerals.Knows(word);

    /// <summary>The known word that an unknown one may be a misspelling of; null where none is near enough.</summary>
    public static string? NearestTo(string word)
    {
        if (word.Length < ShortestMisspelt || Knows(word))
        {
            return null;
        }

        int allowed = word.Length >= 6 ? 2 : 1;
        string? best = null;
        int fewest = allowed + 1;
        foreach (string known in Spellings)
        {
            if (Math.Abs(known.Length - word.Length) <= allowed && Engine.Words.NearestWord.Edits(word, known) is var edits
                && edits < fewest && known[0] == word[0] | edits == 1)
            {
                (best, fewest) = (known, edits);
            }
        }

        return best;
    }
}
