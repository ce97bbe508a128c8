using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Proof;

public class WorkloadTests
{
    /// <summary>2 x 20 min a day: 243.5 h, 4 pulses a day; 36 mC a pulse are 14.61 mAh, 10 uA of standby 87.66 mAh.</summary>
    [Fact]
    public void HoursPulsesAndBatteryOfAYear()
    {
        Site site = Sites.Site("North").With(c => c with { Profile = c.Profile with { Power = new PowerDemand(2000, 10, 36, 0.03) } });
        Workload load = Sites.Prove(site, Sites.Plan(site, Sites.Daily('A', 20))).Workloads[0];
        Assert.Equal(365.25 * 2 / 3, load.HoursPerYear, 6);
        Assert.Equal(365.25 * 4, load.PulsesPerYear, 6);
        Assert.Equal(14.61 + 87.66, load.BatteryMahPerYear, 6);
        Assert.Equal(2.0 / 3, load.HoursOnBusiestDay, 9);
    }

    /// <summary>North 03:00-03:40, South 03:20-04:00: 20 L/min for 20 minutes, one hour with water.</summary>
    [Fact]
    public void PeakAndHoursOfASupply()
    {
        Site site = Sites.Site("North", "South");
        Plan plan = new(site.Name, [
            new ControllerPlan("North", new Settings([Sites.Daily('A', 20)]), []),
            new ControllerPlan("South", new Settings([Sites.Daily('A', 20, new LocalTime(3, 20))]), [])]);
        SupplyProof supply = Sites.Prove(site, plan).Supplies[0];
        Assert.Equal(new FlowPeak(20, new LocalDateTime(2026, 1, 1, 3, 20)), supply.Peak);
        Assert.Equal(1, supply.HoursOnBusiestDay, 9);
    }

    /// <summary>One valve closes in the very second in which another opens: that is not two at once.</summary>
    [Fact]
    public void TakingTurnsToTheSecondIsNoOverlap()
    {
        Site site = Sites.Site("North", "South").WithSupply(s => s with { FlowLpm = 10 });
        Plan plan = new(site.Name, [
            new ControllerPlan("North", new Settings([Sites.Daily('A', 20)]), []),
            new ControllerPlan("South", new Settings([Sites.Daily('A', 20, new LocalTime(3, 40))]), [])]);
        ProofReport report = Sites.Prove(site, plan);
        Assert.Empty(report.Breaches);
        Assert.Equal(10, report.Supplies[0].Peak!.Lpm);
    }

    /// <summary>A seedbed sown on 1 May is replayed for its 30 days alone, by the hour; what it gets in them is counted.</summary>
    [Fact]
    public void ASeedbedCountsForItsOwnDays()
    {
        Site site = Sites.Site("North").WithZones(z => z.Station == 2 ? z : z with
        {
            Planting = z.Planting with { Stage = PlantStage.NewlySeeded, RootDepthM = 0.03, Since = new LocalDate(2026, 5, 1) },
        });
        // 3 x 10 min x 12 mm/h = 6 mm a day for 4 mm of use; RAW is 1.8 mm, so the day must be split.
        Program thrice = Sites.Daily('A', 10, new LocalTime(2, 0), new LocalTime(3, 0), new LocalTime(5, 0));
        Program spread = thrice with { StartTimes = [new LocalTime(9, 0), new LocalTime(12, 0), new LocalTime(15, 0)] };
        ZoneProof night = Sites.Prove(site, Sites.Plan(site, thrice)).Zones[0], day = Sites.Prove(site, Sites.Plan(site, spread)).Zones[0];
        Assert.Equal(30, day.DaysAYear, 9);
        Assert.Equal(30 * 6, day.AppliedMm, 6);
        Assert.True(night.UnmetMm > day.UnmetMm + 1, $"night {night.UnmetMm}, day {day.UnmetMm}");
        Assert.Equal(365, Sites.Prove(site, Sites.Plan(site, spread)).Zones[1].DaysAYear, 9);
    }
}
