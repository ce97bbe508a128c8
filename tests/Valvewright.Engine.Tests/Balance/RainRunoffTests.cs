using Valvewright.Engine.Balance;
using Valvewright.Engine.Plants;

namespace Valvewright.Engine.Tests.Balance;

public sealed class RainRunoffTests
{
    /// <summary>TR-55 (1986) table 2-1, inches of runoff by inches of rain and curve number; from memory of the table.</summary>
    [Theory]
    [InlineData(2.0, 80, 0.56)]
    [InlineData(3.0, 70, 0.71)]
    [InlineData(3.0, 75, 0.96)]
    [InlineData(4.0, 70, 1.33)]
    [InlineData(4.0, 80, 2.04)]
    [InlineData(5.0, 80, 2.89)]
    public void Runoff_as_tabled(double rainIn, double curveNumber, double runoffIn) =>
        Assert.Equal(runoffIn, new RainRunoff(curveNumber).DepthMm(rainIn * 25.4) / 25.4, 0.006);

    [Fact]
    public void Nothing_runs_off_of_a_light_rain_and_never_more_than_fell()
    {
        RainRunoff clay = RainRunoff.Of(Zones.Make(intakeMmPerHour: 2.54));
        Assert.Equal(0, clay.DepthMm(12));
        Assert.InRange(clay.DepthMm(80), 1, 79);
        Assert.Equal(0, RainRunoff.None.DepthMm(300));
        Assert.Equal(50, new RainRunoff(100).DepthMm(50), 1e-9);
    }

    /// <summary>TR-55 appendix A sorts textures into hydrologic groups; the intake rates are those of the trade's table (in/h).</summary>
    [Theory]
    [InlineData("sand", 0.60, 39)]
    [InlineData("loamy sand", 0.50, 39)]
    [InlineData("sandy loam", 0.40, 39)]
    [InlineData("loam", 0.35, 61)]
    [InlineData("clay loam", 0.20, 80)]
    [InlineData("silty clay", 0.15, 80)]
    [InlineData("clay", 0.10, 80)]
    public void Curve_numbers_of_the_textures_under_grass(string texture, double intakeInPerHour, double curveNumber) =>
        Assert.True(RainRunoff.Of(Zones.Make(intakeMmPerHour: intakeInPerHour * 25.4)).CurveNumber == curveNumber, texture);

    [Fact]
    public void Bare_seedbeds_shed_more() =>
        Assert.Equal(86, RainRunoff.Of(Zones.Make(intakeMmPerHour: 8.9, stage: PlantStage.NewlySeeded)).CurveNumber);
}
