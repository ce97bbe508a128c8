using Valvewright.Engine.Hydraulics;
using Valvewright.Engine.Power;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Files.Surveys.Fields;

namespace Valvewright.Files.Measured;

/// <summary>The table of fields of a file of measurements.</summary>
public static class MeasuredFields
{
    private static readonly TextKind Controller = new("a controller's name, as in the site file");
    private static readonly WholeKind Station = new(1, 48);
    private static readonly QuantityRule Length = new("a length", Units.Metre, Units.Foot, 0, 20_000, 0.1, 2000);
    private static readonly QuantityRule Place = new("a place", Units.Metre, Units.Foot, -1000, 1000, -300, 300);
    private static readonly QuantityRule Pressure = new("a pressure", Units.Kilopascal, Units.Psi, 0, 3000, 50, 1000);
    private static readonly QuantityRule Flow = new("a flow", Units.LitrePerMinute, Units.GallonPerMinute, 0, 50_000, 0, 1000);
    private static readonly QuantityRule CanDepth = new("a depth in a can", Units.Millimetre, Units.Inch, 0, 0.5, 0, 0.1);
    private static readonly QuantityRule CanVolume = new("a volume in a can", Units.Millilitre, Units.Millilitre, 0, 20, 0, 2);
    private static readonly QuantityRule Water = new("a volume of water", Units.Named("L")!, Units.Named("gal")!, 0, 1e7, 1, 1e5);
    private static readonly QuantityRule MeterVolume =
        new("what a water meter shows", Units.Named("m3")!, Units.Named("gal")!, 0, 1e10, 0, 1e9);
    private static readonly YesNoKind YesNo = new();

    private static readonly FieldGroup PlaceOfCan = new("place", "a place",
        new("x", Place) { IsNeeded = true }, new("y", Place) { IsNeeded = true }) { IsOnOneLine = true };

    private static readonly FieldGroup Grid = new("grid", "a grid",
        new("columns", new WholeKind(1, 200)) { IsNeeded = true },
        new("along", Length) { IsNeeded = true },
        new("between", Length) { IsNeeded = true }) { IsOnOneLine = true };

    private static readonly FieldGroup Audit = new("audit", "an audit",
        new("controller", Controller) { IsNeeded = true },
        new("station", Station) { IsNeeded = true },
        new("on", new DateKind()),
        new("minutes", new QuantityRule("how long the audit ran", Units.Minute, Units.Minute, 10, 86_400, 120, 14_400)) { IsNeeded = true },
        new("opening", new QuantityRule("the opening of a can", Units.SquareCentimetre, Units.SquareInch, 0.0005, 1, 0.002, 0.1)),
        new("volumes", new ListKind(CanVolume, Least: 4, TakesOne: false)),
        new("depths", new ListKind(CanDepth, Least: 4, TakesOne: false)),
        new("grid", new KeysKind(Grid)),
        new("places", new ListKind(new KeysKind(PlaceOfCan), Least: 4, TakesOne: false)),
        new("wind", new QuantityRule("a wind speed", Units.Named("km/h")!, Units.Named("mph")!, 0, 60, 0, 10)),
        new("pressure", Pressure),
        new("meter", Water),
        new("confirmed", YesNo));

    private static readonly FieldGroup FlowPoint = new("flow point", "a reading of a flow test",
        new("flow", Flow) { IsNeeded = true }, new("pressure", Pressure) { IsNeeded = true }) { IsOnOneLine = true };

    private static readonly WordList<PipeMaterial> Materials = new(
        ("pvc schedule 40", PipeMaterial.PvcSchedule40, "PVC schedule 40", "PVC cédula 40"),
            ("pvc class 200", PipeMaterial.PvcClass200, "PVC class 200", "PVC clase 200"),
        ("polyethylene", PipeMaterial.Polyethylene, "Polyethylene", "Polietileno"), ("copper", PipeMaterial.Copper, "Copper", "Cobre"),
        ("galvanized steel", PipeMaterial.GalvanizedSteel, "Galvanized steel", "Acero galvanizado"),
            ("cast iron", PipeMaterial.CastIron, "Cast iron", "Hierro fundido"));

    private static readonly WordList<PipeFitting> Fittings = new(
        ("gate valve", PipeFitting.GateValve, "Gate valve", "Válvula de compuerta"),
            ("angle valve", PipeFitting.AngleValve, "Angle valve", "Válvula de ángulo"),
        ("globe valve", PipeFitting.GlobeValve, "Globe valve", "Válvula de globo"),
            ("check valve", PipeFitting.SwingCheckValve, "Swing check valve", "Válvula de retención"),
        ("short elbow", PipeFitting.ShortElbow, "Elbow, short radius", "Codo de radio corto"),
            ("elbow", PipeFitting.MediumElbow, "Elbow", "Codo"),
        ("long elbow", PipeFitting.LongElbow, "Elbow, long radius", "Codo de radio largo"),
            ("45 elbow", PipeFitting.Elbow45, "45 degree elbow", "Codo de 45 grados"),
        ("tee run", PipeFitting.TeeRun, "Tee, straight through", "Te, paso recto"),
            ("tee branch", PipeFitting.TeeBranch, "Tee, branch", "Te, ramal"),
        ("entrance", PipeFitting.Entrance, "Entrance", "Entrada"), ("exit", PipeFitting.Exit, "Exit", "Salida"));

    private static readonly FieldGroup Pipe = new("pipe", "a pipe",
        new("name", new TextKind()),
        new("from", new TextKind("a point's name")) { IsNeeded = true },
        new("to", new TextKind("a point's name")) { IsNeeded = true },
        new("length", Length) { IsNeeded = true },
        new("rise", new QuantityRule("a rise", Units.Metre, Units.Foot, -500, 500, -100, 100)),
        new("material", Materials),
        new("size", new TextKind($"one of: {string.Join(", ", PipeTables.NominalSizes)}")),
        new("inside diameter", new QuantityRule("an inside diameter", Units.Millimetre, Units.Inch, 0.002, 1, 0.008, 0.2)),
        new("roughness", new NumberKind("a Hazen-Williams C", 40, 160)),
        new("fittings", new ListKind(Fittings)),
        new("loss coefficient", new NumberKind("a sum of loss coefficients K", 0, 1000))) { IsOnOneLine = true };

    private static readonly FieldGroup Sprinkler = new("sprinkler", "a sprinkler point",
        new("at", new TextKind("a point's name")) { IsNeeded = true },
        new("controller", Controller) { IsNeeded = true },
        new("station", Station) { IsNeeded = true },
        new("flow", Flow) { IsNeeded = true },
        new("pressure", Pressure) { IsNeeded = true },
        new("least", Pressure) { IsNeeded = true },
        new("largest", Pressure) { IsNeeded = true },
        new("exponent", new NumberKind("the exponent of flow over pressure", 0, 1))) { IsOnOneLine = true };

    private static readonly FieldGroup Supply = new("measured supply", "a supply",
        new("supply", new TextKind("a supply's name, as in the site file")) { IsNeeded = true },
        new("flow test", new ListKind(new KeysKind(FlowPoint), TakesOne: false)) { IsNeeded = true },
        new("enters at", new TextKind("a point's name")),
        new("pipes", new ListKind(new KeysKind(Pipe), TakesOne: false)),
        new("sprinklers", new ListKind(new KeysKind(Sprinkler), TakesOne: false)),
        new("tank", new KeysKind(SupplyFields.Tank)),
        new("pump", new KeysKind(SupplyFields.Pump)),
        new("confirmed", YesNo));

    private static readonly WordList<BatteryType> Batteries =
        new([.. BatteryTypes.All.Select(b => (b.Name.ToLowerInvariant(), b, b.Name, b.Name))]);

    private static readonly FieldGroup Battery = new("battery", "a battery",
        new("controller", Controller) { IsNeeded = true },
        new("kind", Batteries) { IsNeeded = true },
        new("since", new DateKind()) { IsNeeded = true },
        new("volts", new NumberKind("volts", 0, 60)),
        new("load", new NumberKind("a load in mA", 0, 5000)),
        new("temperature", new NumberKind("a temperature in C", 0, 70)),
        new("capacity mah", new NumberKind("a capacity in mAh", 10, 100_000)),
        new("standby microamps", new NumberKind("a standby current in microamps", 0.1, 100_000)),
        new("pulse millicoulombs", new NumberKind("the charge of a pulse in millicoulombs", 0.1, 10_000)),
        new("confirmed", YesNo));

    private static readonly FieldGroup Coil = new("coil", "a coil",
        new("controller", Controller) { IsNeeded = true },
        new("station", Station) { IsNeeded = true },
        new("ohms", new NumberKind("ohms", 0, 1e9, new WordList<double>(("open", double.PositiveInfinity, "open", "abierto")))),
        new("at valve", YesNo),
        new("gauge", new WholeKind(10, 20)),
        new("wire", Length),
        new("coil ohms", new NumberKind("ohms", 0.5, 1000)),
        new("least volts", new NumberKind("volts", 1, 40)),
        new("source volts", new NumberKind("volts", 1, 60)),
        new("source ohms", new NumberKind("ohms", 0, 1000)),
        new("confirmed", YesNo));

    private static readonly FieldGroup MeterPoint = new("meter reading", "a meter reading",
        new("on", new DateKind()) { IsNeeded = true }, new("shows", MeterVolume) { IsNeeded = true }) { IsOnOneLine = true };

    private static readonly FieldGroup Meter = new("meter", "a meter",
        new("supply", new TextKind("a supply's name, as in the site file")) { IsNeeded = true },
        new("resolution", new QuantityRule("the smallest step of a meter", Units.Named("m3")!, Units.Named("gal")!, 0.1, 10_000, 1, 1000)),
        new("readings", new ListKind(new KeysKind(MeterPoint), Least: 2, TakesOne: false)) { IsNeeded = true });

    /// <summary>The whole file.</summary>
    public static FieldGroup File { get; } = new("measured", "a file of measurements",
        new("units", new WordList<UnitSystem>(
            ("metric", UnitSystem.Metric, "Metric", "Métricas"), ("us", UnitSystem.UsCustomary, "US customary", "De EE. UU."))),
        new("audits", new ListKind(new KeysKind(Audit))),
        new("supplies", new ListKind(new KeysKind(Supply))),
        new("batteries", new ListKind(new KeysKind(Battery))),
        new("coils", new ListKind(new KeysKind(Coil))),
        new("meters", new ListKind(new KeysKind(Meter))));
}
