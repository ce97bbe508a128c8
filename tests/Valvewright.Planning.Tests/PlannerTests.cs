using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Values;

namespace Valvewright.Planning.Tests;

public sealed class PlannerTests
{
    private static readonly LocalDate First = new(2013, 1, 1);

    [Fact]
    public void Two_controllers_take_turns_on_a_thin_supply()
    {
        Site site = TestSites.Site(
            25, TestSites.Night(),
            TestSites.Controller("North", TestSites.Profile(), TestSites.Zone(1), TestSites.Zone(2, rootDepthM: 0.9, coefficient: 0.5)),
            TestSites.Controller("South", TestSites.Profile(), TestSites.Zone(1), TestSites.Zone(3, flowLpm: 12)));
        PlanResult result = Planner.Plan(site, TestSites.DryYears());
        Assert.NotNull(result.Plan);
        Assert.Empty(RuleChecker.Breaches(site, result.Plan, First, 800, 120));
        Assert.Equal(PlanStatus.Proven, result.Report.Status);
        Assert.True(result.Report.Gap <= 0.01, string.Join('\n', result.Report.Levels));
    }

    [Fact]
    public void Two_runs_give_the_same_plan()
    {
        Site site = TestSites.Site(
            30, TestSites.Night(),
            TestSites.Controller("North", TestSites.Profile(), TestSites.Zone(1), TestSites.Zone(2, rootDepthM: 0.9, coefficient: 0.5),
                TestSites.Zone(3, intakeMmPerHour: 6)),
            TestSites.Controller("South", TestSites.Profile(), TestSites.Zone(1), TestSites.Zone(3, flowLpm: 12)));
        ListOf<Climate> years = TestSites.DryYears();
        PlanResult once = Planner.Plan(site, years);
        PlanResult again = Planner.Plan(site, years);
        Assert.NotNull(once.Plan);
        Assert.Equal(once, again);
    }

    [Fact]
    public void A_zone_that_rain_carries_gets_no_run_time_and_a_controller_of_such_zones_nothing_at_all()
    {
        ListOf<Climate> wet = [.. TestSites.DryYears().Select(y =>
            new Climate(y.First, [.. y.EtoMm.Select(e => 0.4 * e)], [.. y.RainMm.Select((_, day) => day % 4 == 0 ? 12.0 : 0)]))];
        Zone natives = TestSites.Zone(2, rootDepthM: 0.6, coefficient: 0.3);
        Site site = TestSites.Site(
            30, TestSites.Night(),
            TestSites.Controller("North", TestSites.Profile(), TestSites.Zone(1, rootDepthM: 0.05, coefficient: 1.2), natives),
            TestSites.Controller("South", TestSites.Profile(), natives));
        Plan plan = Planner.Plan(site, wet).Plan!;
        Assert.Equal([1], plan.For("North").Settings.Programs.SelectMany(p => p.RunTimes).Select(r => r.Station).Distinct());
        Assert.Empty(plan.For("South").Settings.Programs);

        Plan dry = Planner.Plan(site, TestSites.DryYears()).Plan!;
        Assert.Contains(dry.For("South").Settings.Programs, p => p.RunTimes.Any(r => r.Station == 2 && r.Seconds > 0));
    }

    [Fact]
    public void A_seedbed_and_old_trees_share_a_two_program_controller()
    {
        Site site = TestSites.Site(
            25, new Engine.Supply.PermittedTimes([], Engine.Supply.PermittedTimes.EveryWeekday),
            TestSites.Controller("Gate", TestSites.Profile(), TestSites.Zone(
                1, rootDepthM: 0.03, coefficient: 1, stage: PlantStage.NewlySeeded), TestSites.Zone(2, rootDepthM: 1.2, coefficient: 0.5)));
        PlanResult result = Planner.Plan(site, TestSites.DryYears());
        Assert.NotNull(result.Plan);
        Assert.Empty(RuleChecker.Breaches(site, result.Plan, First, 400, 0));
        Program seedbed = result.Plan.For("Gate").Settings.Programs.First(p => p.RunTimes.Any(r => r.Station == 1));
        Program trees = result.Plan.For("Gate").Settings.Programs.First(p => p.RunTimes.Any(r => r.Station == 2));
        Assert.NotSame(seedbed, trees);
        Assert.True(seedbed.StartTimes.Count >= 2);
    }

    [Fact]
    public void A_zone_that_draws_more_than_its_supply_gives_is_told_before_any_search()
    {
        Site site = TestSites.Site(
            25, TestSites.Night(),
            TestSites.Controller("Gate", TestSites.Profile(), TestSites.Zone(1, flowLpm: 20), TestSites.Zone(2, flowLpm: 25.2)),
            TestSites.Controller("Wall", TestSites.Profile(), TestSites.Zone(1, flowLpm: 30), TestSites.Zone(2, flowLpm: 25)));
        PlanResult result = Planner.Plan(site, TestSites.DryYears());
        Assert.Null(result.Plan);
        Assert.Equal(PlanStatus.Impossible, result.Report.Status);
        Assert.Equal(0, result.Report.EffortSeconds);
        Assert.Equal(
            ["Zone 2 on Gate draws 25.2 L/min and Main gives 25 L/min.", "Zone 1 on Wall draws 30 L/min and Main gives 25 L/min."],
                result.Obstacles.Select(o => o.What.Text));
        Assert.All(result.Obstacles, o => Assert.True(Files.Texts.Sentences.IsWorded(o.What), o.What.Pattern));
    }

    [Fact]
    public void Sprinklers_drip_and_trees_get_programs_of_their_own_while_letters_are_free()
    {
        Zone Shrubs(int station) => TestSites
            .Zone(station, flowLpm: 8, rateMmPerHour: 8, rootDepthM: 0.45, coefficient: 0.5, kind: Engine.Sprinklers.EmissionKind.Drip);
        Site site = TestSites.Site(
            25, Engine.Supply.PermittedTimes.Always,
            TestSites.Controller("Gate", TestSites.Profile(stations: 6, programs: 3), TestSites.Zone(1), Shrubs(2), TestSites.Zone(3),
                TestSites.Zone(4, rootDepthM: 0.9, coefficient: 0.5)));
        PlanResult result = Planner.Plan(site, TestSites.DryYears());
        Assert.NotNull(result.Plan);
        Assert.Empty(RuleChecker.Breaches(site, result.Plan, First, 400, 0));
        Assert.Empty(KeyedByHand.Objections(site, result.Plan));
        string[] programs = [.. result.Plan.For("Gate").Settings.Programs.Select(p => string.Join(' ', p.RunTimes.Select(r => r.Station)))
            .Order(StringComparer.Ordinal)];
        Assert.Equal(["1 3", "2", "4"], programs);
    }
}
