using System.Collections.Frozen;

namespace Valvewright.Engine.Checks;

/// <summary>The texts of checks, English and Spanish side by side; a test holds both to the same places.</summary>
internal static partial class CheckTexts
{
    /// <summary>By name.</summary>
    public static FrozenDictionary<string, (string English, string Spanish)> All { get; } =
        Words().Concat(OfController()).Concat(OfPrograms()).Concat(OfSymptoms())
            .ToFrozenDictionary(t => t.Name, t => (t.English, t.Spanish), StringComparer.Ordinal);

    private static (string Name, string English, string Spanish)[] Words() =>
    [
        ("weekdays", "Mon Tue Wed Thu Fri Sat Sun", "lun mar mié jue vie sáb dom"),
        ("months", "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec", "ene feb mar abr may jun jul ago sep oct nov dic"),
        ("moment", "{0} at {1}", "{0} a las {1}"),
        ("amount.day", "{0} day", "{0} día"),
        ("amount.days", "{0} days", "{0} días"),
        ("and", "{0} and {1}", "{0} y {1}"),
        ("none", "none", "ninguno"),
        ("station", "station {0}", "la estación {0}"),
        ("stations", "stations {0}", "las estaciones {0}"),
        ("days.none", "no water day", "ningún día de riego"),
        ("days.every", "every day", "todos los días"),
        ("days.odd", "odd dates", "fechas impares"),
        ("days.even", "even dates", "fechas pares"),
        ("days.interval", "every {0} days", "cada {0} días"),
        ("shows.runs", "It shows on {0}, when {1} runs.", "Se nota el {0}, cuando riega {1}."),
        ("shows.idle", "It shows on {0}, when {1} does not run.", "Se nota el {0}, cuando {1} no riega."),
        ("key.startAdd", "Program {0}: set a start time of {1}.", "Programa {0}: ponga una hora de inicio a las {1}."),
        ("key.startClear", "Program {0}: clear the start time {1}.", "Programa {0}: borre la hora de inicio de las {1}."),
        ("key.startMove", "Program {0}: change the start time {1} to {2}.", "Programa {0}: cambie la hora de inicio de las {1} a las {2}."),
        ("key.run", "Program {0}, station {1}: set the run time to {2}.", "Programa {0}, estación {1}: ponga el tiempo de riego en {2}."),
        ("key.runClear", "Program {0}, station {1}: set no run time.", "Programa {0}, estación {1}: quite el tiempo de riego."),
        ("key.days", "Program {0}: set the water days to {1}.", "Programa {0}: ponga los días de riego: {1}."),
        ("key.daysInterval", "Program {0}: set every {1} days, days left: {2} (next on {3}).", "Programa {0}: ponga cada {1} días, días que faltan: {2} (el próximo, {3})."),
        ("key.percent", "Set percent adjust to {0}.", "Ponga el ajuste en {0} por ciento."),
        ("key.on", "Switch it on.", "Enciéndalo."),
        ("key.off", "Switch it off.", "Apáguelo."),
        ("key.hold", "End the rain hold.", "Quite la pausa por lluvia."),
        ("key.clock", "Set the clock to {0}, {1}.", "Ponga el reloj: {0}, {1}."),
        ("ask.OnOrOff", "Is it switched on, or does the display say off?", "¿Está encendido, o dice la pantalla que está apagado?"),
        ("ask.RainHold", "Does the display show a rain hold, and how many days of it?", "¿Muestra la pantalla una pausa por lluvia, y de cuántos días?"),
        ("ask.Clock", "What does its clock show: day, time, and a.m. or p.m.?", "¿Qué muestra su reloj: día, hora, mañana o tarde?"),
        ("ask.Percent", "What is percent adjust set to?", "¿En cuánto está el ajuste por ciento?"),
        ("ask.StartTimes", "Which start times does program {0} show, each with a.m. or p.m.?", "¿Qué horas de inicio muestra el programa {0}, de la mañana o de la tarde?"),
        ("ask.WaterDays", "Which water days does program {0} show, or how many days are left?", "¿Qué días de riego muestra el programa {0}, o cuántos días faltan?"),
        ("ask.RunTimes", "Which run time does each station have in program {0}?", "¿Qué tiempo de riego tiene cada estación en el programa {0}?"),
    ];

    private static (string Name, string English, string Spanish)[] OfController() =>
    [
        ("off", "It is switched off, so no program runs until somebody switches it on.", "Está apagado: ningún programa riega hasta que alguien lo encienda."),
        ("off.out", "Nothing comes on at all, on any day.", "No riega nada, ningún día."),
        ("hold", "A rain hold is in force (days to go: {0}), so nothing runs before {1}.", "Hay una pausa por lluvia (días que faltan: {0}): nada riega antes del {1}."),
        ("hold.out", "Nothing comes on for some days, and then all of it again by itself.", "No riega nada durante unos días, y luego vuelve a regar solo."),
        ("percent", "Percent adjust stands at {0}; at this time of year it should be {1}, so every run is {2} than planned.",
            "El ajuste está en {0} por ciento; en esta época debe ser {1}: cada riego es más {2} de lo previsto."),
        ("percent.visit", "Percent adjust still stands at {0}, the value from {3}; since {4} it should be {1}, so every run is {2} than planned.",
            "El ajuste sigue en {0} por ciento, el valor desde el {3}; desde el {4} debe ser {1}: cada riego es más {2} de lo previsto."),
        ("percent.longer", "longer", "largo"),
        ("percent.shorter", "shorter", "corto"),
        ("percent.alone", "Percent adjust stands at {0}, which is unusual for this time of year.", "El ajuste está en {0} por ciento, raro para esta época del año."),
        ("percent.out", "It all runs at the right times, but for {0} % of the planned length.", "Todo riega a sus horas, pero el {0} % del tiempo previsto."),
        ("winter", "It is on, and by the plan it should be off since {0}.", "Está encendido, y según el plan debe estar apagado desde el {0}."),
        ("winter.out", "It waters out of season.", "Riega fuera de temporada."),
        ("clock.half", "Its clock is half a day out (a.m. and p.m. are exchanged): it shows {0} at {1}, so everything runs twelve hours off.",
            "Su reloj va medio día mal (mañana y tarde cambiadas): muestra {0} a las {1}, y todo riega con doce horas de diferencia."),
        ("clock.summer", "Its clock shows {0} at {1}. It is kept in standard time all year by the plan; set to summer time, all runs come an hour early by the plan.",
            "Su reloj muestra {0} a las {1}. Según el plan queda todo el año en hora estándar; así todo riega una hora antes de lo previsto."),
        ("clock.hour", "Its clock is {2} {3}: it shows {0} at {1}, so everything runs that much {4}.", "Su reloj va {2} {3}: muestra {0} a las {1}, y todo riega {4} en la misma medida."),
        ("clock.fast", "ahead", "adelantado"),
        ("clock.slow", "behind", "atrasado"),
        ("clock.early", "too early", "antes"),
        ("clock.late", "too late", "después"),
        ("clock.day", "Its clock shows the wrong day, {0} instead of {1}: weekdays, dates and intervals all fall on other days.",
            "Su reloj muestra otro día, {0} en vez de {1}: los días de la semana, fechas e intervalos caen en otros días."),
        ("clock.year", "Its clock shows the year {0} instead of {1}: weekdays fall on other days, and month ends slip by a day after a 29 February.",
            "Su reloj muestra el año {0} en vez de {1}: los días de la semana caen en otros días."),
        ("clock.out", "All programs are off by the same amount.", "Todos los programas se desvían en la misma medida."),
        ("clock.out.day", "It waters on other days than the card says.", "Riega otros días que los de la ficha."),
    ];
}
