using MathNet.Numerics.Distributions;
using Valvewright.Engine.Sprinklers;

namespace Valvewright.Engine.Tests.Sprinklers;

public sealed class FittedSpotsTests
{
    [Fact]
    public void The_quantiles_are_those_of_a_standard_normal()
    {
        for (int i = 0; i < FittedSpots.Count; i++)
        {
            Assert.Equal(Normal.InvCDF(0, 1, (i + 0.5) / FittedSpots.Count), FittedSpots.Quantiles[i], 9);
        }
    }

    [Fact]
    public void Every_uniformity_is_met_exactly_with_mean_one_and_no_spot_left_dry()
    {
        for (int percent = 1; percent <= 100; percent++)
        {
            SpotShares spots = FittedSpots.Of(percent / 100.0);
            Assert.Equal(FittedSpots.Count, spots.Share.Count);
            Assert.Equal(1, spots.Share.Average(), 12);
            Assert.Equal(1, spots.Weight.Sum(), 12);
            Assert.Equal(percent / 100.0, LowQuarter.MeanOf(spots.Share), 9);
            Assert.All(spots.Share, share => Assert.True(share > 0, $"{percent} %: {share}"));
        }
    }

    [Fact]
    public void A_low_uniformity_is_fitted_with_a_distribution_that_has_no_negative_depths()
    {
        Assert.Contains("log-normal", FittedSpots.Of(0.39).Origin, StringComparison.Ordinal);
        Assert.DoesNotContain("log-normal", FittedSpots.Of(0.40).Origin, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-0.1)]
    [InlineData(1.01)]
    [InlineData(double.NaN)]
    public void What_is_no_uniformity_is_refused(double uniformity) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => FittedSpots.Of(uniformity));
}
