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
        ("days.none", "no watering day", "ningún día de riego"),
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
        ("key.days", "Program {0}: set the watering days to {1}.", "Programa {0}: ponga los días de riego: {1}."),
        ("key.daysInterval", "Program {0}: set every {1} days, days remaining: {2} (next on {3}).",
            "Programa {0}: ponga cada {1} días, días que faltan: {2} (el próximo, {3})."),
        ("key.percent", "Set percent adjust to {0}.", "Ponga el ajuste porcentual en {0}."),
        ("key.on", "Switch it on.", "Enciéndalo."),
        ("key.off", "Switch it off.", "Apáguelo."),
        ("key.hold", "End the rain delay.", "Quite la pausa por lluvia."),
        ("key.clock", "Set the clock to {0}, {1}.", "Ponga el reloj: {0}, {1}."),
        ("ask.OnOrOff", "Is it switched on, or does the display say off?", "¿Está encendido, o dice la pantalla que está apagado?"),
        ("ask.RainHold", "Does the display show a rain delay, and how many days?",
            "¿Muestra la pantalla una pausa por lluvia, y de cuántos días?"),
        ("ask.Clock", "What does the clock show: day, time, and am or pm?", "¿Qué muestra su reloj: día, hora, mañana o tarde?"),
        ("ask.Percent", "What is percent adjust set to?", "¿En cuánto está el ajuste porcentual?"),
        ("ask.StartTimes", "Which start times does program {0} show, each with am or pm?",
            "¿Qué horas de inicio muestra el programa {0}, de la mañana o de la tarde?"),
        ("ask.WaterDays", "Which watering days does program {0} show, or how many days remaining?",
            "¿Qué días de riego muestra el programa {0}, o cuántos días faltan?"),
        ("ask.RunTimes", "Which run time does each station have in program {0}?",
            "¿Qué tiempo de riego tiene cada estación en el programa {0}?"),
    ];

    private static (string Name, string English, string Spanish)[] OfController() =>
    [
        ("off", "It is switched off, so no program runs until you switch it on.",
            "Está apagado: ningún programa riega hasta que se encienda."),
        ("off.out", "Nothing comes on, on any day.", "No riega ningún día."),
        ("hold", "A rain delay is on (days remaining: {0}), so nothing runs before {1}.",
            "Hay una pausa por lluvia (días que faltan: {0}): nada riega antes del {1}."),
        ("hold.out", "Nothing comes on for some days, then everything runs again by itself.",
            "No riega nada durante unos días, y luego vuelve a regar solo."),
        ("percent", "Percent adjust is {0}; the plan has {1} for this date, so every run is {2} than planned.",
            "El ajuste porcentual es {0}; el plan tiene {1} para esta fecha: cada riego es más {2} de lo previsto."),
        ("percent.visit", "Percent adjust is still {0}, the value from {3}; since {4} the plan has {1}, so every run is {2} than planned.",
            "El ajuste porcentual sigue en {0}, el valor del {3}; desde el {4} el plan tiene {1}: cada riego es más {2} de lo previsto."),
        ("percent.longer", "longer", "largo"),
        ("percent.shorter", "shorter", "corto"),
        ("percent.alone", "Percent adjust is {0}, which is unusual for this time of year.",
            "El ajuste porcentual es {0}, raro para esta época del año."),
        ("percent.out", "Start times are right, but runs are {0}% of the planned length.",
            "Las horas de inicio son correctas, pero riega el {0} % del tiempo previsto."),
        ("winter", "It is on; by the plan it is off since {0}.", "Está encendido, y según el plan debe estar apagado desde el {0}."),
        ("winter.out", "It waters out of season.", "Riega fuera de temporada."),
        ("clock.half", "The clock is 12 hours off (am and pm swapped): it shows {0} at {1}, so everything runs 12 hours off.",
            "El reloj está 12 horas mal (am y pm cambiadas): muestra {0} a las {1}, y todo riega con 12 horas de diferencia."),
        ("clock.summer",
            "The clock shows {0} at {1}. By the plan it stays on standard time all year; set to summer time, every run is an hour early.",
            "El reloj muestra {0} a las {1}. Según el plan queda todo el año en hora estándar; en horario de verano todo riega una hora " +
                "antes."),
        ("clock.hour", "The clock is {2} {3}: it shows {0} at {1}, so everything runs that much {4}.",
            "Su reloj va {2} {3}: muestra {0} a las {1}, y todo riega {4} en la misma medida."),
        ("clock.fast", "ahead", "adelantado"),
        ("clock.slow", "behind", "atrasado"),
        ("clock.early", "too early", "antes"),
        ("clock.late", "too late", "después"),
        ("clock.day", "The clock shows the wrong day, {0} instead of {1}: weekdays, dates and intervals fall on other days.",
            "Su reloj muestra otro día, {0} en vez de {1}: los días de la semana, fechas e intervalos caen en otros días."),
        ("clock.year", "The clock shows the year {0} instead of {1}: weekdays fall on other days.",
            "Su reloj muestra el año {0} en vez de {1}: los días de la semana caen en otros días."),
        ("clock.out", "All programs are off by the same amount.", "Todos los programas se desvían en la misma medida."),
        ("clock.out.day", "It waters on different days from the card.", "Riega otros días que los de la ficha."),
    ];
}
