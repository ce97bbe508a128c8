using Valvewright.Engine.Quantities;
using Valvewright.Engine.Sprinklers;

namespace Valvewright.Files.Surveys.Fields;

/// <summary>The fields of sprinklers and drip, and of a catch-can test.</summary>
internal static class SprinklerTable
{
    private static readonly QuantityRule HeadSpacing = new("a spacing", Units.Metre, Units.Foot, 0.02, 60, 0.1, 30);
    private static readonly QuantityRule EmitterSpacing = new("a spacing of emitters", Units.Centimetre, Units.Inch, 0.02, 20, 0.1, 3);
    private static readonly QuantityRule CanDepth = new("a depth in a can", Units.Millimetre, Units.Inch, 0, 0.5, 0, 0.1);
    private static readonly QuantityRule CanVolume = new("a volume in a can", Units.Millilitre, Units.Millilitre, 0, 20, 0, 2);
    private static readonly Bilingual ByKind = new("as usual for the kind", "lo usual para su clase");

    internal static readonly FieldGroup Spacing = new("spacing", null,
        new("along", HeadSpacing)
        {
            IsNeeded = true, Examples = ["4 m", "15 ft"], Label = new("Spacing in the row", "Espaciamiento en la fila"),
        },
        new("between", HeadSpacing)
        {
            IsNeeded = true, Examples = ["4 m", "15 ft"], Label = new("Spacing between rows", "Espaciamiento entre filas"),
        })
    {
        IsOnOneLine = true,
    };

    internal static readonly FieldGroup Emitters = new("emitters", null,
        new("flow", new QuantityRule("the flow of an emitter", Units.LitrePerHour, Units.GallonPerHour, 0.001, 20, 0.008, 2))
        {
            IsNeeded = true, Examples = ["2 L/h", "0.9 gph"], Label = new("Flow of one emitter", "Caudal de un gotero"),
        },
        new("count", new WholeKind(1, 1_000_000))
        {
            Label = new("Number of emitters", "Número de goteros"),
            LeftOut = new("from plants or spacing", "según las plantas o el espaciamiento"),
            Help = new("Or give the emitters per plant, or their spacing.", "O dé los goteros por planta, o su espaciamiento."),
        },
        new("per plant", new WholeKind(1, 100))
        {
            Label = new("Emitters per plant", "Goteros por planta"), Help = new("With the number of plants.", "Con el número de plantas."),
        },
        new("plants", new WholeKind(1, 100_000)) { Label = new("Number of plants", "Número de plantas") },
        new("along", EmitterSpacing) { Examples = ["30 cm", "18 in"], Label = new("Spacing on the line", "Espaciamiento en la línea") },
        new("between", EmitterSpacing)
        {
            Examples = ["50 cm", "18 in"], Label = new("Spacing between lines", "Espaciamiento entre líneas"),
        })
    {
        IsOnOneLine = true,
    };

    internal static readonly FieldGroup Audit = new("audit", "an audit",
        new("minutes", new QuantityRule("how long the audit ran", Units.Minute, Units.Minute, 10, 86_400, 120, 14_400))
        {
            IsNeeded = true, Examples = ["12"], Label = new("Test run time", "Duración de la prueba"),
            Help = new("How long the zone ran.", "Cuánto tiempo corrió la zona."),
        },
        new("opening", new QuantityRule("the opening of a can", Units.SquareCentimetre, Units.SquareInch, 0.0005, 1, 0.002, 0.1))
        {
            Examples = ["90 cm2", "16 sq in"], Label = new("Can opening", "Boca del recipiente"),
            Help = new("Area of a can at its rim; needed with volumes.", "Área del recipiente en el borde; necesaria con volúmenes."),
        },
        new("volumes", new ListKind(CanVolume, Least: 4, TakesOne: false))
        {
            Label = new("Volumes", "Volúmenes"), Help = new("What each can caught.", "Lo que recogió cada recipiente."),
        },
        new("depths", new ListKind(CanDepth, Least: 4, TakesOne: false))
        {
            Label = new("Depths", "Láminas"),
            Help = new("In place of volumes: the depth in each can.", "En lugar de volúmenes: la lámina en cada recipiente."),
        });

    internal static readonly FieldGroup Sprinklers = new("sprinklers", null,
        new("kind", new WordList<EmissionKind>(
            ("spray", EmissionKind.Spray, "Spray", "Difusor"),
            ("rotor", EmissionKind.Rotor, "Rotor", "Rotor"),
            ("drip", EmissionKind.Drip, "Drip", "Goteo"),
            ("bubbler", EmissionKind.Bubbler, "Bubbler", "Inundador")))
        {
            IsNeeded = true, Label = new("Kind", "Clase"), Help = new("How water comes out.", "Cómo sale el agua."),
        },
        new("rate", new QuantityRule("a precipitation rate", Units.MillimetrePerHour, Units.InchPerHour, 0.1, 1000, 1, 100))
        {
            Examples = ["12 mm/h", "0.5 in/h"], Label = new("Precipitation rate", "Pluviometría"),
            Help = new("Gross rate; with the area it gives the flow.", "Tasa bruta; con el área da el caudal."),
        },
        new("flow", new QuantityRule("the flow of a zone", Units.LitrePerMinute, Units.GallonPerMinute, 0.005, 10_000, 0.1, 500))
        {
            Examples = ["8 gpm", "20 L/min"], Label = new("Zone flow", "Caudal de la zona"),
            Help = new(
                "Flow while the zone runs, from a meter or a bucket; with the area it gives the rate.",
                "Caudal mientras riega la zona, con medidor o cubeta (balde); con el área da la pluviometría."),
        },
        new("spacing", new KeysKind(Spacing))
        {
            Label = new("Head spacing", "Espaciamiento de aspersores"),
            Help = new("With 'head flow' it gives the rate.", "Con 'head flow' da la tasa."),
        },
        new("head flow", new QuantityRule("the flow of a head", Units.LitrePerMinute, Units.GallonPerMinute, 0.001, 500, 0.05, 100))
        {
            Examples = ["5 L/min", "1.5 gpm"], Label = new("Flow of one full-circle head", "Caudal de un aspersor de círculo completo"),
            Help = new("With 'spacing'.", "Con 'spacing'."),
        },
        new("emitters", new KeysKind(Emitters))
        {
            Label = new("Emitters", "Goteros"),
            Help = new("Flow of one, and their number or spacing.", "Caudal de uno, y su número o espaciamiento."),
        },
        new("audit", new KeysKind(Audit))
        {
            Label = new("Catch-can test", "Prueba con recipientes"),
            Help = new("Equal cans set out in a grid; at least 4.", "Recipientes iguales en cuadrícula; al menos 4."),
        },
        new("uniformity", QuantityRule.Percent("a distribution uniformity", 5, 100, 30, 95))
        {
            Examples = ["65 %"], Label = new("Low-quarter uniformity", "Uniformidad del cuarto más seco"), LeftOut = ByKind,
            Help = new(
                "Measured low-quarter distribution uniformity, where there is no audit.",
                "Uniformidad de distribución del cuarto más seco medida, si no hay prueba."),
        },
        new("loss", QuantityRule.Percent("a loss to wind and evaporation", 0, 60, 0, 30))
        {
            Examples = ["5 %"], Label = new("Loss", "Pérdida"), LeftOut = new("5% overhead, 0% drip", "5 % por aspersión, 0 % por goteo"),
            Help = new("What drifts off or evaporates on its way.", "Lo que el viento se lleva o se evapora en el camino."),
        },
        new("wetted part", QuantityRule.Percent("a wetted part", 1, 100, 10, 100))
        {
            Examples = ["40 %"], Label = new("Wetted part", "Parte mojada"),
                LeftOut = new("from emitters and soil", "según emisores y suelo"),
            Help = new(
                "Share of the area that drip wets; dig and look.",
                "Parte del área que el goteo moja; cave y mire."),
        });
}
