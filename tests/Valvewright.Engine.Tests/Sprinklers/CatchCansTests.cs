using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Sprinklers;

public sealed class CatchCansTests
{
    // NC Cooperative Extension AG-553-1, sixteen cans, inches. It prints no answers: mean, DUlq and CU below were worked by hand.
    private static readonly ListOf<double> Extension = [.57, .69, .83, .65, .61, .38, .27, .64, .51, .26, .36, .52, .79, .65, .61, .86];

    [Fact]
    public void The_extension_bulletins_cans_have_the_uniformity_worked_by_hand()
    {
        CatchCans cans = new(Extension, 60, 25.4);
        Assert.Equal(.575, cans.Mean, 9);
        Assert.Equal(55.2, 100 * cans.LowQuarterUniformity, 0.05);
        Assert.Equal(74.9, 100 * cans.ChristiansenUniformity, 0.05);
        Assert.Equal("lowest 4 of 16 cans", cans.QuarterRule);
    }

    /// <summary>Irrigation Association auditor worksheet: net rate, in/h = 3.66 x mean mL / (minutes x opening in square inches); 60 /
    /// 16.387 = 3.6614.</summary>
    [Fact]
    public void The_net_rate_is_the_auditors_worksheets()
    {
        const double SquareInchCm2 = 6.4516;
        CatchCans cans = CatchCans.OfLitres([.020, .030, .025, .025], 10, 16 * SquareInchCm2 / 10_000);
        Assert.Equal(60 / 16.387064 * 25 / (10 * 16), cans.NetRateMmPerHour / 25.4, 9);
    }

    [Fact]
    public void A_quarter_that_is_no_whole_number_counts_the_last_can_in_part()
    {
        // 6 cans: the lowest 1.5, so (1 + 0.5 x 2) / 1.5.
        Assert.Equal(2.0 / 1.5, LowQuarter.MeanOf([6, 5, 4, 3, 2, 1]), 12);
        Assert.Contains("counted in part", new CatchCans([1, 2, 3, 4, 5, 6], 1, 1).QuarterRule, StringComparison.Ordinal);
    }

    [Fact]
    public void Doubling_every_can_changes_no_uniformity()
    {
        CatchCans once = new(Extension, 60, 25.4);
        CatchCans twice = new(Extension.Concat(Extension).ToListOf(), 60, 25.4);
        Assert.Equal(once.LowQuarterUniformity, twice.LowQuarterUniformity, 12);
        Assert.Equal(once.ChristiansenUniformity, twice.ChristiansenUniformity, 12);
    }

    [Fact]
    public void The_cans_are_the_spots()
    {
        SpotShares spots = new CatchCans(Extension, 60, 25.4).Spots();
        Assert.Equal(1, spots.Share.Zip(spots.Weight, (share, weight) => share * weight).Sum(), 12);
        Assert.Equal(1, spots.Weight.Sum(), 12);
        Assert.Equal(.26 / .575, spots.Share.Min(), 12);
    }
}
