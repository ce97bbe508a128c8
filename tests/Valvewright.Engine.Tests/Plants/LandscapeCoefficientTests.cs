using Valvewright.Engine.Plants;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Plants;

public sealed class LandscapeCoefficientTests
{
    /// <summary>Meyer et al. (1985), University of California: turf coefficients by month.</summary>
    [Fact]
    public void Turf_by_month_is_the_published_table()
    {
        ListOf<double> cool = [.61, .64, .75, 1.04, .95, .88, .94, .86, .74, .75, .69, .60];
        ListOf<double> warm = [.61, .54, .76, .72, .79, .68, .71, .71, .62, .54, .58, .55];
        Assert.Equal(cool, LandscapeCoefficient.TurfByMonth(TurfSeason.Cool));
        Assert.Equal(warm, LandscapeCoefficient.TurfByMonth(TurfSeason.Warm));
    }

    /// <summary>ANSI/ASABE S623 gives turf .8 cool and .6 warm: the tables' means lie near them.</summary>
    [Theory]
    [InlineData(TurfSeason.Cool, .8)]
    [InlineData(TurfSeason.Warm, .6)]
    public void The_tables_mean_agrees_with_the_standard(TurfSeason season, double standard) =>
        Assert.InRange(LandscapeCoefficient.TurfByMonth(season).Average(), standard - .06, standard + .06);

    [Fact]
    public void South_of_the_equator_October_has_Aprils_coefficient()
    {
        ListOf<double> north = LandscapeCoefficient.TurfByMonth(TurfSeason.Cool);
        ListOf<double> south = LandscapeCoefficient.TurfByMonth(TurfSeason.Cool, south: true);
        Assert.Equal(1.04, south[9]);
        Assert.Equal(north, south.Skip(6).Concat(south.Take(6)));
    }

    [Fact]
    public void Water_use_classes_lie_within_their_published_ranges()
    {
        // WUCOLS: moderate 40-60 % (read); very low < 10 %, low 10-30 %, high 70-90 % (from memory).
        Assert.InRange(LandscapeCoefficient.SpeciesFactor(WaterUse.VeryLow), 0, .10);
        Assert.InRange(LandscapeCoefficient.SpeciesFactor(WaterUse.Low), .10, .30);
        Assert.InRange(LandscapeCoefficient.SpeciesFactor(WaterUse.Moderate), .40, .60);
        Assert.InRange(LandscapeCoefficient.SpeciesFactor(WaterUse.High), .70, .90);
    }

    [Fact]
    public void KL_is_the_product_of_its_factors() =>
        Assert.Equal(.5 * 1.2 * 1.25, LandscapeCoefficient
            .Of(.5, LandscapeCoefficient.DensityFactor(Density.Dense), LandscapeCoefficient.MicroclimateFactor(Microclimate.Exposed)), 12);
}
