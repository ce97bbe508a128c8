using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Tests.Proof;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Plans;

/// <summary>Visits that key in other programs beside the percent.</summary>
public sealed class ProgramChangesTests
{
    private static readonly LocalDate Anchor = new(2026, 1, 1);

    private static Program Every(int days, int minutes = 20) =>
        new('A', [new LocalTime(3, 0)], [new RunTime(1, 60 * minutes)], new EveryNDays(days, Anchor));

    /// <summary>Every 2 days from 1 May, every 6 from 1 October over the new year; 50 % in July.</summary>
    private static ControllerPlan Changing(string controller = "only") => new(controller, new Settings([Every(2)]),
    [
        new Visit(new AnnualDate(5, 1), 100, [Every(2)]),
        new Visit(new AnnualDate(7, 1), 50),
        new Visit(new AnnualDate(10, 1), 100, [Every(6)]),
    ]);

    [Fact]
    public void Programs_stay_until_the_next_visit_that_brings_others_over_the_new_year_too()
    {
        ControllerPlan plan = Changing();
        (LocalDate Date, int Days)[] expected = [(new(2026, 2, 1), 6), (new(2026, 5, 1), 2), (new(2026, 8, 1), 2), (new(2026, 9, 30), 2),
            (new(2026, 10, 1), 6), (new(2027, 4, 30), 6)];
        Assert.All(expected, e => Assert.Equal(Every(e.Days), plan.SettingsOn(e.Date).Programs.Single()));
        Assert.Equal(50, plan.SettingsOn(new LocalDate(2026, 8, 1)).PercentAdjust);
        Assert.Equal([Every(6)], Spell.Of(plan, new LocalDate(2026, 4, 1), new LocalDate(2026, 4, 2)).Single().Programs);
        Assert.Equal([[Every(2)], [Every(6)]], plan.ProgramSets);
    }

    [Fact]
    public void The_proof_waters_by_the_programs_of_each_date()
    {
        Site site = Sites.Site("only");
        ProofReport proof = Sites.Prove(site, new Plan(site.Name, [Changing()]));

        // By hand, in 2023: water days of the interval that counts from 1 January 2026, at 12 mm/h.
        double wanted = 0;
        for (LocalDate date = new(2023, 1, 1); date.Year == 2023; date = date.PlusDays(1))
        {
            int days = date.Month is >= 5 and <= 9 ? 2 : 6;
            int minutes = date.Month is >= 7 and <= 9 ? 10 : 20;
            wanted += Period.DaysBetween(date, Anchor) % days == 0 ? minutes / 60.0 * 12 : 0;
        }

        Assert.Equal(wanted, proof.Zones[0].AppliedMm, 6);
        Assert.True(proof.Verdict.RulesKept);
        LocalDate[] next = [.. NextWaterings.Of(site, Changing(), new LocalDate(2026, 9, 25), 4).Select(w => w.Opens.Date)];
        Assert.Equal([new LocalDate(2026, 9, 26), new LocalDate(2026, 9, 28), new LocalDate(2026, 9, 30), new LocalDate(2026, 10, 4)],
            next.Select(d => d));
    }

    [Fact]
    public void Rules_hold_for_the_programs_of_every_visit()
    {
        Site site = Sites.Site("only");
        ControllerPlan tooLong = Changing() with
            { Visits = [new Visit(new AnnualDate(5, 1), 100, [Every(2)]), new Visit(new AnnualDate(10, 1), 100, [Every(9)])] };
        Assert.Contains(Keyable.Breaches(site.Controllers[0], tooLong), b =>
            b.Kind == BreachKind.NotKeyable && b.What.Text.Contains("every 9 days", StringComparison.Ordinal));

        // Eight in the morning is out of hours: found on the dates on which that program stands.
        Program late = Every(6) with { StartTimes = [new LocalTime(9, 0)] };
        ControllerPlan outside = Changing() with
            { Visits = [new Visit(new AnnualDate(5, 1), 100, [Every(2)]), new Visit(new AnnualDate(10, 1), 100, [late])] };
        Breach breach = Assert.Single(Sites.Prove(site, new Plan(site.Name, [outside])).Breaches);
        Assert.Equal(BreachKind.OutsidePermittedTimes, breach.Kind);
        Assert.True(breach.FirstAt!.Value.Month is < 5 or >= 10);
    }

    [Fact]
    public void Settings_are_counted_as_they_are_keyed_in()
    {
        Program was = new('A', [new LocalTime(3, 0), new LocalTime(5, 0)], [new RunTime(1, 600), new RunTime(2, 600)],
            new DaysOfWeek([IsoDayOfWeek.Monday, IsoDayOfWeek.Thursday]));
        int Keys(Program now) => ProgramChange.Between([was], [now]).Sum(c => c.Settings);
        Assert.Equal(0, Keys(was with { StartTimes = [new LocalTime(5, 0), new LocalTime(3, 0)] }));
        Assert.Equal(1, Keys(was with { Days = new DaysOfWeek([IsoDayOfWeek.Monday]) }));
        Assert.Equal(2, Keys(was with { StartTimes = [] }));
        Assert.Equal(1, Keys(was with { RunTimes = [new RunTime(1, 600)] }));
        Assert.Equal(3, Keys(was with { Days = new EveryNDays(3, Anchor) }));
        Assert.Equal(2, ProgramChange.Between([Every(2)], [Every(6)]).Single().Settings);
        Assert.Equal([2, 0, 2], ProgramChange.ByVisit(Changing()).Select(v => v.Sum(c => c.Settings)));
    }

    [Fact]
    public void A_plan_without_such_visits_is_written_as_before_and_one_with_them_is_read_back()
    {
        ControllerPlan plain = new("only", new Settings([Every(2)]), [new Visit(new AnnualDate(5, 1), 70)]);
        Assert.DoesNotContain("rograms\": null", Json.Write(plain), StringComparison.Ordinal);
        Assert.DoesNotContain("programSets", Json.Write(plain), StringComparison.Ordinal);
        Assert.Equal(plain, Json.Read<ControllerPlan>(Json.Write(plain)));
        Assert.Equal(Changing(), Json.Read<ControllerPlan>(Json.Write(Changing())));
        Assert.Equal(new Visit(new AnnualDate(5, 1), 70), Json.Read<Visit>("""{"date":"05-01","percent":70}"""));
    }
}
