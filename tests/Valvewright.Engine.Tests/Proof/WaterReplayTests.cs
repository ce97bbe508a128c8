using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Tests.Proof;

/// <summary>Sums done by hand.</summary>
public class WaterReplayTests
{
    /// <summary>20 min at 12 mm/h a day replace 4 mm of ETo exactly: no stress, no drainage.</summary>
    [Fact]
    public void ExactlyWhatIsUsed()
    {
        Site site = Sites.Site("North");
        ZoneProof zone = Sites.Prove(site, Sites.Plan(site, Sites.Daily('A', 20))).Zones[0];
        Assert.Equal(4 * 365, zone.AppliedMm, 6);
        // Perfect foresight lets RAW be used up first: (0.5 + 0.04) x 60 mm at 4 mm a day.
        Assert.Equal((4 * 365) - 32.4, zone.MinimumMm, 6);
        Assert.Equal(1460.0 / 1427.6, zone.WaterRatio, 9);
        Assert.Equal(1, zone.UseMet, 9);
        Assert.Equal(0, zone.DrainageMm, 6);
        Assert.Equal(0, zone.LongestDryDays);
        Assert.True(zone.IsServed);
    }

    /// <summary>Two halves of 1.6 and 0.4: DU 0.4, so the low quarter gets 0.64 of 4 mm. It cannot have 90 % of its use met.</summary>
    [Fact]
    public void TheLowQuarterDecides()
    {
        Site site = Sites.Site("North")
            .WithZones(z => z with { Emission = z.Emission with { Spots = new SpotShares([1.6, 0.4], [0.5, 0.5], "by hand") } });
        ProofReport report = Sites.Prove(site, Sites.Plan(site, Sites.Daily('A', 20)));
        ZoneProof zone = report.Zones[0];
        Assert.InRange(zone.UseMet, 0.64, 0.70);
        Assert.Equal(zone.UseMet, zone.DriestUseMet, 9);
        Assert.Equal(zone.DemandMm, zone.UnmetMm + (zone.UseMet * zone.DemandMm), 6);
        Assert.Equal(zone.MinimumMm / 0.64, zone.AuditorMm, 6);
        Assert.False(zone.IsServed);
        Assert.False(report.Verdict.ZonesServed);
        Assert.True(report.Verdict.RulesKept);
        Assert.Equal(2, report.Verdict.Reasons.Count);
    }

    [Fact]
    public void NothingIsAppliedOutsideTheSeason()
    {
        Site site = Sites.Site("North");
        Plan plan = Sites.Plan(site, Sites.Daily('A', 20));
        plan = plan with { Controllers = [
            plan.Controllers[0] with
                { Visits = [new Visit(new AnnualDate(4, 1), 50), new Visit(new AnnualDate(6, 1), 100),
                    new Visit(new AnnualDate(10, 1), 0)] }] };
        // April and May at half, June to September in full.
        Assert.Equal((61 * 2) + (122 * 4), Sites.Prove(site, plan).Zones[0].AppliedMm, 6);
    }

    /// <summary>
    /// Intake 3 mm/h, 2 mm may stand, 12 mm/h fall: 60 x 2 / 9 = 13 min 20 s are the longest cycle. Of 20 min, 6 min 40 s at 9 mm/h,
    /// 1 mm, run off.
    /// </summary>
    [Fact]
    public void ACycleThatIsTooLongRunsOff()
    {
        Site site = Sites.Site("North").WithZones(z => z with { Soil = z.Soil with { IntakeMmPerHour = 3, SurfaceStorageMm = 2 } });
        ProofReport report = Sites.Prove(site, Sites.Plan(site, Sites.Daily('A', 20)));
        Assert.Equal(365, report.Zones[0].RunoffMm, 6);
        Assert.Equal([BreachKind.RunsOff, BreachKind.RunsOff], report.Breaches.Select(b => b.Kind));
        Assert.Contains("runs 20 min, the ground takes 13.3 min", report.Breaches[0].What, StringComparison.Ordinal);
        Assert.Equal(1, report.Breaches[0].Worst!.Found, 9);
        Assert.Empty(Sites.Prove(site, Sites.Plan(site, Sites.Daily('A', 13))).Breaches);
    }

    /// <summary>
    /// 13 min leave 9 x 13/60 = 1.95 mm standing. After 30 min of soak at 3 mm/h 0.45 mm are left: 1.95 + 0.45 - 2 = 0.4 mm run off.
    /// After 39 min nothing is left.
    /// </summary>
    [Fact]
    public void ASoakThatIsTooShortRunsOff()
    {
        Site site = Sites.Site("North")
            .WithZones(z => z with { Soil = z.Soil with { IntakeMmPerHour = 3, SurfaceStorageMm = 2 } })
            .With(c => c with { Profile = c.Profile with { StartStepMinutes = 1 } });
        Program twice = Sites.Daily('A', 13, new LocalTime(3, 0), new LocalTime(3, 43)) with { RunTimes = [new RunTime(1, 13 * 60)] };
        ProofReport report = Sites.Prove(site, Sites.Plan(site, twice));
        Assert.Equal(0.4 * 365, report.Zones[0].RunoffMm, 6);
        Assert.Contains("before the last cycle has soaked in", Assert.Single(report.Breaches).What, StringComparison.Ordinal);
        Assert.Equal(0.4, report.Breaches[0].Worst!.Found, 9);
        Program apart = twice with { StartTimes = [new LocalTime(3, 0), new LocalTime(3, 52)] };
        Assert.Equal(0, Sites.Prove(site, Sites.Plan(site, apart)).Zones[0].RunoffMm, 9);
    }

    [Fact]
    public void TwoRunsReportTheSame()
    {
        Site site = Sites.Site("North", "South");
        Plan plan = Sites.Plan(site, Sites.Daily('A', 20));
        Assert.Equal(Sites.Prove(site, plan), Sites.Prove(site, plan));
    }
}
