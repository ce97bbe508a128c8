using Valvewright.Engine.Plants;

namespace Valvewright.Engine.Tests.Plants;

public sealed class StageRulesTests
{
    private static readonly Planting Tree = new("tree", PlantStage.Established, LandscapeCoefficient.AllYear(.3), 0.8, 0.5);

    [Fact]
    public void A_seedbed_is_a_few_centimetres_that_evaporate_like_wet_ground()
    {
        Planting seedbed = StageRules.At(Tree, PlantStage.NewlySeeded);
        Assert.InRange(seedbed.RootDepthM, 0.02, 0.05);
        Assert.All(seedbed.CoefficientByMonth, kl => Assert.InRange(kl, 0.95, 1.15));
        Assert.Equal(PlantStage.NewlySeeded, seedbed.Stage);
    }

    [Fact]
    public void An_establishing_planting_is_shallower_thirstier_and_less_patient()
    {
        Planting young = StageRules.At(Tree, PlantStage.Establishing);
        Assert.True(young.RootDepthM < Tree.RootDepthM);
        Assert.True(young.AllowedDepletion < Tree.AllowedDepletion);
        Assert.All(young.CoefficientByMonth, kl => Assert.True(kl > .3));
    }

    [Fact]
    public void A_dormant_planting_uses_little_and_may_dry_far()
    {
        Planting dormant = StageRules.At(Tree, PlantStage.Dormant);
        Assert.True(dormant.AllowedDepletion > Tree.AllowedDepletion);
        Assert.All(dormant.CoefficientByMonth, kl => Assert.True(kl < .3 / 2));
        Assert.Equal(Tree.RootDepthM, dormant.RootDepthM);
    }

    [Fact]
    public void An_established_planting_stays_as_it_is() => Assert.Equal(Tree, StageRules.At(Tree, PlantStage.Established));

    [Fact]
    public void Every_kind_has_possible_numbers_and_a_source()
    {
        Assert.Equal(PlantKinds.All.Count, PlantKinds.All.Select(kind => kind.Name).Distinct().Count());
        Assert.All(PlantKinds.All, kind =>
        {
            Assert.InRange(kind.DryFactor, .1, 1.2);
            Assert.True(kind.HumidFactor >= kind.DryFactor);
            Assert.InRange(kind.RootDepthM, .05, 2);
            Assert.InRange(kind.AllowedDepletion, .2, .8);
            Assert.NotEmpty(kind.FactorSource);
            Assert.Same(kind, PlantKinds.Named(kind.Name));
        });
    }
}
