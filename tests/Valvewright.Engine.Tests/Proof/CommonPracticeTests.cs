using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Proof;

/// <summary>Common practice as docs/proof.md states it, worked out by hand.</summary>
public class CommonPracticeTests
{
    /// <summary>6 mm a day in July, 3 mm in all other months.</summary>
    private static readonly Climate Summer = new(
        new LocalDate(2023, 1, 1),
        [.. Enumerable.Range(0, 365).Select(d => new LocalDate(2023, 1, 1).PlusDays(d).Month == 7 ? 6.0 : 3.0)],
        new double[365]);

    private static readonly Site North = Sites.Site("North");

    /// <summary>6 mm x 7 / 3 = 14 mm; at 12 mm/h 70 min. With a DU of 0.5 over 0.4 + 0.3: 100 min.</summary>
    [Theory]
    [InlineData(1.0, 70)]
    [InlineData(0.5, 100)]
    public void AJulySettingReplacesAWeekOfJulyInThreeWaterings(double uniformity, int minutes)
    {
        // Half the area gets the low share, so its lowest quarter has that mean.
        Site site = North.WithZones(
            z => z with { Emission = z.Emission with { Spots = new SpotShares([uniformity, 2 - uniformity], [0.5, 0.5], "by hand") } });
        Plan practice = CommonPractice.PeakMonthAllYear(site, Sites.Plan(site, Sites.Daily('A', 1)), [Summer]);
        Program program = Assert.Single(practice.Controllers[0].Settings.Programs);
        Assert.Equal([new RunTime(1, 60 * minutes), new RunTime(2, 60 * minutes)], program.RunTimes);
        Assert.Equal(new DaysOfWeek([IsoDayOfWeek.Monday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Friday]), program.Days);
        Assert.All(practice.Controllers[0].Visits, v => Assert.Equal(100, v.Percent));
    }

    /// <summary>6 mm / 3 = 2 mm: 10 min, three times every day.</summary>
    [Fact]
    public void ASeedbedIsWateredThriceADay()
    {
        Site site = North.WithZones(z => z with { Planting = z.Planting with { Stage = PlantStage.NewlySeeded } });
        Program program = Assert.Single(
            CommonPractice.PeakMonthAllYear(site, Sites.Plan(site, Sites.Daily('A', 1)), [Summer]).Controllers[0].Settings.Programs);
        Assert.Equal(600, program.RunTimes[0].Seconds);
        Assert.Equal(3, program.StartTimes.Count);
        Assert.Equal(new DaysOfWeek(Sites.EveryDay), program.Days);
    }

    [Fact]
    public void TheMonthlyTableFollowsMeanEtoAndThePlansOwnOffDates()
    {
        Plan plan = Sites.Plan(North, Sites.Daily('A', 1));
        plan = plan with { Controllers =
            [plan.Controllers[0] with { Visits = [new Visit(new AnnualDate(4, 10), 100), new Visit(new AnnualDate(10, 20), 0)] }] };
        ListOf<Visit> visits = CommonPractice.MonthlyPercent(North, plan, [Summer]).Controllers[0].Visits;
        Assert.Equal(0, visits.Single(v => v.Date == new AnnualDate(4, 1)).Percent);
        Assert.Equal(50, visits.Single(v => v.Date == new AnnualDate(4, 10)).Percent);
        Assert.Equal(50, visits.Single(v => v.Date == new AnnualDate(6, 1)).Percent);
        Assert.Equal(100, visits.Single(v => v.Date == new AnnualDate(7, 1)).Percent);
        Assert.Equal(0, visits.Single(v => v.Date == new AnnualDate(10, 20)).Percent);
        Assert.Equal(0, visits.Single(v => v.Date == new AnnualDate(12, 1)).Percent);
    }

    [Fact]
    public void SouthOfTheEquatorThePeakMonthIsJanuary()
    {
        Site south = North with { Place = North.Place with { LatitudeDeg = -35 } };
        Assert.Equal(1, CommonPractice.PeakMonth(south));
        Assert.Equal(35 * 60, CommonPractice.PeakMonthAllYear(
            south, Sites.Plan(south, Sites.Daily('A', 1)), [Summer]).Controllers[0].Settings.Programs[0].RunTimes[0].Seconds);
    }

    /// <summary>The lowest quarter of three spots of a third each is three quarters of the driest.</summary>
    [Fact]
    public void UniformityIsTheMeanOfTheDriestQuarterOfTheArea()
    {
        double third = 1.0 / 3;
        Assert.Equal(0.6, LowQuarter.UniformityOf(new SpotShares([1.4, 0.6, 1.0], [third, third, third], "by hand")), 9);
        Assert.Equal((0.2 * 0.5 + 0.05 * 0.9) / 0.25, LowQuarter.UniformityOf(new SpotShares([0.9, 0.5], [0.8, 0.2], "by hand")), 9);
    }

    /// <summary>14 mm on 156 or 157 days of the week's three: the comparison goes through the same replay.</summary>
    [Fact]
    public void ThePracticesAreReplayedBesideThePlan()
    {
        ProofReport report = Proofs
            .Replay(North, Sites.Plan(North, Sites.Daily('A', 20)), [Summer], new ProofOptions(Sites.From, [Summer]));
        Assert.Equal(["this plan", "July setting kept all year", "percent set every month"], report.Comparison.Select(p => p.Name));
        int waterings = Enumerable.Range(0, 365)
            .Count(d => Summer.DateOf(d).DayOfWeek is IsoDayOfWeek.Monday or IsoDayOfWeek.Wednesday or IsoDayOfWeek.Friday);
        Assert.Equal(14 * waterings * 100 / 1000.0, report.Comparison[1].CubicMetresPerYear, 6);
        Assert.True(report.Comparison[2].CubicMetresPerYear < report.Comparison[1].CubicMetresPerYear);
        Assert.Equal(report.Comparison[0].MinimumCubicMetresPerYear, report.Comparison[1].MinimumCubicMetresPerYear);
    }
}
