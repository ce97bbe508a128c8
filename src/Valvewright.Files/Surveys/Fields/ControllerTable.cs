using Valvewright.Engine.Controllers;
using Valvewright.Engine.Quantities;

namespace Valvewright.Files.Surveys.Fields;

/// <summary>The fields of a controller and of a profile read off its manual.</summary>
internal static class ControllerTable
{
    private static readonly Sentence Usual = "usual; read the manual";

    internal static readonly WordList<DayRuleKind> DayRules = new(
        ("days of the week", DayRuleKind.DaysOfWeek, "days of the week", "días de la semana"),
        ("odd", DayRuleKind.Odd, "odd dates", "fechas impares"),
        ("even", DayRuleKind.Even, "even dates", "fechas pares"), ("interval", DayRuleKind.Interval, "every n days", "cada n días"));

    internal static readonly FieldGroup Percent = new("percent", null,
        new("least", new WholeKind(0, 100)) { IsNeeded = true, Label = new("Smallest percent", "Porcentaje mínimo"), Examples = ["10"] },
        new("largest", new WholeKind(100, 1000))
        {
            IsNeeded = true, Label = new("Largest percent", "Porcentaje máximo"), Examples = ["200"],
        },
        new("step", new WholeKind(1, 100))
        {
            IsNeeded = true, Label = new("Step", "Paso"), Examples = ["10"],
            Help = new("100 must be reachable.", "Debe poder llegarse a 100."),
        }) { IsOnOneLine = true };

    internal static readonly FieldGroup Pump = new("pump", "a pump",
        new("lead", QuantityRule.Time("a pause", Units.Second, 0, 3600))
        {
            Examples = ["5 s"], Label = new("Lead", "Adelanto"), LeftOut = new("0", "0"),
            Help = new("On before the first station.", "Se enciende antes de la primera estación."),
        },
        new("lag", QuantityRule.Time("a pause", Units.Second, 0, 3600))
        {
            Examples = ["5 s"], Label = new("Lag", "Retardo"), LeftOut = new("0", "0"),
            Help = new("Off after the last station.", "Se apaga después de la última estación."),
        }) { IsOnOneLine = true };

    internal static readonly FieldGroup Battery = new("battery", "a battery",
        new("capacity mah", new WholeKind(10, 100_000))
        {
            IsNeeded = true, Label = new("Capacity, mAh", "Capacidad, mAh"), Examples = ["2500"],
        },
        new("standby microamps", new WholeKind(0, 100_000))
        {
            IsNeeded = true, Label = new("Standby current, µA", "Corriente en espera, µA"),
            Help = new("Current with all valves closed.", "Corriente con todas las válvulas cerradas."),
        },
        new("pulse millicoulombs", new WholeKind(0, 100_000))
        {
            IsNeeded = true, Label = new("Charge of one pulse, mC", "Carga de un pulso, mC"),
            Help = new("What one latching pulse takes.", "Lo que toma un pulso del solenoide."),
        },
        new("self discharge per year", QuantityRule.Percent("a self-discharge", 0, 100, 0, 40))
        {
            IsNeeded = true, Examples = ["3 %"], Label = new("Self-discharge per year", "Autodescarga al año"),
        }) { IsOnOneLine = true };

    internal static readonly FieldGroup Profile = new("profile", "a profile",
        new("name", new TextKind())
        {
            Label = new("Name", "Nombre"), Help = new("Name it by what it supports.", "Nómbrelo por lo que admite."),
        },
        new("stations", new WholeKind(1, 48))
        {
            IsNeeded = true, Label = new("Stations", "Estaciones"), Help = new("Outputs for valves.", "Salidas para válvulas."),
        },
        new("programs", new WholeKind(1, 8)) { IsNeeded = true, Label = new("Programs", "Programas") },
        new("start times", new WholeKind(1, 24))
        {
            IsNeeded = true, Label = new("Start times of each program", "Horas de inicio de cada programa"),
        },
        new("start step", QuantityRule.Time("a step of start times", Units.Minute, 60, 86_400))
        {
            Examples = ["15 min"], Label = new("Step of start times", "Paso de las horas de inicio"), LeftOut = new("1 min", "1 min"),
            Assumed = ("1 min", Usual),
        },
        new("run time step", QuantityRule.Time("a step of run times", Units.Second, 1, 3600))
        {
            Examples = ["1 min"], Label = new("Step of run times", "Paso de los tiempos de riego"), LeftOut = new("60 s", "60 s"),
            Assumed = ("1 min", Usual),
        },
        new("run time limit", QuantityRule.Time("the longest run time", Units.Minute, 60, 86_400))
        {
            Examples = ["4 h"], Label = new("Longest run time", "Tiempo de riego más largo"), LeftOut = new("4 h", "4 h"),
            Assumed = ("240 min", Usual),
        },
        new("day rules", new ListKind(DayRules))
        {
            IsNeeded = true, Label = new("Watering days", "Días de riego"),
            Help = new("The day rules it offers.", "Las reglas de días que ofrece."),
        },
        new("largest interval", new WholeKind(1, 400))
        {
            Label = new("Longest interval, days", "Intervalo más largo, días"),
            Help = new("Largest n of 'every n days'; needed with intervals.", "La n mayor de 'cada n días'; necesaria con intervalos."),
        },
        new("percent", new KeysKind(Percent))
        {
            Label = new("Percent adjust", "Ajuste de porcentaje"), LeftOut = new("10 to 200 by 10", "10 a 200 de 10 en 10"),
            Assumed = ("10 to 200 by 10", Usual),
        },
        SurveyField.Of<Profile, PercentRounding>("rounding", new WordList<PercentRounding>(
            ("nearest second", PercentRounding.NearestSecond, "to the nearest second", "al segundo más cercano"),
            ("nearest minute", PercentRounding.NearestMinute, "to the nearest minute", "al minuto más cercano"),
            ("down to a minute", PercentRounding.DownToMinute, "down to a minute", "hacia abajo, a un minuto"),
            ("up to a minute", PercentRounding.UpToMinute, "up to a minute", "hacia arriba, a un minuto")),
            (p, rounding) => p with { Rounding = rounding }) with
        {
            Label = new("Rounding", "Redondeo"), LeftOut = new("nearest second", "al segundo más cercano"),
            Assumed = ("nearest second", Usual),
            Help = new(
                "How a run time scaled by the percent is rounded.",
                "Cómo se redondea un tiempo de riego ajustado por el porcentaje."),
        },
        SurveyField.Of<Profile, OverlapBehaviour>("overlap", new WordList<OverlapBehaviour>(
            ("waits its turn", OverlapBehaviour.WaitsItsTurn, "It waits its turn", "Espera su turno"),
            ("is lost", OverlapBehaviour.Lost, "It is lost", "Se pierde"),
            ("runs beside", OverlapBehaviour.RunsBeside, "It runs at the same time", "Corre a la vez")),
            (p, overlap) => p with { Overlap = overlap }) with
        {
            Label = new("Overlapping starts", "Inicios que se superponen"), LeftOut = new("waits its turn", "espera su turno"),
            Assumed = ("waits its turn", Usual),
            Help = new(
                "What happens to a start that comes due while a program runs.",
                "Qué pasa con un inicio que llega mientras corre un programa."),
        },
        new("pause between stations", QuantityRule.Time("a pause", Units.Second, 0, 3600))
        {
            Examples = ["10 s"], Label = new("Pause between stations", "Pausa entre estaciones"), LeftOut = new("0 s", "0 s"),
            Assumed = ("0 s", Usual),
        },
        YesNo("odd skips the 31st", (p, yes) => p with { OddSkips31 = yes },
            new("Odd days skip the 31st", "Los días impares saltan el 31")),
        YesNo("odd skips 29 february", (p, yes) => p with { OddSkips29February = yes },
            new("Odd days skip 29 February", "Los días impares saltan el 29 de febrero")),
        YesNo("interval counts days left", (p, yes) => p with { IntervalCountsDaysLeft = yes },
            new("An interval is a counter of days left", "El intervalo es un contador de días que faltan")),
        YesNo("knows daylight saving", (p, yes) => p with { ClockKnowsDaylightSaving = yes },
            new("Its clock changes with daylight saving", "Su reloj cambia con el horario de verano")),
        SurveyField.Of<Profile, int>("largest rain hold", new WholeKind(0, 60), (p, days) => p with { LargestRainHoldDays = days }) with
        {
            Label = new("Longest rain delay, days", "Pausa por lluvia más larga, días"), LeftOut = new("0", "0"),
        },
        YesNo("sensor input", (p, yes) => p with { HasSensorInput = yes },
            new("A rain sensor can be wired to it", "Se le puede conectar un sensor de lluvia")),
        new("pump", new KeysKind(Pump))
        {
            Label = new("Pump or master valve", "Bomba o válvula maestra"), LeftOut = new("none", "ninguna"),
        },
        YesNo("keeps settings", (p, yes) => p with { KeepsSettingsWithoutPower = yes },
            new("Settings outlast a dead battery", "Los ajustes sobreviven a una pila agotada"), "yes", "sí"),
        new("battery", new KeysKind(Battery)) { Label = new("Battery", "Pila"), LeftOut = new("not known", "no se conoce") });

    internal static readonly FieldGroup Controller = new("controller", "a controller",
        new("name", new TextKind())
        {
            IsNeeded = true, Label = new("Name", "Nombre"), Help = new("As painted on its lid.", "Como está pintado en su tapa."),
        },
        new("profile", new KeysKind(Profile) { Hint = "the name of a profile, or its keys", Name = new TextKind("the name of a profile") })
        {
            IsNeeded = true, Label = new("Profile", "Perfil"), Examples = [.. GenericProfiles.All.Select(profile => profile.Name)],
            Help = new(
                "The name of a built-in profile (`valvewright profiles` lists them) or of one under 'profiles', or its keys.",
                "El nombre de un perfil incluido (`valvewright profiles` los muestra) o de uno en 'profiles', o sus claves."),
        },
        new("supply", new TextKind("the name of a supply"))
        {
            Label = new("Supply", "Suministro"), LeftOut = new("the only supply", "el único suministro"),
            Help = new("Name of the supply it takes water from.", "Nombre del suministro del que toma agua."),
        },
        new("day rules", new ListKind(DayRules))
        {
            Label = new("Day rules to use", "Reglas de días que se usan"),
            LeftOut = new("all that the profile offers", "todas las del perfil"),
            Help = new("Use only these of the day rules that the profile offers.", "Use solo estas de las reglas de días del perfil."),
        },
        new("zones", new ListKind(new KeysKind(ZoneTable.Zone), TakesOne: false) { Hint = "a list of zones" })
        {
            IsNeeded = true, Label = new("Zones", "Zonas"), Help = new("What each station waters.", "Lo que riega cada estación."),
        });

    private static SurveyField YesNo(
        string key, Func<Profile, bool, Profile> into, Bilingual label, string english = "no", string spanish = "no") =>
        SurveyField.Of(key, new YesNoKind(), into) with { Label = label, LeftOut = new(english, spanish) };
}
