using Valvewright.Engine.Values;
using Valvewright.Files.Surveys.Fields;

namespace Valvewright.Files.Measured;

/// <summary>A caution at the place where field work is described, and what it gives way to.</summary>
/// <param name="Text">The caution.</param>
/// <param name="DefersTo">Whose word comes first.</param>
public sealed record FieldCaution(Bilingual Text, Bilingual DefersTo)
{
    private static readonly Bilingual LocalCode =
        new("Local code and licensed practice come first.", "Primero están los códigos locales y la práctica con licencia.");

    private static readonly FieldCaution Traffic = new(
        new("Near traffic: wear high visibility and set out signs before the cans.",
            "Cerca del tránsito: use ropa de alta visibilidad y ponga señales antes que los recipientes."),
        new("The road authority's work-zone rules come first.", "Primero están las reglas de la autoridad vial para zonas de trabajo."));

    private static readonly FieldCaution ReclaimedCans = new(
        new("Reclaimed water: wear gloves, keep cans away from mouth and food, wash hands, and keep people out of the spray.",
            "Agua regenerada: use guantes, mantenga los recipientes lejos de la boca y la comida, lávese las manos y no deje pasar a " +
                "nadie por el riego."),
        new("The water purveyor's permit comes first.", "Primero está el permiso del proveedor de agua."));

    private static readonly FieldCaution ReclaimedLines = new(
        new(
            "Reclaimed water: wear gloves, do not drink it. Keep gauge and hoses for reclaimed water alone. Leave purple marks and signs.",
            "Agua regenerada: use guantes, no la beba. Reserve manómetro y mangueras solo para ella. Deje marcas moradas y avisos."),
        new("Never connect it with drinking water; the water purveyor's rules come first.",
            "Nunca la conecte con el agua potable; primero están las reglas del proveedor de agua."));

    private static readonly FieldCaution OpenLines = new(
        new("Close the isolation valve and release the pressure before you open a valve, filter or pipe.",
            "Cierre la llave de paso y descargue la presión antes de abrir una válvula, un filtro o una tubería."),
        LocalCode);

    private static readonly FieldCaution Backflow = new(
        new("Leave the backflow preventer in service. Do not take its test cocks for a gauge unless you are certified.",
            "No anule el dispositivo antirreflujo. No use sus grifos de prueba para un manómetro si no está certificado."),
        new("Only certified testers test and repair it.", "Solo personas certificadas lo prueban y reparan."));

    private static readonly FieldCaution Digging = new(
        new("Before you dig for a pipe or wire, have buried lines located (811 in the US) and dig by hand near the marks. Marks do not " +
            "show private lines.",
            "Antes de excavar por una tubería o un cable, pida que localicen las líneas enterradas (811 en EE. UU.) y excave a mano " +
                "cerca de las marcas. Las marcas no muestran líneas privadas."),
        new("The locating service's waiting time comes first.", "Primero está el plazo del servicio de localización."));

    private static readonly FieldCaution Battery = new(
        new("Change all cells together, of one kind, right way around. Do not mix old and new, do not charge or heat them. Wear gloves " +
            "for leaking cells.",
            "Cambie todas las pilas juntas, de una sola clase y con la polaridad correcta. No mezcle viejas y nuevas, no las recargue ni " +
                "caliente. Use guantes con pilas sulfatadas."),
        new("Take used cells to collection as local rules say.", "Lleve las usadas a un punto de acopio según las reglas locales."));

    private static readonly FieldCaution Coil = new(
        new("Disconnect the coil before you measure ohms. Never test a latching coil on a mains-fed 24 V AC output.",
            "Desconecte la bobina antes de medir ohmios. Nunca pruebe un solenoide de impulsos en una salida de 24 V CA de la red."),
        new("Only a licensed electrician works on mains voltage.", "Solo un electricista con licencia trabaja con tensión de red."));

    private static readonly FieldCaution MeterPit = new(
        new("Lift a meter lid with a tool, look before you reach in (insects, snakes, sharp edges), and do not climb into a vault.",
            "Levante la tapa del medidor con una herramienta, mire antes de meter la mano (insectos, serpientes, filos) y no entre en " +
                "una cámara."),
        new("Confined-space rules and the water purveyor come first.",
            "Primero están las reglas de espacios confinados y el proveedor de agua."));

    private static readonly FieldCaution Tank = new(
        new("Do not climb into a tank. Lock out the pump before you reach for its inlet or wires.",
            "No entre en un tanque. Bloquee la bomba antes de tocar su toma o sus cables."),
        new("Confined-space rules and a licensed electrician come first.",
            "Primero están las reglas de espacios confinados y un electricista con licencia."));

    /// <summary>Setting out cans.</summary>
    /// <param name="isReclaimed">Whether the water is reclaimed.</param>
    public static ListOf<FieldCaution> ForCans(bool isReclaimed) => isReclaimed ? [ReclaimedCans, Traffic] : [Traffic];

    /// <summary>Reading pressures and flows.</summary>
    /// <param name="hasTank">Whether a supply has a tank or pump.</param>
    /// <param name="isReclaimed">Whether any of the water is reclaimed.</param>
    public static ListOf<FieldCaution> ForPressure(bool hasTank, bool isReclaimed) =>
        [.. isReclaimed ? [ReclaimedLines] : Array.Empty<FieldCaution>(), OpenLines, Backflow, Digging, .. hasTank ? [Tank]
            : Array.Empty<FieldCaution>()];

    /// <summary>Batteries, coils and wires.</summary>
    public static ListOf<FieldCaution> ForPower { get; } = [Battery, Coil, Digging];

    /// <summary>Reading a water meter.</summary>
    public static ListOf<FieldCaution> ForMeter { get; } = [MeterPit, Traffic];
}
