using Valvewright.Engine.Quantities;
using Valvewright.Engine.Sprinklers;

namespace Valvewright.Engine.Tests.Sprinklers;

public sealed class PrecipitationRateTests
{
    /// <summary>Klickitat PUD: 10 gpm on 1000 square feet is 0.9625 in/h (96.25 x gpm / ft2).</summary>
    [Fact]
    public void Ten_gallons_a_minute_on_a_thousand_square_feet()
    {
        double rate = PrecipitationRate.FromFlowAndArea(10 * Units.GallonPerMinute.Factor, 1000 * Units.SquareFoot.Factor);
        Assert.Equal(0.9625, rate / Units.InchPerHour.Factor, 9);
    }

    /// <summary>
    /// University of Nevada Cooperative Extension: ETo .35 in/day, efficiency 85 %, 15 x 15 ft, 3.60 gpm: 15.9 minutes, "approx 16".
    /// </summary>
    [Fact]
    public void A_published_run_time_follows_from_the_rate()
    {
        double rate = PrecipitationRate.FromFlowAndArea(
            3.60 * Units.GallonPerMinute.Factor, 15 * 15 * Units.SquareFoot.Factor) / Units.InchPerHour.Factor;
        Assert.Equal(16, 60 * .35 / (rate * .85), 0.5);
    }

    [Fact]
    public void Spacing_flow_and_area_agree()
    {
        double rate = PrecipitationRate.FromSpacing(5.5, 4, 5);
        double heads = PrecipitationRate.CountOnGrid(200, 4, 5);
        Assert.Equal(rate, PrecipitationRate.FromFlowAndArea(heads * 5.5, 200), 12);
        Assert.Equal(heads * 5.5, PrecipitationRate.FlowLpm(rate, 200), 12);
    }
}
