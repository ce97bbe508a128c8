using Valvewright.Engine.Budget;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Sprinklers;

namespace Valvewright.Engine.Tests.Budget;

public sealed class MweloTests
{
    private const double SquareFootM2 = UsUnits.MPerFoot * UsUnits.MPerFoot;

    /// <summary>Worked example of the ordinance's 2009 edition: ETo 51.1 in, 50,000 square feet, ETAF 0.7: 1,108,870 gallons per
    /// year.</summary>
    [Fact]
    public void The_ordinances_worked_example_comes_out_to_the_gallon() =>
        Assert.Equal(1_108_870, Gallons(Mwelo.AllowanceL(51.1 * 25.4, 50_000 * SquareFootM2, 0.7)), 0.5);

    /// <summary>
    /// The same by hand with a special area of 2,000 square feet, whose factor is 1:
    /// 51.1 x .62 x (.55 x 50,000 + .45 x 2,000) = 899,769 gallons.
    /// </summary>
    [Fact]
    public void A_special_area_is_allowed_its_whole_ETo() =>
        Assert.Equal(899_768.8,
            Gallons(Mwelo.AllowanceL(
                51.1 * 25.4, 50_000 * SquareFootM2, Mwelo.AdjustmentFactor(LandscapeUse.Residential), 2000 * SquareFootM2)), 0.5);

    /// <summary>By hand: 50 in x .62 x (.8 / .75 x 1,000 + .3 / .81 x 2,000) = 56,029.6 gallons.</summary>
    [Fact]
    public void Estimated_use_adds_up_the_zones()
    {
        Hydrozone lawn = new(1000 * SquareFootM2, 0.8, Mwelo.IrrigationEfficiency(EmissionKind.Spray));
        Hydrozone bed = new(2000 * SquareFootM2, 0.3, Mwelo.IrrigationEfficiency(EmissionKind.Drip));
        Assert.Equal(56_029.6, Gallons(Mwelo.EstimatedUseL(50 * 25.4, [lawn, bed])), 0.1);
        Assert.Equal(Mwelo.EstimatedUseL(1270, lawn) + Mwelo.EstimatedUseL(1270, bed), Mwelo.EstimatedUseL(1270, [lawn, bed]), 9);
    }

    /// <summary>NIST SP 811: a gallon is 231 cubic inches, so one inch on a square foot is 144/231 gal; the ordinance's 0.62 is 0.54%
    /// less.</summary>
    [Fact]
    public void The_ordinances_rounding_is_known() => Assert.Equal(0.62 * 231 / 144, Mwelo.LPerMmM2, 9);

    [Fact]
    public void Figures_that_cannot_be_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Mwelo.AllowanceL(double.NaN, 1, 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => Mwelo.AllowanceL(1000, 100, 55));
        Assert.Throws<ArgumentOutOfRangeException>(() => Mwelo.AllowanceL(1000, 100, 0.5, 200));
        Assert.Throws<ArgumentOutOfRangeException>(() => Mwelo.EstimatedUseL(1000, new Hydrozone(100, 0.5, 0)));
    }

    private static double Gallons(double liters) => liters / UsUnits.LitresPerGallon;
}
