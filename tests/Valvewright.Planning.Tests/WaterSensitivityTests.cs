using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Sensitivity;

namespace Valvewright.Planning.Tests;

/// <summary>How far water moves with what it rests on.</summary>
public class WaterSensitivityTests
{
    private static readonly LocalDate First = new(2012, 1, 1);

    [Fact]
    public void Water_moves_as_the_trade_says()
    {
        ListOf<Climate> years = TestSites.DryYears(3, 7);
        Site site = TestSites.Site(1000, TestSites.Night(18, 9),
            TestSites.Controller("Only", TestSites.Profile(4, 2, 4, rules: [DayRuleKind.Interval], interval: 8), TestSites.Zone(1)));
        Plan plan = Planner.Plan(site, years, new PlannerOptions { InForceFrom = First }).Plan!;
        ListOf<WaterSensitivity> found = WaterSensitivity.Of(site, plan, years);
        WaterSensitivity Of(WaterFactor factor) => found.Single(f => f.Factor == factor);

        Assert.Equal(Enum.GetValues<WaterFactor>().Length, found.Count);
        Assert.Equal(found.OrderByDescending(f => Math.Max(Math.Abs(f.LowM3), Math.Abs(f.HighM3))), found);

        // Less even water takes more of it, thirstier plants take more, deeper roots and a lower weight take less.
        Assert.True(Of(WaterFactor.Uniformity) is { LowM3: > 0, HighM3: < 0 });
        Assert.True(Of(WaterFactor.Coefficient) is { LowM3: < 0, HighM3: > 0 });
        Assert.True(Of(WaterFactor.RootDepth).HighM3 <= Of(WaterFactor.RootDepth).LowM3);
        Assert.True(Of(WaterFactor.UnmetUseWeight) is { LowM3: < 0, HighM3: > 0 });

        // Run time goes as the scheduling multiplier, 1 / (0.4 + 0.6 DU) (docs/plants-and-soil.md has its sources).
        double uniformity = LowQuarter.UniformityOf(site.Controllers[0].Zones[0].Emission.Spots);
        double water = Of(WaterFactor.Uniformity).LowM3
            / ((LowQuarter.RunTimeMultiplier(uniformity - 0.1) / LowQuarter.RunTimeMultiplier(uniformity)) - 1);
        double less = water * ((LowQuarter.RunTimeMultiplier(uniformity + 0.1) / LowQuarter.RunTimeMultiplier(uniformity)) - 1);
        Assert.InRange(Of(WaterFactor.Uniformity).HighM3 / less, 0.8, 1.2);
    }
}
