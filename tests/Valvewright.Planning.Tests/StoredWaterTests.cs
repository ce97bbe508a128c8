using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Storage;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Tests;

/// <summary>Tanks and pumps: the plan keeps to what they hold and allow, and the proof, which knows nothing of the planner's rules, agrees.
/// Without regard to them the same sites break them.</summary>
public sealed class StoredWaterTests
{
    private static readonly LocalDate First = new(2013, 1, 1);
    private static readonly ListOf<Climate> Years = TestSites.DryYears();

    /// <summary>Four zones of 100 m2 use about 2200 L on a day in July; the tank holds one night of two of them, and 3600 L flow in per
    /// day.</summary>
    private static Site OnATank(double volumeL = 3800, double refillLpm = 2.5) => Supplied(
        TestSites.Site(
            60, TestSites.Night(),
            TestSites.Controller("North", TestSites.Profile(starts: 8), TestSites.Zone(1), TestSites.Zone(2)),
            TestSites.Controller("South", TestSites.Profile(starts: 8), TestSites.Zone(1), TestSites.Zone(2))),
        new WaterTank(volumeL, refillLpm, 200), null);

    /// <summary>Between two stations the pump stops: every run is a start. Eight zones are watered daily, a few minutes each.</summary>
    private static Site OnAPump(int startsPerHour) => Supplied(
        TestSites.Site(
            60, TestSites.Night(),
            TestSites.Controller(
                "North", TestSites.Profile(stations: 8, programs: 1, rules: [DayRuleKind.Interval], interval: 1) with
                    { PauseBetweenStationsSeconds = 30 },
                [.. Enumerable.Range(1, 8).Select(i =>
                    TestSites.Zone(i, rateMmPerHour: 60, flowLpm: 50, areaM2: 50, intakeMmPerHour: 70))])),
        null, new PumpLimit(startsPerHour, Duration.Zero));

    [Fact]
    public void A_tank_that_holds_a_night_is_not_run_dry()
    {
        Assert.Contains(Breaches(OnATank(), 0), b => b.Kind == BreachKind.TankRunsShort);
        Assert.DoesNotContain(Breaches(OnATank(), 1), b => b.Kind == BreachKind.TankRunsShort);
    }

    [Fact]
    public void A_large_tank_changes_nothing() => Assert.Equal(Plan(OnATank(1e6), 0).Plan, Plan(OnATank(1e6), 1).Plan);

    [Fact]
    public void A_pump_starts_as_often_as_it_may()
    {
        Assert.Contains(Breaches(OnAPump(6), 0), b => b.Kind == BreachKind.PumpStartsTooOften);
        Assert.DoesNotContain(Breaches(OnAPump(6), 1), b => b.Kind == BreachKind.PumpStartsTooOften);
    }

    private static PlanResult Plan(Site site, double share) =>
        Planner.Plan(site, Years, new PlannerOptions { StorageShare = share, InForceFrom = First });

    private static ListOf<Breach> Breaches(Site site, double share) =>
        Proofs.Replay(site, Plan(site, share).Plan!, [Years[0]], new ProofOptions(First, [])).Breaches;

    private static Site Supplied(Site site, WaterTank? tank, PumpLimit? pump) =>
        site with { Supplies = [.. site.Supplies.Select(s => s with { Tank = tank, Pump = pump })] };
}
