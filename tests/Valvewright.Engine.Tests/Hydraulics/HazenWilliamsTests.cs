using Valvewright.Engine.Hydraulics;
using Valvewright.Engine.Quantities;

namespace Valvewright.Engine.Tests.Hydraulics;

public sealed class HazenWilliamsTests
{
    private const double KpaPerPsi = 6.894757293168361;

    /// <summary>
    /// Friction in schedule 40 plastic pipe, C = 150, feet per 100 feet: Illinois Administrative Code, title 77, part 906, appendix A,
    /// exhibit I. It prints two decimals and uses nominal bores (1.049, 1.380, 1.610, 2.067, 3.068 in). Within 3% where printed precision
    /// allows.
    /// </summary>
    [Theory]
    [InlineData(1.049, 4, 1.01)]
    [InlineData(1.049, 5, 1.52)]
    [InlineData(1.049, 6, 2.14)]
    [InlineData(1.049, 7, 2.89)]
    [InlineData(1.049, 8, 3.63)]
    [InlineData(1.049, 9, 4.57)]
    [InlineData(1.049, 10, 5.50)]
    [InlineData(1.380, 10, 1.46)]
    [InlineData(1.380, 12, 2.09)]
    [InlineData(1.380, 14, 2.74)]
    [InlineData(1.380, 16, 3.49)]
    [InlineData(1.380, 18, 4.37)]
    [InlineData(1.380, 20, 5.23)]
    [InlineData(1.610, 10, 0.70)]
    [InlineData(1.610, 20, 2.46)]
    [InlineData(1.610, 25, 3.75)]
    [InlineData(1.610, 30, 5.22)]
    [InlineData(2.067, 20, 0.74)]
    [InlineData(2.067, 25, 1.10)]
    [InlineData(2.067, 30, 1.54)]
    [InlineData(2.067, 40, 2.62)]
    [InlineData(2.067, 50, 3.98)]
    [InlineData(3.068, 60, 0.81)]
    [InlineData(3.068, 80, 1.38)]
    [InlineData(3.068, 100, 2.09)]
    public void A_printed_friction_table_is_met_within_3_percent(double boreIn, double gpm, double feetPer100Feet)
    {
        double loss = HazenWilliams.LossM(gpm * UsUnits.LitresPerGallon, 100, boreIn * UsUnits.MmPerInch, 150);
        Assert.InRange(loss, (0.97 * feetPer100Feet) - 0.005, (1.03 * feetPer100Feet) + 0.005);
    }

    /// <summary>The US form, psi per foot = 4.52 gpm^1.85 / (C^1.85 in^4.87); the powers are rounded, so half a percent apart.</summary>
    [Theory]
    [InlineData(2, .608)]
    [InlineData(10, 1.033)]
    [InlineData(60, 2.049)]
    public void The_US_form_gives_the_same(double gpm, double boreIn)
    {
        double us = 4.52 * Math.Pow(gpm, 1.85) / (Math.Pow(150, 1.85) * Math.Pow(boreIn, 4.87));
        double ours = HazenWilliams.LossKpa(gpm * UsUnits.LitresPerGallon, UsUnits.MPerFoot, boreIn * UsUnits.MmPerInch, 150) / KpaPerPsi;
        Assert.Equal(1, ours / us, 0.006);
    }

    /// <summary>Velocity, ft/s = .4085 gpm / in2 (Hazen-Williams tables, common practice).</summary>
    [Fact]
    public void Velocity_is_the_tables()
    {
        double feet = HazenWilliams.VelocityMps(10 * UsUnits.LitresPerGallon, UsUnits.MmPerInch) / UsUnits.MPerFoot;
        Assert.Equal(4.085, feet, 0.0005);
    }

    /// <summary>.433 psi for each foot of water.</summary>
    [Fact]
    public void A_foot_of_water_is_0_433_psi() => Assert.Equal(.433, HazenWilliams.KpaPerM * UsUnits.MPerFoot / KpaPerPsi, 0.0006);

    /// <summary>At 5 ft/s v2/2g is 0.118 m: fittings whose K add up to 5 cost 0.59 m.</summary>
    [Fact]
    public void Fittings_cost_K_times_velocity_head()
    {
        double flow = 1.524 * Math.PI * 0.05 * 0.05 / 4 * 60_000;
        Assert.Equal(0.592, HazenWilliams.FittingLossM(flow, 50, 5), 0.001);
    }

    [Fact]
    public void Schedule_40_has_its_average_bores()
    {
        Assert.Equal(1.033 * 25.4, PipeTables.InsideDiameterMm(PipeMaterial.PvcSchedule40, "1"));
        Assert.Equal(2.049 * 25.4, PipeTables.InsideDiameterMm(PipeMaterial.PvcSchedule40, "2"));
        Assert.Null(PipeTables.InsideDiameterMm(PipeMaterial.PvcSchedule40, "7/8"));
    }
}
