using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Proof;

/// <summary>A sound plan has no breach; each fault put into it is found, and nothing else is.</summary>
public class PlantedBreachTests
{
    [Fact]
    public void ASoundPlanHasNone()
    {
        ProofReport report = Sites.Prove(Sites.Site("North"), Sites.Plan(Sites.Site("North"), Sites.Daily('A', 20)));
        Assert.Empty(report.Breaches);
        Assert.True(report.Verdict.RulesKept);
    }

    public static TheoryData<string, Program> NotKeyable => new()
    {
        { "programs A to B", Sites.Daily('C', 20) },
        { "4 start times; it holds 3", Sites.Daily('A', 5, new(3, 0), new(4, 0), new(5, 0), new(6, 0)) },
        { "steps of 5 min", Sites.Daily('A', 20, new LocalTime(3, 2)) },
        { "steps of 60 s", Sites.Daily('A', 20) with { RunTimes = [new RunTime(1, 90)] } },
        { "takes up to 14400 s", Sites.Daily('A', 20) with { RunTimes = [new RunTime(1, 14460)] } },
        { "run time of 0 s", Sites.Daily('A', 20) with { RunTimes = [new RunTime(1, 0), new RunTime(2, 60)] } },
        { "by odd dates", Sites.Daily('A', 20) with { Days = new OddDays() } },
        { "every 8 days", Sites.Daily('A', 20) with { Days = new EveryNDays(8, Sites.From) } },
        { "rising order", Sites.Daily('A', 20) with { RunTimes = [new RunTime(2, 60), new RunTime(1, 60)] } },
        { "one start time is set twice", Sites.Daily('A', 20, new LocalTime(3, 0), new LocalTime(3, 0)) },
    };

    [Theory]
    [MemberData(nameof(NotKeyable))]
    public void WhatTheControllerCannotHoldIsFound(string words, Program program)
    {
        Site site = Sites.Site("North");
        if (program.RunTimes[0].Seconds > 14000)
        {
            site = site.WithSupply(s => s with { Permitted = PermittedTimes.Always });
        }

        Breach breach = Assert.Single(Sites.Prove(site, Sites.Plan(site, program)).Breaches);
        Assert.Equal(BreachKind.NotKeyable, breach.Kind);
        Assert.Contains(words, breach.What, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(55)]
    [InlineData(210)]
    public void APercentThatCannotBeSetIsFound(int percent)
    {
        Site site = Sites.Site("North").WithSupply(s => s with { Permitted = PermittedTimes.Always });
        Plan plan = new(site.Name,
            [new ControllerPlan("North", new Settings([Sites.Daily('A', 20)]),
                [new Visit(new AnnualDate(4, 1), percent), new Visit(new AnnualDate(10, 1), 0)])]);
        Assert.Equal(BreachKind.NotKeyable, Assert.Single(Sites.Prove(site, plan).Breaches).Kind);
    }

    [Theory]
    [InlineData(3)]
    [InlineData(9)]
    public void AStationWithoutAZoneIsFound(int station)
    {
        Site site = Sites.Site("North");
        Plan plan = Sites.Plan(site, Sites.Daily('A', 20) with { RunTimes = [new RunTime(1, 600), new RunTime(station, 600)] });
        Assert.Equal(BreachKind.StationWithoutZone, Assert.Single(Sites.Prove(site, plan).Breaches).Kind);
    }

    [Fact]
    public void AControllerWithoutAPlanAndAPlanWithoutAControllerAreFound()
    {
        Site site = Sites.Site("North", "South");
        Plan plan = new(site.Name,
            [Sites.Plan(site, Sites.Daily('A', 20)).Controllers[0], new ControllerPlan("West", new Settings([]), [])]);
        Assert.Equal(
            [(BreachKind.ControllerMissing, "South"), (BreachKind.ControllerMissing, "West")],
            Sites.Prove(site, plan).Breaches.Select(b => (b.Kind, b.Where)));
    }

    /// <summary>60 + 60 minutes from 06:01 would be over at 08:01.</summary>
    [Fact]
    public void OneMinuteOutsideThePermittedHoursIsFound()
    {
        Site site = Sites.Site("North")
            .With(c => c with { Profile = c.Profile with { StartStepMinutes = 1, ClockKnowsDaylightSaving = true } });
        Breach breach = Assert.Single(Sites.Prove(site, Sites.Plan(site, Sites.Daily('A', 60, new LocalTime(6, 1)))).Breaches);
        Assert.Equal(BreachKind.OutsidePermittedTimes, breach.Kind);
        Assert.Contains("station 2", breach.Where, StringComparison.Ordinal);
        Assert.Equal(new BreachFigure(BreachMeasure.Seconds, 60, 0), breach.Worst);
        Assert.Equal((4 * 365) + 1, breach.Count);
        Assert.Empty(Sites.Prove(site, Sites.Plan(site, Sites.Daily('A', 60, new LocalTime(6, 0)))).Breaches);
    }

    [Fact]
    public void WateringOnAForbiddenDayIsFound()
    {
        Site site = Sites.Site("North")
            .WithSupply(s => s with { Permitted = s.Permitted with { Weekdays = [IsoDayOfWeek.Monday, IsoDayOfWeek.Thursday] } });
        Program program = Sites.Daily('A', 20) with { Days = new DaysOfWeek([IsoDayOfWeek.Monday, IsoDayOfWeek.Friday]) };
        ListOf<Breach> breaches = Sites.Prove(site, Sites.Plan(site, program)).Breaches;
        Assert.Equal(2, breaches.Count);
        Assert.All(breaches, b => Assert.Equal(IsoDayOfWeek.Friday, b.FirstAt!.Value.DayOfWeek));
    }

    /// <summary>An interval of two days waters on even and odd dates in turn, across every month of 31 days.</summary>
    [Fact]
    public void AnIntervalStraysFromPermittedEvenDates()
    {
        Site site = Sites.Site("North").WithSupply(s => s with { Permitted = s.Permitted with { Parity = DateParity.Even } });
        Program every = Sites.Daily('A', 20) with { Days = new EveryNDays(2, new LocalDate(2026, 1, 2)) };
        Breach breach = Sites.Prove(site, Sites.Plan(site, every)).Breaches[0];
        Assert.Equal(new LocalDate(2026, 2, 1), breach.FirstAt!.Value.Date);
        Assert.Empty(Sites.Prove(site, Sites.Plan(site, every with { Days = new EvenDays() })).Breaches);
    }

    [Fact]
    public void DripMayBeExemptFromHours()
    {
        Site site = Sites.Site("North").WithZones(z => z with { Emission = z.Emission with { Kind = EmissionKind.Drip } });
        Plan plan = Sites.Plan(site, Sites.Daily('A', 20, new LocalTime(12, 0)));
        Assert.NotEmpty(Sites.Prove(site, plan).Breaches);
        Assert.Empty(Sites.Prove(site.WithSupply(s => s with { Permitted = s.Permitted with { DripIsExempt = true } }), plan).Breaches);
    }

    [Fact]
    public void TooMuchFlowFromControllersThatDoNotKnowEachOtherIsFound()
    {
        Site site = Sites.Site("North", "South", "West");
        Breach breach = Assert.Single(Sites.Prove(site, Sites.Plan(site, Sites.Daily('A', 20))).Breaches);
        Assert.Equal(BreachKind.FlowOverSupply, breach.Kind);
        Assert.Equal(new BreachFigure(BreachMeasure.FlowLpm, 30, 20), breach.Worst);
        Assert.Contains("North 1 + South 1 + West 1", breach.What, StringComparison.Ordinal);
    }

    [Fact]
    public void AStartThatIsLostIsFound()
    {
        Site site = Sites.Site("North").With(c => c with { Profile = c.Profile with { Overlap = OverlapBehaviour.Lost } });
        Breach breach = Assert
            .Single(Sites.Prove(site, Sites.Plan(site, Sites.Daily('A', 20), Sites.Daily('B', 5, new LocalTime(3, 30)))).Breaches);
        Assert.Equal((BreachKind.StartLost, "North, program B"), (breach.Kind, breach.Where));
    }

    [Fact]
    public void MoreDepthThanARuleAllowsIsFound()
    {
        // 20 min at 12 mm/h are 4 mm; twice a day 8 mm.
        Plan plan = Sites.Plan(Sites.Site("North"), Sites.Daily('A', 20, new LocalTime(3, 0), new LocalTime(4, 0)));
        Site cycle = Sites.Site("North").WithZones(z => z with { LargestDepthPerCycleMm = z.Station == 1 ? 3.9 : 4.0 });
        Assert.Equal(BreachKind.DepthPerCycle, Assert.Single(Sites.Prove(cycle, plan).Breaches).Kind);
        Site day = Sites.Site("North").WithZones(z => z with { LargestDepthPerDayMm = z.Station == 1 ? 7.9 : 8.0 });
        Assert.Equal(BreachKind.DepthPerDay, Assert.Single(Sites.Prove(day, plan).Breaches).Kind);
    }
}
