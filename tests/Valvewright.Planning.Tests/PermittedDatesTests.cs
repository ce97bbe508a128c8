using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Tests;

/// <summary>
/// Permitted hours on some dates only, as the law means them: by the watch, in each calendar date, with the controller's clock right and an
/// hour behind. Planner, proof and a third check that walks through the calendar minute by minute agree.
/// </summary>
public sealed class PermittedDatesTests
{
    private const int RunSeconds = 20 * 60;
    private static readonly LocalDate First = new(2026, 1, 1);
    private static readonly ListOf<Climate> Years = TestSites.DryYears(2);
    private static readonly ListOf<IsoDayOfWeek> MonWedThu = [IsoDayOfWeek.Monday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday];

    /// <summary>Forbidden 10:00 to 18:00, what a survey makes of it.</summary>
    private static readonly ListOf<TimeWindow> NotByDay = [Window(0, 10), Window(18, 24)];

    private static readonly (string Name, PermittedTimes Permitted)[] Laws =
    [
        ("not by day, even dates", new PermittedTimes(NotByDay, PermittedTimes.EveryWeekday, DateParity.Even)),
        ("not by day, odd dates", new PermittedTimes(NotByDay, PermittedTimes.EveryWeekday, DateParity.Odd)),
        ("not by day, three weekdays", new PermittedTimes(NotByDay, MonWedThu)),
        ("not by day, every day", new PermittedTimes(NotByDay, PermittedTimes.EveryWeekday)),
        ("any hour of even dates", new PermittedTimes([], PermittedTimes.EveryWeekday, DateParity.Even)),
        ("not by day, odd dates of three weekdays", new PermittedTimes(NotByDay, MonWedThu, DateParity.Odd)),
        ("over midnight, even dates", new PermittedTimes([Window(20, 6)], PermittedTimes.EveryWeekday, DateParity.Even)),
        ("over midnight, three weekdays", new PermittedTimes([Window(20, 6)], MonWedThu)),
    ];

    private static readonly DayRule[] Rules = [new EvenDays(), new OddDays(), new EveryNDays(1, First),
        new EveryNDays(2, First.PlusDays(1)), new DaysOfWeek(MonWedThu), new DaysOfWeek([IsoDayOfWeek.Monday])];

    public static TheoryData<string, bool> Cases()
    {
        TheoryData<string, bool> cases = [];
        foreach ((string name, _) in Laws)
        {
            cases.Add(name, false);
            cases.Add(name, true);
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Start_times_are_offered_exactly_where_every_minute_is_permitted_on_every_date(string law, bool clockKnowsDaylightSaving)
    {
        PermittedTimes permitted = Laws.Single(l => l.Name == law).Permitted;
        Site site = SiteUnder(permitted, clockKnowsDaylightSaving);
        Profile profile = site.Controllers[0].Profile;
        ListOf<PermittedSpan> hours = PermittedSpan.Of(permitted, PermittedSpan.ClockBehind(site, profile, First));
        int[] hoursBehind = clockKnowsDaylightSaving ? [0] : [0, 1];
        foreach (DayRule rule in Rules)
        {
            WaterDayPhase phase = WaterDayPhase.Of(rule, profile, permitted, hours, First);
            LocalDate[] dates = [.. Enumerable.Range(0, 1462).Select(d => First.PlusDays(d)).Where(d => rule.WatersOn(d, profile))];
            for (int start = 0; start < PermittedSpan.Day; start += 1200)
            {
                bool isPermitted = dates.All(d => hoursBehind.All(behind => Enumerable.Range(0, RunSeconds / 60)
                    .All(m => RuleChecker.IsPermitted(permitted, d.AtMidnight().PlusSeconds(start + 60 * m).PlusHours(behind)))));
                Assert.True(isPermitted == phase.Spans.Any(s => s.From <= start && start + RunSeconds <= s.To),
                    $"{rule} at {start / 3600.0:0.##} h");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void The_proof_passes_the_start_times_that_are_offered_and_no_others(string law, bool clockKnowsDaylightSaving)
    {
        PermittedTimes permitted = Laws.Single(l => l.Name == law).Permitted;
        Site site = SiteUnder(permitted, clockKnowsDaylightSaving);
        Profile profile = site.Controllers[0].Profile;
        ListOf<PermittedSpan> hours = PermittedSpan.Of(permitted, PermittedSpan.ClockBehind(site, profile, First));
        foreach (DayRule rule in Rules)
        {
            WaterDayPhase phase = WaterDayPhase.Of(rule, profile, permitted, hours, First);
            foreach (int minutes in new[] { 5 * 60, 9 * 60 + 20, 19 * 60, 23 * 60 + 20 })
            {
                Program program = new('A', [LocalTime.FromMinutesSinceMidnight(minutes)], [new RunTime(1, RunSeconds)], rule);
                Plan plan = new(site.Name, [new ControllerPlan("Only", new Settings([program]), [])]);
                ListOf<Breach> breaches = Proofs.Replay(site, plan, [Years[0]], new ProofOptions(First, [])).Breaches;
                bool offered = phase.Spans.Any(s => s.From <= minutes * 60 && minutes * 60 + RunSeconds <= s.To);
                Assert.True(offered == breaches.All(b => b.Kind != BreachKind.OutsidePermittedTimes), $"{rule} at {minutes / 60.0:0.##} h");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Plans_keep_the_law_by_the_watch(string law, bool clockKnowsDaylightSaving)
    {
        PermittedTimes permitted = Laws.Single(l => l.Name == law).Permitted;
        Site site = SiteUnder(permitted, clockKnowsDaylightSaving);
        PlanResult result = Planner.Plan(site, Years, new PlannerOptions { InForceFrom = First });
        if (result.Plan is null)
        {
            return; // the laws of few dates: the advice has tests of its own
        }

        Assert.Empty(RuleChecker.Breaches(site, result.Plan, First, 1462, 0));
        ProofReport proof = Proofs.Replay(site, result.Plan, [Years[0]], new ProofOptions(First, []));
        Assert.Empty(proof.Breaches);

        // Where the law can be read in two ways and 20:00 to midnight will do, both are kept.
        Assert.Null(proof.Supplies[0].InDoubt);
        Assert.Empty(RuleChecker.Breaches(site.WithPermitted(permitted.ByCalendarDate()), result.Plan, First, 1462, 0));
    }

    [Fact]
    public void Watering_after_midnight_by_the_letter_of_the_rule_is_told()
    {
        Site site = SiteUnder(Laws.Single(l => l.Name == "over midnight, even dates").Permitted, clockKnowsDaylightSaving: true);
        Program program = new('A', [new LocalTime(23, 50)], [new RunTime(1, RunSeconds)], new EvenDays());
        ProofReport proof = Proofs.Replay(
            site, new Plan(site.Name, [new ControllerPlan("Only", new Settings([program]), [])]), [Years[0]], new ProofOptions(First, []));
        Assert.Empty(proof.Breaches);
        Assert.Equal(0.5, proof.Supplies[0].InDoubt!.Share, 2); // ten minutes of twenty
        Assert.Equal(new LocalDateTime(2026, 1, 2, 23, 50), proof.Supplies[0].InDoubt!.FirstAt);
    }

    private static TimeWindow Window(int from, int to) => new(new LocalTime(from, 0), new LocalTime(to % 24, 0));

    private static Site SiteUnder(PermittedTimes permitted, bool clockKnowsDaylightSaving) =>
        TestSites.Site(25, permitted, TestSites.Controller("Only",
            TestSites.Profile() with { ClockKnowsDaylightSaving = clockKnowsDaylightSaving }, TestSites.Zone(1, intakeMmPerHour: 40)))
        with { TimeZone = "Europe/Amsterdam" };
}
