using Valvewright.Engine.Quantities;
using Valvewright.Engine.Supply;

namespace Valvewright.Files.Surveys.Fields;

/// <summary>The fields of a water supply and of its permitted times.</summary>
internal static class SupplyFields
{
    private static readonly WordList<IsoDayOfWeek> Weekdays = new(
        ("mon", IsoDayOfWeek.Monday, "Mon", "lun"),
        ("tue", IsoDayOfWeek.Tuesday, "Tue", "mar"),
        ("wed", IsoDayOfWeek.Wednesday, "Wed", "mié"),
        ("thu", IsoDayOfWeek.Thursday, "Thu", "jue"),
        ("fri", IsoDayOfWeek.Friday, "Fri", "vie"),
        ("sat", IsoDayOfWeek.Saturday, "Sat", "sáb"),
        ("sun", IsoDayOfWeek.Sunday, "Sun", "dom"))
    {
        Long = Enum.GetValues<IsoDayOfWeek>().Where(day => day != IsoDayOfWeek.None).ToDictionary(day => day.ToString().ToLowerInvariant()),
    };

    internal static readonly FieldGroup Permitted = new("permitted", null,
        new("hours", new ListKind(new HoursKind()))
        {
            Label = new("Permitted hours", "Horas permitidas"), LeftOut = new("every hour", "a toda hora"),
            Examples = ["22:00-06:00", "10 pm to 6 am"],
            Help = new(
                "Hours in which water may be used; a span may pass midnight.",
                "Horas en que se puede usar el agua; un intervalo puede pasar la medianoche."),
        },
        new("not hours", new ListKind(new HoursKind()))
        {
            Label = new("Prohibited hours", "Horas prohibidas"), Examples = ["10:00-16:00"],
            Help = new(
                "In place of 'hours': hours in which water may not be used.",
                "En lugar de 'hours': horas en que no se puede usar el agua."),
        },
        new("days", new ListKind(Weekdays))
        {
            Label = new("Permitted days", "Días permitidos"), LeftOut = new("every day", "todos los días"),
            Help = new("Days of the week on which watering is allowed.", "Días de la semana en que se permite regar."),
        },
        new("dates", new WordList<DateParity>(
            ("any", DateParity.Any, "All", "Todas"), ("odd", DateParity.Odd, "Odd", "Impares"), ("even", DateParity.Even, "Even", "Pares")))
        {
            Label = new("Permitted dates", "Fechas permitidas"), LeftOut = new("any", "todas"),
            Help = new("Odd or even dates, where a rule says so.", "Fechas impares o pares, si una regla lo dice."),
        },
        new("drip exempt", new YesNoKind())
        {
            Label = new("Drip exempt", "Goteo exento"), LeftOut = new("no", "no"),
            Help = new("Whether drip and bubblers may run at any time.", "Si el goteo y los inundadores pueden funcionar a toda hora."),
        });

    private static readonly QuantityRule Volume = new("a volume of water", Units.Named("L")!, Units.Named("gal")!, 0, 1e7, 1, 1e5);

    internal static readonly FieldGroup Tank = new("tank", "a tank",
        new("volume", Volume)
        {
            IsNeeded = true, Examples = ["4000 L", "1500 gal"], Label = new("Holds", "Capacidad"),
                Help = new("Water in the full tank.", "Agua del tanque lleno."),
        },
        new("refill", new QuantityRule("a flow", Units.LitrePerMinute, Units.GallonPerMinute, 0, 50_000, 0, 1000))
        {
            IsNeeded = true, Examples = ["6 L/min", "2 gpm"], Label = new("Refill", "Llenado"),
            Help = new("Flow into it whenever it is not full; 0 where a truck fills it.",
                "Caudal de entrada mientras no está lleno; 0 si lo llena un camión."),
        },
        new("least", Volume)
        {
            Examples = ["300 L", "80 gal"], Label = new("Must stay in", "Debe quedar"), LeftOut = new("0", "0"),
            Help = new("Below it the pump runs dry or the outlet draws air.",
                "Por debajo, la bomba trabaja en seco o la salida toma aire."),
        }) { IsOnOneLine = true };

    internal static readonly FieldGroup Pump = new("pump limit", "a pump",
        new("starts per hour", new WholeKind(1, 60))
        {
            IsNeeded = true, Examples = ["10"], Label = new("Starts per hour", "Arranques por hora"),
            Help = new("The most that its motor bears; from its manual.", "Los que admite el motor, según su manual."),
        },
        new("runs on", new QuantityRule("how long a pump runs on", Units.Minute, Units.Minute, 0, 3600, 0, 1800))
        {
            Examples = ["2 min"], Label = new("Runs on", "Sigue en marcha"), LeftOut = new("0", "0"),
            Help = new(
                "How long it runs on, or a pressure tank carries, after the last valve closes.",
                "Cuánto sigue, o aguanta un tanque de presión, tras cerrar la última válvula."),
        }) { IsOnOneLine = true };

    internal static readonly FieldGroup Supply = new("supply", "a supply",
        new("name", new TextKind())
        {
            IsNeeded = true, Label = new("Name", "Nombre"), Help = new("Such as: Hillside tank.", "Por ejemplo: Tanque de la loma."),
        },
        new("flow", new QuantityRule("the flow of a supply", Units.LitrePerMinute, Units.GallonPerMinute, 0.1, 50_000, 2, 4000))
        {
            IsNeeded = true, Examples = ["12 gpm", "45 L/min"], Label = new("Flow limit", "Caudal máximo"),
            Help = new(
                "The most it gives at once. Measure with a meter or a bucket.",
                "Caudal máximo. Mídalo con un medidor o una cubeta (balde)."),
        },
        new("pressure", new QuantityRule("a static pressure", Units.Kilopascal, Units.Psi, 1, 3000, 70, 1000))
        {
            Examples = ["55 psi", "300 kPa"], Label = new("Static pressure", "Presión estática"),
            Help = new("Pressure with every valve closed.", "Presión con todas las válvulas cerradas."),
        },
        SurveyField.Of<WaterSupply, SupplyKind>("kind", new WordList<SupplyKind>(
            ("potable", SupplyKind.Potable, "Potable", "Potable"), ("reclaimed", SupplyKind.Reclaimed, "Reclaimed", "Regenerada"),
            ("well", SupplyKind.Well, "Well", "Pozo"),
                ("surface water", SupplyKind.SurfaceWater, "Stream, canal or pond", "Arroyo, canal o estanque"),
            ("tank", SupplyKind.Tank, "Tank", "Tanque")), (supply, kind) => supply with { Kind = kind }) with
        {
            Label = new("Kind of water", "Clase de agua"), LeftOut = new("not known", "no se conoce"),
            Help = new(
                "Reclaimed water brings its own cautions; follow local codes.",
                "El agua regenerada trae sus propias precauciones; siga las normas locales."),
        },
        SurveyField.Of<WaterSupply, double>(
            "salinity", new NumberKind("a salinity", 0, 20), (supply, salinity) => supply with { SalinityDsPerM = salinity }) with
        {
            Examples = ["1.2"], Label = new("Salinity, dS/m", "Salinidad, dS/m"), LeftOut = new("fresh", "dulce"),
            Help = new("Electrical conductivity of the water, from a water test.", "Conductividad eléctrica del agua, de un análisis."),
        },
        new("tank", new KeysKind(Tank))
        {
            Label = new("Tank", "Tanque"),
                Help = new("The tank that it draws from; a plan that empties it fails.",
                    "El tanque del que toma; un plan que lo vacía no pasa."),
        },
        new("pump", new KeysKind(Pump))
        {
            Label = new("Pump", "Bomba"),
                Help = new("What its pump allows; a plan that starts it too often fails.",
                    "Lo que admite su bomba; un plan que la arranca demasiado no pasa."),
        },
        new("on from", new MonthDayKind())
        {
            Examples = ["4-15"], Label = new("Water on from", "Agua disponible desde"), LeftOut = new("all year", "todo el año"),
            Help = new("First day of the year on which the water is on, month-day.", "Primer día del año con agua, mes-día."),
        },
        new("on to", new MonthDayKind())
        {
            Examples = ["10-15"], Label = new("Water on to", "Agua disponible hasta"), LeftOut = new("all year", "todo el año"),
            Help = new("Last day of the year on which the water is on, month-day.", "Último día del año con agua, mes-día."),
        },
        new("permitted", new KeysKind(Permitted))
        {
            Label = new("Permitted times", "Horarios permitidos"), LeftOut = new("any hour of any day", "a toda hora, todos los días"),
            Assumed = ("any hour of any day", "the survey names no rule"),
            Help = new("When its water may be used.", "Cuándo se puede usar su agua."),
        });
}
