using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Choices;
using Valvewright.Planning.Season;

namespace Valvewright.Planning.Tests;

/// <summary>Small sites, drawn at random with fixed seeds, against trying everything; and every rule of every plan against the
/// emulator.</summary>
public sealed class AgainstBruteForce
{
    private static readonly LocalDate First = new(2012, 1, 1);

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(9)]
    [InlineData(10)]
    public void Unmet_need_cost_and_settings_are_the_least_there_are(int seed)
    {
        Random random = new(seed);
        ListOf<Climate> years = TestSites.DryYears(2, seed);
        Profile profile = TestSites.Profile(4, random.Next(1, 4), random.Next(1, 4), rules: seed % 2 == 0 ? [DayRuleKind.DaysOfWeek]
            : [DayRuleKind.Interval, DayRuleKind.Odd], interval: 8);
        Site site = TestSites.Site(1000, TestSites.Night(18, 9),
            TestSites.Controller("Only", profile, [.. Enumerable.Range(1, random.Next(2, 5)).Select(s => Drawn(s, random))]));
        PlannerOptions options = new();
        ControllerCase of = new(site, site.Controllers[0], options, First, new ZoneMemory(years, new YearsOfZones(years)));
        (long Short, long Cost, long Settings)? best = BruteForce.Best(of, options.WaterWorthFewerSettings);
        PlanResult result = Planner.Plan(site, years, options with { InForceFrom = First });
        if (best is not { } least)
        {
            Assert.True(result.Plan is null || result.Report.Levels[0].Value > 0);
            return;
        }

        Assert.NotNull(result.Plan);
        Assert.Empty(RuleChecker.Breaches(site, result.Plan, First, 800, 0));
        Assert.Equal(PlanStatus.Proven, result.Report.Status);
        Assert.Equal(least.Short, result.Report.Levels[0].Value, 6);
        Assert.Equal(least.Cost, result.Report.Levels[1].Bound, 6);
        Assert.InRange(result.Report.Levels[1].Value, least.Cost, least.Cost * (1 + options.WaterWorthFewerSettings));
        Assert.Equal(least.Settings, result.Report.Levels[2].Value, 6);
    }

    [Theory]
    [InlineData(11)]
    [InlineData(12)]
    [InlineData(13)]
    [InlineData(14)]
    [InlineData(15)]
    [InlineData(16)]
    public void Every_rule_holds_where_controllers_share_a_thin_supply(int seed)
    {
        Random random = new(seed);
        ListOf<Climate> years = TestSites.DryYears(2, seed);
        SiteController[] controllers = [.. Enumerable.Range(1, random.Next(2, 5)).Select(c => TestSites.Controller(
            $"Box {c}",
            TestSites.Profile(4, random.Next(1, 4), random.Next(2, 5), step: random.Next(2) == 0 ? 15 : 1) with
            {
                PauseBetweenStationsSeconds = random.Next(2) * 10,
                Overlap = (OverlapBehaviour)random.Next(3),
                OddSkips31 = random.Next(2) == 0,
            },
            [.. Enumerable.Range(1, random.Next(1, 4)).Select(s => Drawn(s, random))]))];
        Site site = TestSites
            .Site(random.Next(30, 60), random.Next(2) == 0 ? TestSites.Night(19, 8) : Engine.Supply.PermittedTimes.Always, controllers);
        PlanResult result = Planner.Plan(site, years, new PlannerOptions { InForceFrom = First });
        Assert.NotNull(result.Plan);
        Assert.Empty(RuleChecker.Breaches(site, result.Plan, First, 1500, 120));
        Assert.True(result.Report.Gap <= 0.01, string.Join('\n', result.Report.Levels));
    }

    private static Zone Drawn(int station, Random random) => TestSites.Zone(
        station,
        flowLpm: random.Next(8, 28),
        rateMmPerHour: random.Next(8, 30),
        rootDepthM: random.Next(20, 100) / 100.0,
        coefficient: random.Next(3, 10) / 10.0,
        intakeMmPerHour: random.Next(6, 25),
        areaM2: random.Next(50, 300));
}
