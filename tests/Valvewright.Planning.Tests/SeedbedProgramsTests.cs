using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Programs;

namespace Valvewright.Planning.Tests;

/// <summary>Programs for a seedbed, on a plan of round numbers for a demo site: sown 10 April, a lawn from 10 May.</summary>
public sealed class SeedbedProgramsTests
{
    private static readonly LocalDate From = new(2026, 4, 1);

    private static readonly (Site Site, YearSplit Split, BuiltClimate Built) Demo = DemoSites.Load("quarry-hill");

    private static readonly ListOf<Climate> Training = [.. Demo.Split.Training.Select(y => y.Of(Demo.Built.Climate))];

    private static Program Runs(char letter, int hour, int minute, DayRule days, params (int Station, int Minutes)[] runs) =>
        new(letter, [new LocalTime(hour, minute)], [.. runs.Select(r => new RunTime(r.Station, 60 * r.Minutes))], days);

    private static Plan PlanOf(DayRule trees) => new(Demo.Site.Name,
    [
        new ControllerPlan("Gate",
            new Settings([Runs('A', 2, 30, new EveryNDays(2, From.PlusDays(1)), (1, 46), (2, 58)), Runs('B', 5, 15, trees, (3, 90))]),
            [new Visit(new AnnualDate(4, 2), 50), new Visit(new AnnualDate(9, 10), 0)]),
        new ControllerPlan("Terrace",
            new Settings(
            [
                Runs('A', 16, 0, new DaysOfWeek([IsoDayOfWeek.Monday]), (1, 130), (3, 170)),
                Runs('B', 7, 0, new EveryNDays(1, From), (2, 26)),
            ]),
            [new Visit(new AnnualDate(4, 2), 50), new Visit(new AnnualDate(9, 10), 0)]),
    ]);

    [Fact]
    public void At_sowing_it_is_keyed_in_alone_and_taken_out_when_it_is_a_lawn()
    {
        Plan plan = PlanOf(new EveryNDays(14, From.PlusDays(1)));
        Plan sown = SeedbedPrograms.With(Demo.Site, plan, Training, From)!;
        ControllerPlan gate = sown.For("Gate");
        Assert.Equal(
            [(new AnnualDate(4, 2), 50), (new AnnualDate(4, 10), 100), (new AnnualDate(5, 10), 50), (new AnnualDate(9, 10), 0)],
            gate.Visits.Select(v => (v.Date, v.Percent)));
        Assert.Equal(plan.For("Gate").Settings.Programs, gate.Visits[2].Programs);
        Assert.Equal(plan.For("Terrace"), sown.For("Terrace"));

        // Half of 58 minutes at 50 % is the same 29 minutes at 100 %; the trees, which bear weeks without water, wait.
        ListOf<Program> during = gate.Visits[1].Programs!;
        Assert.Equal([(2, 29 * 60)], during[0].RunTimes.Select(r => (r.Station, r.Seconds)));
        Assert.Equal(plan.For("Gate").Settings.Programs[0].StartTimes, during[0].StartTimes);
        Program seedbed = during[1];
        Assert.Equal([1], seedbed.RunTimes.Select(r => r.Station));
        Assert.InRange(seedbed.StartTimes.Count, 2, 4);
        Assert.All(seedbed.StartTimes, t => Assert.True(t < new LocalTime(12, 0) || t >= new LocalTime(15, 0), $"{t}"));

        Climate[] unseen = [.. Demo.Split.HeldBack.Select(y => y.Of(Demo.Built.Climate))];
        ProofReport proof = Proofs.Replay(Demo.Site, sown, unseen, new ProofOptions(From, []));
        Assert.Empty(proof.Breaches);
        ZoneProof own = Assert.Single(proof.Seedbeds);
        Assert.Equal((1, Seedbed.Days), (own.Station, own.DaysAYear));
        Assert.True(own.IsServed, $"{own.UseMet}");
        Assert.True(proof.Zones[0].AppliedMm > own.AppliedMm + 100, "as a lawn it is watered all summer");
    }

    [Fact]
    public void Where_no_program_can_wait_there_is_no_room()
    {
        // Trees on a shallow root zone bear no ten days: neither of the two programs can be left out for a month.
        Site shallow = Demo.Site with
        {
            Controllers = Demo.Site.Controllers.Select(c => c with
            {
                Zones = c.Zones.Select(z => z.Station == 3 ? z with { Planting = z.Planting with { RootDepthM = 0.15 } } : z).ToListOf(),
            }).ToListOf(),
        };
        Assert.Null(SeedbedPrograms.With(shallow, PlanOf(new EveryNDays(5, From.PlusDays(1))), Training, From));
    }

    [Fact]
    public void The_site_is_one_of_lawns_for_the_rest_of_the_year()
    {
        Site lawns = SeedbedVisits.AsLawns(Demo.Site);
        Assert.DoesNotContain(lawns.Controllers.SelectMany(c => c.Zones), Seedbed.IsOne);
        Assert.Equal(
            Demo.Site.Controllers[0].Zones[1].Planting.RootDepthM, lawns.Controllers[0].Zones[0].Planting.RootDepthM);
        Assert.Equal(Demo.Site.Controllers[1], lawns.Controllers[1]);
    }
}
