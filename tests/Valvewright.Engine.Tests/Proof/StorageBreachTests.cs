using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Storage;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Tests.Proof;

/// <summary>A plan that empties its tank, or starts its pump too often, fails; one that just does not, passes.</summary>
public sealed class StorageBreachTests
{
    /// <summary>By hand: two lawns of 10 L/min, 20 min one after the other, draw 400 L; 1 L/min brings 40 L meanwhile: the tank falls by
    /// 360 L every morning.</summary>
    [Theory]
    [InlineData(460, 0)]
    [InlineData(440, 20)]
    public void A_tank_that_a_night_empties_is_found(double volumeL, double shortL)
    {
        Site site = Sites.Site("North").WithSupply(s => s with { Tank = new WaterTank(volumeL, 1, 100) });
        ProofReport report = Sites.Prove(site, Sites.Plan(site, Sites.Daily('A', 20)));
        if (shortL == 0)
        {
            Assert.Empty(report.Breaches);
            return;
        }

        Breach breach = Assert.Single(report.Breaches);
        Assert.Equal((BreachKind.TankRunsShort, "main", new LocalDate(2026, 1, 1)),
            (breach.Kind, breach.Where, breach.FirstAt!.Value.Date));
        Assert.Equal(BreachMeasure.VolumeL, breach.Worst!.Measure);
        Assert.Equal(shortL, breach.Worst.Found, 6);
        Assert.Equal(4 * 365 + 1, breach.Count);
        Assert.False(report.Verdict.Passed);
    }

    /// <summary>Starts at 3:00, 3:30 and 4:00 of 10 and 10 minutes: within an hour the pump starts twice, and three times in 60 minutes
    /// and a second.</summary>
    [Theory]
    [InlineData(2, 0, false)]
    [InlineData(1, 0, true)]
    [InlineData(1, 600, false)]
    public void A_pump_that_starts_too_often_is_found(int allowed, int runsOnSeconds, bool isBreach)
    {
        Site site = Sites.Site("North").WithSupply(s => s with { Pump = new PumpLimit(allowed, Duration.FromSeconds(runsOnSeconds)) });
        ProofReport report = Sites.Prove(site,
            Sites.Plan(site, Sites.Daily('A', 10, new LocalTime(3, 0), new LocalTime(3, 30), new LocalTime(4, 0))));
        Breach[] found = [.. report.Breaches.Where(b => b.Kind == BreachKind.PumpStartsTooOften)];
        Assert.Equal(isBreach, found.Length == 1);
        if (isBreach) Assert.Equal(new BreachFigure(BreachMeasure.StartsPerHour, 2, 1), found[0].Worst);
    }
}
