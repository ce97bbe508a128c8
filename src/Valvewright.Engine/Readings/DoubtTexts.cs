using System.Collections.Frozen;

namespace Valvewright.Engine.Readings;

/// <summary>What is said of doubts, English and Spanish side by side; a test holds both to the same places.</summary>
internal static class DoubtTexts
{
    /// <summary>Spanish by the English text.</summary>
    public static FrozenDictionary<string, string> Spanish { get; } = OfReadings().Concat(OfParts()).Concat(OfSeen()).ToFrozenDictionary(t => t.English, t => t.Spanish, StringComparer.Ordinal);

    private static (string English, string Spanish)[] OfReadings() =>
    [
        ("Not understood; left out{0}", "No se entendió; se dejó fuera{0}"),
        ("Left out: {0}{1}", "Se dejó fuera: {0}{1}"),
        (", and with it the start times of program {0}, which are not whole", ", y con ello las horas de inicio del programa {0}, que no están completas"),
        (", and with it the water days of program {0}, which are not whole", ", y con ello los días de riego del programa {0}, que no están completos"),
        ("Only the first {0} characters were read", "Solo se leyeron los primeros {0} caracteres"),
        ("neither a time nor a day follows", "no sigue ni una hora ni un día"),
        ("That date is a {0}", "Esa fecha es {0}"),
        ("when it was read needs a date and a time", "para decir cuándo se leyó hacen falta fecha y hora"),
        ("Day first or month first", "El día primero o el mes primero"),
        ("this is no date", "esto no es una fecha"),
        ("T and S each stand for two days; left out", "La T y la S valen cada una por dos días en inglés; se dejó fuera"),
        ("it stands alone", "está solo"),
        ("This controller's longest interval is {0} days", "El intervalo más largo de este programador es de {0} días"),
        ("every how many days is missing", "falta cada cuántos días"),
        ("how many days are left is missing", "falta cuántos días quedan"),
        ("Days left belong to an interval, and none was said", "Los días que faltan son de un intervalo, y no se dijo ninguno"),
        ("Of every {0} days at most {1} can be left", "De cada {0} días pueden faltar {1} como mucho"),
        ("a date is missing after it", "falta una fecha detrás"),
        ("Two kinds of water days for one program; the later one was taken", "Dos clases de días de riego en un programa; se tomó la última"),
        ("This controller does not offer such water days", "Este programador no ofrece esos días de riego"),
        ("a station without a run time", "una estación sin tiempo de riego"),
        ("this is no run time", "esto no es un tiempo de riego"),
        ("stations here are 1 to {0}", "aquí las estaciones son de la 1 a la {0}"),
        ("Station {0} was said twice; the later one was taken", "La estación {0} se dijo dos veces; se tomó la última"),
        ("Longer than {0}, the longest run time", "Más de {0}, el tiempo de riego más largo"),
        ("This controller shows run times in steps of {0}", "Este programador muestra los tiempos de riego en pasos de {0}"),
        ("more run times than stations", "más tiempos de riego que estaciones"),
        ("Run times without station numbers were taken as stations in order", "Los tiempos de riego sin número de estación se tomaron por orden de estaciones"),
        ("Hours and minutes, or minutes and seconds", "Horas y minutos, o minutos y segundos"),
        ("a.m. or p.m. stands alone, without a time before it", "a. m. o p. m. está sin una hora delante"),
        ("Programs carry letters here; the number was counted from A", "Aquí los programas llevan letras; el número se contó desde la A"),
        ("which program is not said", "no se dice qué programa"),
        ("This controller has only {0} programs", "Este programador solo tiene {0} programas"),
        ("This controller has only 1 program", "Este programador solo tiene un programa"),
        ("Which program it belongs to was not said", "No se dijo de qué programa es"),
        ("the percent itself is missing", "falta el porcentaje mismo"),
        ("No controller goes that far", "Ningún programador llega a tanto"),
        ("This controller shows {0} to {1} in steps of {2}", "Este programador muestra de {0} a {1} en pasos de {2}"),
        ("A rain hold is 0 to 99 days", "Una pausa por lluvia es de 0 a 99 días"),
        ("for how many days is missing", "falta de cuántos días"),
        ("what there is none of was not said", "no se dijo de qué no hay"),
        ("24:00 belongs to the day after; taken as midnight at the start of the water day", "Las 24:00 son ya del día siguiente; se tomó la medianoche con que empieza el día de riego"),
        ("this is no time of day", "esto no es una hora del día"),
        ("An hour of 0 or above 12 has no a.m. or p.m.", "Una hora 0 o mayor que 12 no lleva a. m. ni p. m."),
        ("a.m. or p.m. was not said", "No se dijo si de la mañana o de la tarde"),
        ("Taken as a 24-hour time", "Se tomó como hora de 0 a 24"),
        ("This start time was said twice", "Esta hora de inicio se dijo dos veces"),
        ("This controller holds {0} start times a program", "Este programador guarda {0} horas de inicio por programa"),
        ("This controller shows start times in steps of {0} minutes", "Este programador muestra las horas de inicio en pasos de {0} minutos"),
    ];

    private static (string English, string Spanish)[] OfParts() =>
    [
        ("every {0} days", "cada {0} días"),
        ("{0} days left", "faltan {0} días"),
        ("{0} days", "{0} días"),
        ("{0} percent", "{0} por ciento"),
        ("program {0}", "programa {0}"),
        ("program A", "programa A"),
        ("another program", "otro programa"),
        ("station {0}", "estación {0}"),
        ("days of the week", "días de la semana"),
        ("odd dates", "fechas impares"),
        ("even dates", "fechas pares"),
        ("an interval", "un intervalo"),
        ("Monday", "lunes"), ("Tuesday", "martes"), ("Wednesday", "miércoles"), ("Thursday", "jueves"), ("Friday", "viernes"), ("Saturday", "sábado"), ("Sunday", "domingo"),
    ];

    private static (string English, string Spanish)[] OfSeen() =>
    [
        ("Not understood; left out. Say when or how often it ran, or what never does, as: ran at 19:30 on Tuesday; twice a night; nothing for a week; station 2 never comes on",
            "No se entendió; se dejó fuera. Diga cuándo o cuántas veces regó, o qué no riega nunca, por ejemplo: regó a las 19:30 el martes; dos veces por noche; nada en una semana; la estación 2 nunca riega"),
        ("Not understood in it, and left out: {0}", "De ello no se entendió, y se dejó fuera: {0}"),
        ("it ran", "regó"), ("it did not run", "no regó"),
        ("at {0}", "a las {0}"), ("{0} times", "{0} veces"),
    ];
}
