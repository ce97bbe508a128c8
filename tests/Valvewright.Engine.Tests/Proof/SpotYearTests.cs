using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Proof;

/// <summary>A spot looked at day by day is the spot that the proof has judged.</summary>
public class SpotYearTests
{
    private static readonly Site Uneven = Sites.Site("North")
        .WithZones(z => z with { Emission = z.Emission with { Spots = new SpotShares([1.6, 0.4], [0.5, 0.5], "by hand") } });

    [Fact]
    public void AgreesWithTheProof()
    {
        Plan plan = Sites.Plan(Uneven, Sites.Daily('A', 20));
        Climate year = Sites.Steady(4, 0.5);
        ZoneProof zone = Sites.Prove(Uneven, plan, year).Zones[0];
        SpotYear followed = SpotYear.Of(Uneven, plan, "North", zone.Station, null, year);
        Assert.Equal(zone.AppliedMm, followed.AppliedMm.Sum(), 9);
        Assert.Equal(zone.DemandMm, followed.WantedMm.Sum(), 9);
        Assert.Equal(zone.UnmetMm, followed.UnmetMm, 9);
    }

    /// <summary>4 mm are used each day; the dry spot gets 0.4 + 0.6 x 0.4 = 0.64 of 4 mm, so it loses 1.44 mm a day until plants use
    /// less.</summary>
    [Fact]
    public void TheDrySpotDriesByHand()
    {
        SpotYear dry = SpotYear.Of(Uneven, Sites.Plan(Uneven, Sites.Daily('A', 20)), "North", 1, 1, Sites.Steady(4, 0));
        Assert.Equal(1.44, dry.DepletionMm[0], 9);
        Assert.Equal(14.4, dry.DepletionMm[9], 9);
        Assert.Equal(30, dry.Root.ReadilyMm, 9);
        Assert.All(dry.DepletionMm, d => Assert.InRange(d, 0, dry.Root.TotalMm));
    }

    [Fact]
    public void AControllerWithoutAPlanGetsNoWater()
    {
        SpotYear bare = SpotYear.Of(Uneven, new Plan(Uneven.Name, []), "North", 1, 0, Sites.Steady(4, 0));
        Assert.Equal(0, bare.AppliedMm.Sum());
        Assert.Equal(365, bare.DepletionMm.Count);
        Assert.Equal(new LocalDate(2023, 1, 1), bare.Weather.First);
    }
}
