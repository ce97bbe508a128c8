using System.Diagnostics;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Proof.ByHand;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Surveys;
using Valvewright.Tests;
using Xunit.Abstractions;

namespace Valvewright.Planning.Tests.Changes;

/// <summary>Settings changed by hand: what the proof says of the same plan, sooner.</summary>
public sealed class WhatIfTests(ITestOutputHelper output)
{
    private static readonly LocalDate From = new(2026, 4, 1);

    [Fact]
    public void It_says_what_the_proof_says_of_the_same_years_and_follows_each_change()
    {
        Site site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "saguaro-lane")).Site!;
        BuiltClimate built = ClimateBuilder.Build(SiteWeather.Read(site).Record!);
        YearSplit split = built.Split(site.Place.LatitudeDeg);
        ListOf<Climate> years = [.. split.HeldBack.Select(y => y.Of(built.Climate))];
        Plan plan = new(site.Name, site.Controllers.Select(c => new ControllerPlan(
            c.Name,
            new Settings([new Program('A', [new LocalTime(22, 0)], c.Zones.Select(z => new RunTime(z.Station, 1800)).ToListOf(),
                new EveryNDays(3, From))]),
            [new Visit(new AnnualDate(3, 1), 100), new Visit(new AnnualDate(11, 1), 50)])).ToListOf());
        WhatIfYears asked = new(site, years, From);
        Compare(site, years, asked.Of(plan));

        // Another run time, another percent of a visit, a start by day that the supply does not permit.
        Plan changed = plan with
        {
            Controllers = plan.Controllers.Select((c, i) => i > 0 ? c : c with
            {
                Settings = c.Settings with
                {
                    Programs = c.Settings.Programs
                        .Select(p => p with { StartTimes = [new LocalTime(11, 0)], RunTimes = p.RunTimes
                        .Select(r => r with { Seconds = 2400 }).ToListOf() }).ToListOf(),
                },
                Visits = [new Visit(new AnnualDate(3, 1), 80), new Visit(new AnnualDate(11, 1), 0)],
            }).ToListOf(),
        };
        Stopwatch watch = Stopwatch.StartNew();
        WhatIf then = asked.Of(changed);
        output.WriteLine($"{watch.ElapsedMilliseconds} ms for {years.Count} years");
        Compare(site, years, then);
        Assert.Contains(then.Breaches, b => b.Kind == BreachKind.OutsidePermittedTimes);
        Assert.Equal(asked.Of(plan), new WhatIfYears(site, years, From).Of(plan));

    }

    /// <summary>Touch after touch, with whatever rules, times and percents: starts near midnight and near the change of clocks, programs
    /// that wait for each other or are lost, controllers that are busy all day.</summary>
    [Theory]
    [InlineData("polder-green")]
    [InlineData("gulf-reserve")]
    [InlineData("ridge-allotments")]
    public void It_agrees_with_the_proof_on_any_plan(string demo)
    {
        const int Plans = 12, Years = 3, MostMinutes = 240;
        Site site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", demo)).Site!;
        BuiltClimate built = ClimateBuilder.Build(SiteWeather.Read(site).Record!);
        ListOf<Climate> years = [.. built.Split(site.Place.LatitudeDeg).HeldBack.Take(Years).Select(y => y.Of(built.Climate))];
        WhatIfYears asked = new(site, years, From);
        Random random = new(20260401);
        for (int i = 0; i < Plans; i++)
        {
            Plan plan = new(site.Name, site.Controllers.Select(c => new ControllerPlan(c.Name,
                new Settings([.. Enumerable.Range(0, Math.Min(c.Profile.Programs, 3)).Select(p => AnyProgram(c, (char)('A' + p)))]),
                random.Next(3) == 0 ? [] : [new Visit(new AnnualDate(3, 20), 100),
                    new Visit(new AnnualDate(7, 2), 40 + (10 * random.Next(10))),
                    new Visit(new AnnualDate(11, 1), random.Next(2) * 50)])).ToListOf());
            Compare(site, years, asked.Of(plan));
        }

        Program AnyProgram(SiteController controller, char letter) => new(letter,
            [.. Enumerable.Range(0, random.Next(1, 4)).Select(_ => new LocalTime(random.Next(24), 10 * random.Next(6))).Distinct().Order()],
            controller.Zones.Where(_ => random.Next(3) > 0).Select(z => new RunTime(z.Station,
                60 * random.Next(1, random.Next(4) == 0 ? MostMinutes : 30))).ToListOf(),
            random.Next(4) switch
            {
                0 => new DaysOfWeek([.. Enumerable.Range(1, 7).Where(_ => random.Next(2) == 0).Select(d => (IsoDayOfWeek)d)]),
                1 => new OddDays(),
                2 => new EvenDays(),
                _ => new EveryNDays(random.Next(1, 12), From.PlusDays(random.Next(12))),
            });
    }

    private static void Compare(Site site, ListOf<Climate> years, WhatIf what)
    {
        ProofReport proof = Proofs.Replay(site, what.Plan, years, new ProofOptions(From, []) { CalendarYears = 1 });
        Assert.Equal(proof.Breaches, what.Breaches);
        Assert.Equal(proof.Supplies, what.Supplies);
        foreach ((ZoneProof wanted, WhatIfZone got) in proof.Zones.Zip(what.Zones))
        {
            Assert.Equal((wanted.Controller, wanted.Station), (got.Controller, got.Station));
            Assert.Equal(wanted.AppliedMm, got.AppliedMm, 6);
            Assert.Equal(wanted.UseMet, got.UseMet, 6);
            Assert.Equal(wanted.IsServed, got.IsServed);
        }
    }
}
