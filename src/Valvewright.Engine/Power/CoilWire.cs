using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Power;

/// <summary>Copper wire by American wire gauge.</summary>
/// <remarks>
/// Ohms per 1000 ft at 20 C: 18 AWG 6.385, 16 AWG 4.016, 14 AWG 2.525, 12 AWG 1.588, 10 AWG 0.999 (copper wire tables, NBS Handbook 100,
/// 1966, as two independent copies print them; the handbook itself was not read). 0.39% more for each degree C.
/// </remarks>
public static class CopperWire
{
    private const double PerDegree = 0.0039;
    private const double KmPerThousandFeet = 0.3048;

    /// <summary>Gauges in the table, thin to thick.</summary>
    public static ListOf<int> Gauges { get; } = [20, 18, 16, 14, 12, 10];

    /// <summary>Resistance of one conductor.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The gauge is not in the table.</exception>
    public static double OhmsPerKm(int gauge, double temperatureC = 20)
    {
        double perThousandFeet = gauge switch
        {
            20 => 10.15, 18 => 6.385, 16 => 4.016, 14 => 2.525, 12 => 1.588, 10 => 0.9989,
            _ => throw new ArgumentOutOfRangeException(nameof(gauge), gauge, "A gauge is one of 20, 18, 16, 14, 12, 10."),
        };
        return perThousandFeet / KmPerThousandFeet * (1 + (PerDegree * (temperatureC - 20)));
    }

    /// <summary>The thinnest gauge with at most a resistance per km; null where none is thick enough.</summary>
    public static int? ThinnestFor(double ohmsPerKm) => Gauges.Where(g => OhmsPerKm(g) <= ohmsPerKm).Cast<int?>().FirstOrDefault();

    /// <summary>The largest resistance per km of a pair that drops at most some volts: 1000 x drop / (2 x length x current), as the trade
    /// writes it.</summary>
    public static double LargestOhmsPerKm(double dropVolts, double lengthM, double currentAmps) =>
        1000 * dropVolts / (2 * lengthM * currentAmps);
}

/// <summary>A latching coil at the end of a pair of wires, fed by a cold battery.</summary>
/// <param name="SourceVolts">Battery, or charged capacitor, without load at the end of its life.</param>
/// <param name="SourceOhms">Inner resistance of a warm battery at that time; 0 for a capacitor.</param>
/// <param name="ColdFactor">How many times more it is at the coldest watering.</param>
/// <param name="CoilOhms">Resistance of the coil at 20 C.</param>
/// <param name="LeastCoilVolts">The least voltage at which the coil latches.</param>
public sealed record CoilCircuit(
    UncertainInput SourceVolts, UncertainInput SourceOhms, UncertainInput ColdFactor, UncertainInput CoilOhms,
        UncertainInput LeastCoilVolts)
{
    /// <summary>The longest pair of a gauge at which the coil still gets its least voltage, meters from controller to valve.</summary>
    /// <remarks>
    /// One loop: source volts x coil ohms / (coil + wire + source ohms) is at least the coil's least voltage. Resistance alone: a pulse
    /// that is too short for the coil's inductance needs the controller maker's figure.
    /// </remarks>
    public ResultRange LongestM(int gauge, double wireTemperatureC = 20)
    {
        double perM = 2 * CopperWire.OhmsPerKm(gauge, wireTemperatureC) / 1000;
        return ResultRange.Of(
            [SourceVolts, SourceOhms, ColdFactor, CoilOhms, LeastCoilVolts],
            v => Math.Max(0, ((v[3] * ((v[0] / v[4]) - 1)) - (v[1] * v[2])) / perM));
    }

    /// <summary>Volts at the coil over a pair of wires.</summary>
    public ResultRange CoilVolts(int gauge, double lengthM, double wireTemperatureC = 20)
    {
        double wire = 2 * lengthM * CopperWire.OhmsPerKm(gauge, wireTemperatureC) / 1000;
        return ResultRange.Of([SourceVolts, SourceOhms, ColdFactor, CoilOhms], v => v[0] * v[3] / (v[3] + wire + (v[1] * v[2])));
    }
}

/// <summary>What a measured resistance says of a coil and its wires.</summary>
public enum CoilCondition
{
    /// <summary>No way through: a broken wire or coil.</summary>
    Open,

    /// <summary>Far too little: the wires touch, or the coil is burnt.</summary>
    Shorted,

    /// <summary>Too little: windings are shorted, or several coils share the wire.</summary>
    Low,

    /// <summary>As it should be.</summary>
    Sound,

    /// <summary>Too much: a bad splice, or a longer or thinner wire than believed.</summary>
    High,
}

/// <summary>A coil measured with an ohmmeter, alone or through its wires.</summary>
/// <param name="Ohms">The meter; infinite for no way through.</param>
/// <param name="WireOhms">Resistance of the pair up to where it was measured; 0 at the valve.</param>
/// <param name="Expected">Resistance of a sound coil: its data sheet, or a sister valve.</param>
public sealed record CoilTest(double Ohms, double WireOhms, UncertainInput Expected)
{
    /// <summary>A coil is judged against a sister coil, a quarter more or less (common practice).</summary>
    public const double Tolerance = 0.25;

    /// <summary>The coil without its wires.</summary>
    public double CoilOhms => Ohms - WireOhms;

    /// <summary>What it says.</summary>
    public CoilCondition State => (Ohms / (Expected.Value + WireOhms), CoilOhms / Expected.Value) switch
    {
        ( > 10, _) => CoilCondition.Open,
        (_, < 0.25) => CoilCondition.Shorted,
        (_, < 1 - Tolerance) => CoilCondition.Low,
        (_, > 1 + Tolerance) => CoilCondition.High,
        _ => CoilCondition.Sound,
    };

    /// <summary>The state in a sentence, with the next step.</summary>
    public Sentence Says => State switch
    {
        CoilCondition.Open =>
            "Open circuit: a broken wire or coil. Measure again at the valve; if it reads right there, the wire is broken.",
        CoilCondition.Shorted => "Short circuit: the wires touch or the coil is burnt. Disconnect the coil and measure both.",
        CoilCondition.Low => "Too low: shorted windings, or another coil on the same pair. Compare with a sister valve.",
        CoilCondition.High =>
            "Too high: a bad splice, or a longer or thinner wire. Measure again at the valve; the difference is in the wire.",
        _ => "Sound. It proves that current can flow, not that the plunger moves.",
    };

    /// <summary>Why the reading is doubted.</summary>
    public ListOf<DoubtfulReading> Doubts => CoilOhms < 0
        ? [new DoubtfulReading("coil/ohms", $"{Ohms} ohm",
            $"Less than its wires alone, {WireOhms:0.0} ohm; check the wire length and touch the leads together to zero the meter")]
        : [];
}
