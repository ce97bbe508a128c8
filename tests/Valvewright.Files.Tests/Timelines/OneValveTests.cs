using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Timelines;

namespace Valvewright.Files.Tests.Timelines;

/// <summary>One valve is one valve, and what a date shows does not depend on the dates asked for.</summary>
public sealed class OneValveTests
{
    private static readonly LocalDate Since = new(2026, 6, 1);

    /// <summary>Station 1 for 30 min from 06:00 in program A, for 10 min from 06:10 in program B: the pipe gives the flow once, for 30
    /// min.</summary>
    [Fact]
    public void A_valve_that_two_programs_hold_open_takes_its_flow_once()
    {
        (Site site, Plan plan) = Beside(OverlapBehaviour.RunsBeside, [
            new Program('A', [new LocalTime(6, 0)], [new RunTime(1, 1800)], EveryDay),
            new Program('B', [new LocalTime(6, 10)], [new RunTime(1, 600)], EveryDay),
        ]);
        LocalDate date = new(2026, 7, 14);
        SiteWaterings waterings = SiteWaterings.Of(site, plan, date, date);
        double flowLpm = site.Controllers[0].Zones[0].Emission.FlowLpm;
        Assert.Equal(2, waterings.Waterings.Count);
        Assert.All(SupplyFlow.Of(waterings, "Tank"), s => Assert.Equal(flowLpm, s.FlowLpm, 9));
        Assert.Equal(30 * flowLpm, SupplyFlow.Litres(waterings, "Tank", date, date), 6);
    }

    /// <summary>Eight stations of 11,250 s, 25 hours in all, started once a day: the queue never empties, so where it was begun
    /// counts.</summary>
    [Fact]
    public void A_queue_that_never_empties_is_the_same_whichever_dates_are_asked_for()
    {
        (Site site, Plan plan) = Beside(OverlapBehaviour.WaitsItsTurn, [
            new Program('A', [new LocalTime(6, 0)], [.. Enumerable.Range(1, 8).Select(s => new RunTime(s, 11_250))], EveryDay),
        ]);
        LocalDate date = new(2026, 7, 20);
        Instant[] On(LocalDate from) => [.. SiteWaterings.Of(site, plan, from, date.PlusDays(1), since: Since).Waterings
            .Where(w => w.Station == 1 && w.Opens.InZone(site.Zone()).Date == date).Select(w => w.Opens)];
        Assert.Equal(On(Since), On(date));
        Assert.Equal(On(Since), On(new LocalDate(2026, 7, 10)));
    }

    [Fact]
    public void Nothing_runs_before_the_plan_is_in_force()
    {
        (Site site, Plan plan) = Beside(
            OverlapBehaviour.WaitsItsTurn, [new Program('A', [new LocalTime(6, 0)], [new RunTime(1, 600)], EveryDay)]);
        SiteWaterings waterings = SiteWaterings.Of(site, plan, Since.PlusDays(-3), Since.PlusDays(1), since: Since);
        Assert.Equal([Since, Since.PlusDays(1)], waterings.Waterings.Select(w => w.Opens.InZone(site.Zone()).Date));
        Assert.Empty(SiteWaterings.Of(site, plan, Since.PlusDays(-9), Since.PlusDays(-5), since: Since).Waterings);
    }

    private static DaysOfWeek EveryDay { get; } = new([.. Enumerable.Range(1, 7).Select(d => (IsoDayOfWeek)d)]);

    private static (Site Site, Plan Plan) Beside(OverlapBehaviour overlap, ListOf<Program> programs)
    {
        Site site = Sites.Of("America/Phoenix", false);
        SiteController east = site.Controllers[0] with { Profile = site.Controllers[0].Profile with { Overlap = overlap, Stations = 8 } };
        return (site with { Controllers = [east] }, new Plan(site.Name, [new ControllerPlan("East", new Settings(programs), [])]));
    }
}
