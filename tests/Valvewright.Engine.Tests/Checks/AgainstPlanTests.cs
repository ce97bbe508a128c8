using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Checks;

public class AgainstPlanTests
{
    [Fact]
    public void A_sound_reading_is_not_blamed_and_nothing_is_left_to_ask()
    {
        CheckResult result = CheckSite.Check(CheckSite.Sound, CheckSite.Plan);
        Assert.Empty(result.Findings);
        Assert.Null(result.Next);
    }

    [Fact]
    public void A_run_time_is_told_with_its_station_and_its_program()
    {
        Finding finding = Assert.Single(CheckSite.WithPlan("st4=20m", "st4=150m").Findings);
        Assert.StartsWith($"Station 4 runs 150 min in program {finding.Program}; planned is 20 min.", finding.Explanation,
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("A: starts 05:00", "A: starts 05:00 05:10 05:20", FindingKind.StartsUsedAsStations)]
    [InlineData("A: starts 05:00", "A: starts 17:00", FindingKind.HalfDaySlip)]
    [InlineData("A: starts 05:00", "A: starts none", FindingKind.EmptyPart)]
    [InlineData("MWF", "days none", FindingKind.EmptyPart)]
    [InlineData("A: starts 05:00; MWF; st1=10m", "A: starts 05:00; MWF; st1=0m", FindingKind.StationInNoProgram)]
    [InlineData("A: starts 05:00", "A: starts 08:45", FindingKind.OutsideHours)]
    [InlineData("A: starts 05:00", "A: starts 02:00", FindingKind.SharedPipe)]
    [InlineData("A: starts 05:00", "A: starts 21:50", FindingKind.Overlap)]
    [InlineData("A: starts 05:00", "A: starts 05:00 05:15", FindingKind.Overlap)]
    [InlineData("A: starts 05:00", "A: starts 04:00", FindingKind.StartDiffers)]
    [InlineData("MWF", "odd", FindingKind.OddOnThe31st)]
    [InlineData("MWF", "MWThF", FindingKind.DaysDiffer)]
    [InlineData("1 left", "2 left", FindingKind.IntervalWrongDay)]
    [InlineData("100 %", "60 %", FindingKind.PercentOutOfSeason)]
    [InlineData("st4=20m", "st4=150m", FindingKind.RunTimeDiffers)]
    [InlineData("st3=10m st4=0m", "st3=10m st4=10m", FindingKind.StationInTwoPrograms)]
    [InlineData("; on;", "; off;", FindingKind.OffLeftOn)]
    [InlineData("hold 0", "hold 3", FindingKind.RainHoldLeft)]
    [InlineData("Tue 15:20", "Tue 03:20", FindingKind.ClockWrong)]
    [InlineData("Tue 15:20", "Wed 15:20", FindingKind.ClockWrong)]
    [InlineData("Tue 15:20", "2025-07-14 15:20", FindingKind.ClockWrong)]
    [InlineData("Tue 15:20", "Tue 16:20", FindingKind.ClockWrong)]
    [InlineData("C: none", "C: starts 06:00; MWF; st1=10m st2=0m st3=0m st4=0m", FindingKind.StationInTwoPrograms)]
    public void One_slip_is_named_and_its_mend_gives_the_plan_back(string part, string instead, FindingKind kind)
    {
        CheckResult result = CheckSite.WithPlan(part, instead);
        Finding finding = Assert.Single(result.Findings);
        Assert.Equal(kind, finding.Kind);
        Assert.NotEmpty(finding.Mend);
        Assert.Equal(finding.Mend.Count, finding.MendInWords.Count);
    }

    /// <summary>Station 4 belongs to B and was keyed into A, both read: mended, it is in B alone.</summary>
    [Fact]
    public void A_station_keyed_into_another_program_is_mended_in_both()
    {
        Finding finding = Assert.Single(CheckSite.Check(MovedTo(CheckSite.Sound), CheckSite.Plan).Findings);
        Assert.Equal(FindingKind.StationInWrongProgram, finding.Kind);
        Assert.Equal([new RunChange('B', 4, 1200), new RunChange('A', 4, 0)], finding.Mend);
    }

    private static string MovedTo(string sound) =>
        string.Join('\n', sound.Split('\n').Select(line => line.StartsWith("A:", StringComparison.Ordinal)
        ? line.Replace("st4=0m", "st4=20m", StringComparison.Ordinal)
        : line.StartsWith("B:", StringComparison.Ordinal) ? line.Replace("st4=20m", "st4=0m", StringComparison.Ordinal) : line));

    /// <summary>The clock is a day ahead and the interval a day late: days left are counted from the day that the clock is set
    /// to.</summary>
    [Fact]
    public void Days_left_are_said_for_the_clock_as_it_is_set_right()
    {
        string read = CheckSite.Sound.Replace("Tue 15:20", "Wed 15:20", StringComparison.Ordinal).Replace("1 left", "2 left",
            StringComparison.Ordinal);
        CheckResult result = CheckSite.Check(read, CheckSite.Plan);
        Finding interval = Assert.Single(result.Findings, f => f.Kind == FindingKind.IntervalWrongDay);
        Assert.Contains("days remaining: 1 (next on Wed 15 Jul)", Assert.Single(interval.MendInWords), StringComparison.Ordinal);
    }

    /// <summary>The mend of a classic: expectation counted by hand, 3 stations of 10 min on 3 days a week at 10 L/min.</summary>
    [Fact]
    public void The_classic_says_what_it_costs()
    {
        Finding finding = CheckSite.WithPlan("A: starts 05:00", "A: starts 05:00 06:00 07:00").Findings[0];
        Assert.Equal(FindingKind.StartsUsedAsStations, finding.Kind);
        Assert.Equal(2, finding.Mend.Count);
        // Program B: one run of 20 min every third day, 28/3 of them in four weeks from the 15th: 10 runs.
        double ofB = 10 * 20 / 4.0;
        Assert.Equal(3 * 30 + ofB, finding.Effect!.Mended.Minutes, 6);
        Assert.Equal(3 * 3 * 30 + ofB, finding.Effect.AsItIs.Minutes, 6);
        Assert.Equal((3 * 30 + ofB) * 10, finding.Effect.Mended.Litres, 6);
        Assert.Contains("3 times instead of 1", finding.Explanation, StringComparison.Ordinal);
        Assert.Equal(new LocalDateTime(2026, 7, 15, 6, 0), finding.Shows[0].At);
        Assert.True(finding.Shows[0].Runs);
    }

    [Fact]
    public void What_was_not_read_is_not_blamed_but_asked_for()
    {
        CheckResult result = CheckSite.Check("B: st4=20m", CheckSite.Plan);
        Assert.Empty(result.Findings);
        Assert.Equal(new NextQuestion(ReadPart.StartTimes, 'A', result.Next!.Words), result.Next);
    }

    [Fact]
    public void Out_of_season_it_may_be_off_and_must_not_be_on()
    {
        LocalDateTime december = new(2026, 12, 2, 10, 0);
        Assert.Empty(CheckSite.Check("off; 100 %", CheckSite.Plan, at: december).Findings);
        Assert.Empty(CheckSite.Check("100 %", CheckSite.Plan, at: december).Findings);
        Assert.Equal(FindingKind.PercentOutOfSeason, Assert.Single(CheckSite.Check("on", CheckSite.Plan, at: december).Findings).Kind);
    }

    [Fact]
    public void Three_slips_are_three_findings()
    {
        CheckResult result = CheckSite.Check("off; hold 2; A: starts 17:00; st1=10m st2=0m st3=10m", CheckSite.Plan);
        Assert.Equal(
            [FindingKind.HalfDaySlip, FindingKind.OffLeftOn, FindingKind.RainHoldLeft, FindingKind.StationInNoProgram],
            result.Findings.Select(f => f.Kind)
                .Order(Comparer<FindingKind>.Create((a, b) => string.CompareOrdinal(a.ToString(), b.ToString()))));
    }

    [Fact]
    public void A_result_survives_JSON()
    {
        CheckResult result = CheckSite
            .Check("off; hold 2; 60 %; clock Mon 3:00; A: starts 17:00 5:30; odd; st1=9m st2=0m; B: every 3 days 2 left", CheckSite.Plan);
        Assert.Equal(result, Json.Read<CheckResult>(Json.Write(result)));
    }

    [Fact]
    public void In_Spanish_no_place_stays_empty()
    {
        CheckResult result = CheckSite
            .Check("off; hold 2; 60 %; clock Mon 3:00; A: starts 17:00; odd; st1=9m st2=0m", CheckSite.Plan, CheckLanguage.Spanish);
        Assert.All(result.Findings, f => Assert.DoesNotContain("{", f.Explanation + f.FromOutside, StringComparison.Ordinal));
        Assert.Contains(result.Findings, f => f.Explanation.StartsWith("Está apagado", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(CheckLanguage.English, "Station 4 runs 3 min in program A; planned is 0 s.")]
    [InlineData(CheckLanguage.Spanish, "La estación 4 riega 3 min en el programa A; lo previsto es 0 s.")]
    public void A_run_time_where_none_is_planned_is_told_in_order(CheckLanguage language, string sentence)
    {
        Plan plan = CheckSite.Plan with { Controllers = CheckSite.Plan.Controllers.Select(
            c => c.Controller != "North" ? c : c with { Settings = c.Settings with { Programs = [c.Settings.Programs[0]] } }).ToListOf() };
        CheckResult result = CheckSite.Check("A: st1=10m st2=10m st3=10m st4=3m", plan, language);
        Assert.Contains(result.Findings, f => f.Explanation.StartsWith(sentence, StringComparison.Ordinal));
    }
}
