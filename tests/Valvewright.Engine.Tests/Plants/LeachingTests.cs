using Valvewright.Engine.Plants;

namespace Valvewright.Engine.Tests.Plants;

public sealed class LeachingTests
{
    /// <summary>Woods, turf note on salinity, 2020: water of 2.3 dS/m on turf that bears 12 dS/m needs a leaching fraction of
    /// .04.</summary>
    [Fact]
    public void The_worked_example_of_a_turf_note() => Assert.Equal(.04, Leaching.FractionOf(2.3, 12), 2);

    /// <summary>ECw / (5 ECe - ECw), Ayers and Westcot 1985, worked out by hand for 1.3 dS/m.</summary>
    [Theory]
    [InlineData(3, .095)]
    [InlineData(6, .045)]
    [InlineData(2, .149)]
    public void The_formula_of_FAO_29_by_hand(double soil, double fraction) => Assert.Equal(fraction, Leaching.FractionOf(1.3, soil), 3);

    [Fact]
    public void Fresh_water_needs_none_and_very_salty_water_is_capped()
    {
        Assert.Equal(0, Leaching.FractionOf(0.69, 1));
        Assert.Equal(Leaching.LargestFraction, Leaching.FractionOf(6, 2));
        Assert.Equal(Leaching.LargestFraction, Leaching.FractionOf(10, 2));
    }
}
