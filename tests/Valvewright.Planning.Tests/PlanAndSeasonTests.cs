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
        60, TestSites.Night(), TestSites.Controller(
            "North", TestSites.Profile(starts: starts) with { Percent = new PercentRange(10, 100, 10) },
                TestSites.Zone(1, intakeMmPerHour: 30), TestSites.Zone(2, rootDepthM: 0.6, coefficient: 0.5, intakeMmPerHour: 30)));

    [Fact]
    public void At_half_the_percent_all_year_twice_the_depth_is_planned()
    {
        // No rain and the same use every day: on the same days, the depth that serves is twice the depth at 100 %.
        ListOf<Climate> years = [new Climate(new LocalDate(2010, 1, 1), [.. Enumerable.Repeat(16.0, 365)], new double[365])];
        PlannerOptions options = new() { LongestIntervalDays = 1, PercentOn = (_, _) => 100 };
        Site daily = TestSites.Site(60, TestSites.Night(), TestSites
            .Controller("North", TestSites.Profile(starts: 8, rules: [DayRuleKind.Interval]), TestSites.Zone(1, intakeMmPerHour: 30)));
        PlanResult full = Planner.Plan(daily, years, options), half = Planner.Plan(daily, years, options with { PercentOn = (_, _) => 50 });
        foreach (ZoneChosen zone in full.Report.Zones)
        {
            ZoneChosen other = half.Report.Zones.Single(z => z.Station == zone.Station);
            int depth = zone.RunSeconds * zone.Cycles, halved = other.RunSeconds * other.Cycles;
            Assert.InRange(halved, 1.9 * depth, 2.1 * depth);

            // The water of a year is counted as it falls, not as it is keyed in.
            Assert.InRange(other.LitresPerYear, 0.9 * zone.LitresPerYear, 1.1 * zone.LitresPerYear);
        }
    }

    [Fact]
    public void What_is_kept_is_the_best_round_and_keeps_every_rule()
    {
        Site site = Green();
        ListOf<Climate> years = TestSites.DryYears();
        SeasonOptions season = new() { Visits = 3 };
        PlanAndSeasonResult both = PlanAndSeason.Of(site, years, new PlannerOptions(), season);
        Assert.True(both.Rounds.Count >= 2);
        Assert.Equal(both.Rounds.Last(r => r.IsBetter).Plan, both.Plan.Plan);
        Assert.All(both.Rounds, r => Assert.False(r.Season.IsBetterThan(both.Season!)));
        Assert.Empty(RuleChecker.Breaches(site, both.Plan.Plan!, new LocalDate(2013, 1, 1), 400, 120));
        Assert.Equal(both, PlanAndSeason.Of(site, years, new PlannerOptions(), season));
    }

    /// <summary>The highest percent of the year is near 100, so that a step of the percent is fine.</summary>
    [Fact]
    public void Run_times_are_for_the_highest_percent_of_the_year()
    {
        PlanAndSeasonResult both = PlanAndSeason.Of(Green(), TestSites.DryYears(), new PlannerOptions(), new SeasonOptions { Visits = 3 });
        Assert.InRange(both.Season!.Controllers.Single().Percents.Max(), 80, 100);
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
