using Valvewright.Engine.Hydraulics;

namespace Valvewright.Engine.Tests.Hydraulics;

public sealed class SupplyCurveTests
{
    /// <summary>Flow tests: flow is proportional to (pressure lost)^0.54, so 0.25 of the loss is 0.25^0.54 = 0.473 of the flow (common
    /// practice).</summary>
    [Fact]
    public void A_static_and_a_flowing_reading_give_the_flow_test_relation()
    {
        SupplyCurve curve = new([new FlowTestPoint(0, 500), new FlowTestPoint(100, 300)]);
        Assert.Equal(500, curve.PressureKpa(0), 9);
        Assert.Equal(300, curve.PressureKpa(100), 9);
        Assert.Equal(100 * Math.Pow(0.25, 0.54), curve.LargestFlowLpm(450), 0.1);
        Assert.Equal(250, curve.PressureKpa(curve.LargestFlowLpm(250)), 6);
    }

    [Fact]
    public void The_curve_goes_through_every_point_and_falls_between_them()
    {
        FlowTestPoint[] points = [new(0, 480), new(20, 470), new(45, 430), new(80, 310)];
        SupplyCurve curve = new([.. points]);
        Assert.All(points, p => Assert.Equal(p.PressureKpa, curve.PressureKpa(p.FlowLpm), 9));
        for (int flow = 1; flow < 120; flow++) Assert.True(curve.PressureKpa(flow) < curve.PressureKpa(flow - 1));
        Assert.False(curve.Rises);
    }

    [Fact]
    public void Pressure_that_rises_with_flow_is_seen_and_evened_out()
    {
        SupplyCurve curve = new([new FlowTestPoint(0, 400), new FlowTestPoint(20, 420), new FlowTestPoint(40, 300)]);
        Assert.True(curve.Rises);
        Assert.Equal(410, curve.PressureKpa(0), 9);
        Assert.Equal(410, curve.PressureKpa(20), 9);
        Assert.Equal(300, curve.PressureKpa(40), 9);
    }

    [Fact]
    public void A_pressure_the_supply_never_has_leaves_no_flow()
    {
        SupplyCurve curve = new([new FlowTestPoint(0, 300), new FlowTestPoint(50, 200)]);
        Assert.Equal(0, curve.LargestFlowLpm(350));
        Assert.Equal(double.PositiveInfinity, new SupplyCurve([new FlowTestPoint(0, 300)]).LargestFlowLpm(100));
    }

    [Fact]
    public void Readings_that_cannot_be_are_refused()
    {
        Assert.Throws<ArgumentException>(() => new SupplyCurve([]));
        Assert.Throws<ArgumentException>(() => new SupplyCurve([new FlowTestPoint(-1, 300)]));
        Assert.Throws<ArgumentException>(() => new SupplyCurve([new FlowTestPoint(0, double.NaN)]));
        Assert.Throws<ArgumentException>(() => new SupplyCurve([new FlowTestPoint(5, 300), new FlowTestPoint(5, 290)]));
    }
}
