using CsCheck;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Tests;

namespace Valvewright.Engine.Tests.Proof;

/// <summary>A saved plan can hold whatever somebody wrote into it: the proof judges it, and never gives up.</summary>
public class AnyPlanIsJudgedTests
{
    private static readonly Gen<int> Odd = Gen.OneOf(Gen.Int[-2, 5], Gen.Int[0, 20_000], Gen.Const(int.MaxValue), Gen.Const(int.MinValue));

    private static readonly Gen<LocalDate> GenDate = Gen
        .Select(Gen.Int[1990, 2060], Gen.Int[1, 365], (y, d) => new LocalDate(y, 1, 1).PlusDays(d - 1));

    private static readonly Gen<DayRule?> GenDays = Gen.OneOf<DayRule?>(
        Gen.Int[0, 0].Select(_ => (DayRule?)null),
        Gen.Const((DayRule?)new OddDays()),
        Gen.Select(Odd, GenDate, (n, anchor) => (DayRule?)new EveryNDays(n, anchor)),
        Gen.Int[0, 7].Array[0, 3].Select(d => (DayRule?)new DaysOfWeek(d.Select(i => (IsoDayOfWeek)i).ToListOf())));

    private static readonly Gen<Program> GenProgram = Gen.Select(
        Gen.Char["ABCz\u0000"],
        Gen.Int[0, 86_399].Select(s => LocalTime.FromSecondsSinceMidnight(s)).Array[0, 5],
        Gen.Select(Odd, Odd, (station, seconds) => new RunTime(station, seconds)).Array[0, 5],
        GenDays,
        (letter, starts, runs, days) => new Program(letter, starts.ToListOf(), runs.ToListOf(), days));

    private static readonly Gen<ControllerPlan> GenController = Gen.Select(
        Gen.OneOf(Gen.Const("North"), Gen.Const("South"), Gen.Const("West"), Gen.Const("")),
        GenProgram.Array[0, 4],
        Odd,
        Gen.Select(Gen.Int[1, 12], Gen.Int[1, 29], Odd, (month, day, percent) =>
            new Visit(new AnnualDate(month, day), percent)).Array[0, 4],
        (name, programs, percent, visits) => new ControllerPlan(name, new Settings(programs.ToListOf(), percent), visits.ToListOf()));

    [Fact]
    public void WhateverThePlanHolds()
    {
        Site site = Sites.Site("North", "South");
        GenController.Array[0, 3].ForEvery(controllers =>
        {
            ProofReport report = Proofs.Replay(
                site, new Plan("x", controllers.ToListOf()), [Sites.Steady(4, 1)], new ProofOptions(Sites.From, []) { CalendarYears = 1 });
            return report.Verdict.RulesKept == (report.Breaches.Count == 0) && Json.Write(report).Length > 0;
        }, iter: 300);
    }
}
