using Valvewright.Engine.Power;

namespace Valvewright.Engine.Tests.Power;

public sealed class CoilWireTests
{
    /// <summary>Copper wire tables, ohms per 1000 ft at 20 C: 18 AWG 6.39, 16 AWG 4.02, 14 AWG 2.52, 12 AWG 1.59, 10 AWG 1.00.</summary>
    [Theory]
    [InlineData(18, 6.39)]
    [InlineData(16, 4.02)]
    [InlineData(14, 2.525)]
    [InlineData(12, 1.59)]
    [InlineData(10, 1.00)]
    public void Copper_has_the_tables_resistance(int gauge, double per1000Feet) =>
        Assert.Equal(per1000Feet, CopperWire.OhmsPerKm(gauge) * 0.3048, 0.006);

    /// <summary>18 AWG 20.94 ohm/km, 14 AWG 8.28 ohm/km (metric copies of the same table).</summary>
    [Fact]
    public void The_metric_tables_agree()
    {
        Assert.Equal(20.94, CopperWire.OhmsPerKm(18), 0.01);
        Assert.Equal(8.28, CopperWire.OhmsPerKm(14), 0.01);
    }

    /// <summary>The trade's worked example: 4 V may be lost on 1,800 ft at 0.37 A: 3.00 ohm per 1000 ft, so 14 AWG.</summary>
    [Fact]
    public void The_trades_wire_sizing_example_comes_out()
    {
        double perKm = CopperWire.LargestOhmsPerKm(4, 1800 * 0.3048, 0.37);
        Assert.Equal(3.00, perKm * 0.3048, 0.005);
        Assert.Equal(14, CopperWire.ThinnestFor(perKm));
        Assert.Null(CopperWire.ThinnestFor(0.1));
    }

    /// <summary>By hand: 6.5 V, 6 ohm coil that needs 4 V: 3.75 ohm may be lost; 1.5 ohm are in the cold battery, 2.25 left over 41.9
    /// ohm/km of loop: 53.7 m.</summary>
    [Fact]
    public void The_longest_wire_leaves_the_coil_its_least_voltage()
    {
        CoilCircuit circuit = Circuit();
        ResultRange longest = circuit.LongestM(18);
        Assert.Equal(2.25 / (2 * CopperWire.OhmsPerKm(18) / 1000), longest.Value, 6);
        Assert.Equal(4, circuit.CoilVolts(18, longest.Value).Value, 9);
        Assert.True(longest.Low < longest.Value && longest.Value < longest.High);
        Assert.True(circuit.LongestM(14).Value > 2 * longest.Value);
        Assert.Equal("source volts", longest.Effects[0].Input.Name.Text);
        Assert.True(longest.RestsOnTypicalValues);
    }

    [Fact]
    public void A_source_too_weak_for_the_coil_allows_no_wire_at_all() =>
        Assert.Equal(0, (Circuit() with { SourceVolts = Input("source volts", 4.5, 0.1) }).LongestM(14).Value);

    [Theory]
    [InlineData(6.1, 0, CoilCondition.Sound)]
    [InlineData(10.3, 4.2, CoilCondition.Sound)]
    [InlineData(0.4, 0, CoilCondition.Shorted)]
    [InlineData(4.2, 0, CoilCondition.Low)]
    [InlineData(9, 0, CoilCondition.High)]
    [InlineData(double.PositiveInfinity, 4.2, CoilCondition.Open)]
    public void A_measured_resistance_is_told(double ohms, double wire, CoilCondition state) =>
        Assert.Equal(state, new CoilTest(ohms, wire, Input("coil", 6, 0.25)).State);

    [Fact]
    public void Less_than_the_wires_alone_is_doubted() => Assert.Single(new CoilTest(2, 4.2, Input("coil", 6, 0.25)).Doubts);

    private static CoilCircuit Circuit() => new(
        Input("source volts", 6.5, 0.1), Input("source ohms", 0.75, 0.3, true), Input("cold factor", 2, 0.2, true), Input("coil", 6, 0.05),
            Input("least volts", 4, 0.05));

    private static UncertainInput Input(string name, double value, double off, bool typical = false) => new(name, value, off, typical, "");
}
