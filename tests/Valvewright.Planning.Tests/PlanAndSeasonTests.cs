using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Tests;

/// <summary>Programs chosen under a season's percents, and both together.</summary>
public sealed class PlanAndSeasonTests
{
    private static Site Green(int starts = 8) => TestSites.Site(
        60, TestSites.Night(), TestSites.Controller("North", TestSites.Profile(starts: starts) with { Percent = new PercentRange(10, 100, 10) }, TestSites.Zone(1, intakeMmPerHour: 30), TestSites.Zone(2, rootDepthM: 0.6, coefficient: 0.5, intakeMmPerHour: 30)));

    [Fact]
    public void At_half_the_percent_all_year_twice_the_depth_is_planned()
    {
        // No rain and the same use every day: on the same days, the depth that meets the need is twice the depth at 100 %.
        // (So thirsty that what is needed lies above the shortest useful watering.)
        ListOf<Climate> years = [new Climate(new LocalDate(2010, 1, 1), [.. Enumerable.Repeat(16.0, 365)], new double[365])];
        PlannerOptions options = new() { LongestIntervalDays = 1 };
        Site daily = TestSites.Site(60, TestSites.Night(), TestSites.Controller("North", TestSites.Profile(starts: 8, rules: [DayRuleKind.Interval]), TestSites.Zone(1, intakeMmPerHour: 30)));
        PlanResult full = Planner.Plan(daily, years, options), half = Planner.Plan(daily, years, options with { ShareOn = (_, _) => 0.5 });
        foreach (ZoneChosen zone in full.Report.Zones)
        {
            ZoneChosen other = half.Report.Zones.Single(z => z.Station == zone.Station);
            int depth = zone.RunSeconds * zone.Cycles, halved = other.RunSeconds * other.Cycles;
            Assert.InRange(halved, 2 * depth - (120 * zone.Cycles), 2 * depth + (60 * other.Cycles));

            // The water of a year is counted as it falls, not as it is keyed in.
            Assert.InRange(other.LitresPerYear, 0.9 * zone.LitresPerYear, 1.15 * zone.LitresPerYear);
        }
    }

    [Fact]
    public void A_controller_that_the_season_leaves_out_waters_whenever_it_is_on()
    {
        Plan plan = new("Test site",
        [
            new ControllerPlan("North", new Settings([]), [new Visit(new AnnualDate(3, 1), 60), new Visit(new AnnualDate(10, 1), 0)]),
            new ControllerPlan("South", new Settings([]), [new Visit(new AnnualDate(3, 1), 60)]),
        ]);
        Func<string, LocalDate, double?> share = PlanAndSeason.Shares(plan, ["North"]);
        Assert.Equal([0, 0.6, 0.6, 0, null], new double?[]
        {
            share("North", new LocalDate(2026, 2, 28)), share("North", new LocalDate(2026, 3, 1)), share("North", new LocalDate(2026, 9, 30)), share("North", new LocalDate(2026, 12, 1)), share("South", new LocalDate(2026, 6, 1)),
        });
    }

    [Fact]
    public void What_is_kept_is_the_cheapest_round_and_is_never_worse_than_one_after_the_other()
    {
        Site site = Green();
        ListOf<Climate> years = TestSites.DryYears();
        SeasonOptions season = new() { Visits = 3 };
        PlanAndSeasonResult both = PlanAndSeason.Of(site, years, new PlannerOptions(), season);
        Assert.True(both.Rounds.Count >= 2);
        Assert.Equal(both.Rounds.Min(r => r.Season.CostLitres), both.Season!.CostLitres, 9);
        Assert.Equal(both.Rounds.Last(r => r.IsBetter).Plan, both.Plan.Plan);

        PlanResult alone = Planner.Plan(site, years);
        SeasonPlan after = SeasonPlanner.Of(site, alone.Plan!, years, season);
        Assert.Equal(after.CostLitres, both.Rounds[0].Season.CostLitres, 9);
        Assert.True(both.Season.CostLitres <= after.CostLitres);
        Assert.Empty(RuleChecker.Breaches(site, both.Plan.Plan!, new LocalDate(2013, 1, 1), 400, 120));
        Assert.Equal(both, PlanAndSeason.Of(site, years, new PlannerOptions(), season));
    }

    [Fact]
    public void Where_nothing_is_watered_there_is_no_season()
    {
        Site bare = TestSites.Site(20, TestSites.Night(), TestSites.Controller("North", TestSites.Profile()));
        PlanAndSeasonResult none = PlanAndSeason.Of(bare, TestSites.DryYears(), new PlannerOptions(), new SeasonOptions());
        Assert.NotNull(none.Plan.Plan);
        Assert.Null(none.Season);
        Assert.Empty(none.Rounds);
    }
}
