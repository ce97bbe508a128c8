using System.Text;
using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Checks.Seen;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Checks;

public class SymptomTests
{
    private static SymptomResult Rank(string seen, string? reading = null)
    {
        SeenText text = ObservationText.Parse(seen, ClockStyle.Hours24);
        Assert.Empty(text.Doubts);
        return Symptoms.Rank(
            CheckSite.Site, CheckSite.North, CheckSite.Plan, text.Observations, new CheckContext(CheckSite.At),
            reading is null ? null : ReadingText.Parse(reading, CheckSite.Profile).Reading);
    }

    [Theory]
    [InlineData("ran at 17:00 on Monday", FindingKind.HalfDaySlip)]
    [InlineData("three times a night", FindingKind.StartsUsedAsStations)]
    [InlineData("station 2 never comes on", FindingKind.StationInNoProgram)]
    [InlineData("la estación 2 nunca riega", FindingKind.StationInNoProgram)]
    [InlineData("nothing for a week", FindingKind.OffLeftOn)]
    [InlineData("nada desde hace una semana", FindingKind.OffLeftOn)]
    [InlineData("runs on the 31st and the 1st", FindingKind.OddOnThe31st)]
    [InlineData("station 1 runs for 100 minutes", FindingKind.RunTimeDiffers)]
    [InlineData("waters every day", FindingKind.DaysDiffer)]
    public void The_commonest_slip_that_does_it_comes_first(string seen, FindingKind kind) =>
        Assert.Equal(kind, Rank(seen).Explanations[0].Slips[0].Kind);

    [Fact]
    public void What_the_plan_does_is_no_slip() => Assert.Empty(Rank("ran at 5:00 on Monday").Explanations[0].Slips);

    [Fact]
    public void Two_observations_leave_the_slip_that_does_both()
    {
        // By the clock alone both programs would be half a day out: 22:00 would be 10:00.
        SymptomResult result = Rank("ran at 17:00 on Monday; ran at 10:00");
        Finding slip = Assert.Single(result.Explanations[0].Slips);
        Assert.Equal(FindingKind.ClockWrong, slip.Kind);
    }

    [Fact]
    public void Where_no_slip_does_it_two_may()
    {
        SymptomResult result = Rank("ran at 17:00 on Monday; station 2 never comes on");
        Assert.All(result.Explanations, e => Assert.Equal(2, e.Slips.Count));
        Assert.Contains(result.Explanations, e =>
            e.Slips.Any(s => s.Kind == FindingKind.HalfDaySlip) || e.Slips.Any(s => s.Kind == FindingKind.ClockWrong));
    }

    [Fact]
    public void No_slip_is_tried_on_what_was_read()
    {
        SymptomResult result = Rank("nothing for a week", "on; hold 0");
        Assert.DoesNotContain(
            result.Explanations.SelectMany(e => e.Slips), s => s.Kind is FindingKind.OffLeftOn or FindingKind.RainHoldLeft);
    }

    [Fact]
    public void The_question_is_about_a_part_that_may_be_at_fault() =>
        Assert.Equal(ReadPart.RunTimes, Rank("station 2 never comes on").Next!.About);

    [Fact]
    public void Shares_are_shares()
    {
        SymptomResult result = Rank("ran at 17:00 on Monday");
        Assert.InRange(result.Explanations.Sum(e => e.Share), 0.3, 1.0001);
        Assert.Equal(result, Json.Read<SymptomResult>(Json.Write(result)));
    }

    [Theory]
    [InlineData("ran at 19:30 on Tuesday", "RanAt { Time = 19:30:00, Weekday = Tuesday, Station = 0, Ran = True, DaysAgo =  }")]
    [InlineData("station 3 ran at 7.30 pm", "RanAt { Time = 19:30:00, Weekday = , Station = 3, Ran = True, DaysAgo =  }")]
    [InlineData("it did not run at 5:00 on Monday", "RanAt { Time = 05:00:00, Weekday = Monday, Station = 0, Ran = False, DaysAgo =  }")]
    [InlineData("twice a night", "TimesADay { Times = 2, Night = True, Station = 0 }")]
    [InlineData("st 2 runs four times a day", "TimesADay { Times = 4, Night = False, Station = 2 }")]
    [InlineData("riega dos veces por noche", "TimesADay { Times = 2, Night = True, Station = 0 }")]
    [InlineData("nothing for 3 weeks", "NothingFor { Days = 21, Station = 0 }")]
    [InlineData("station 2 never comes on", "NothingFor { Days = , Station = 2 }")]
    [InlineData("no water on Sundays", "RanOn { Weekday = Sunday, Ran = False, Station = 0 }")]
    [InlineData("it runs on Sundays", "RanOn { Weekday = Sunday, Ran = True, Station = 0 }")]
    [InlineData("every night", "RanDaily { Station = 0 }")]
    [InlineData("station 4 runs for two hours", "RunsFor { Minutes = 120, Station = 4 }")]
    public void Statements_are_understood(string text, string expected)
    {
        SeenText read = ObservationText.Parse(text, ClockStyle.Hours24);
        Assert.Equal(expected, Assert.Single(read.Observations).ToString()!.Replace("DaysBack = 70, ", "", StringComparison.Ordinal));
        Assert.Empty(read.Doubts);
    }

    [Theory]
    [InlineData("it makes a funny noise")]
    [InlineData("ran at 7:30")]
    [InlineData("qwertz twice a night")]
    public void What_is_doubtful_is_shown(string text) => Assert.NotEmpty(ObservationText.Parse(text, ClockStyle.Hours12).Doubts);

    [Fact]
    public void Nothing_typed_makes_it_fail()
    {
        string[] words = ["ran", "at", "19:30", "99:99", "on", "Tuesday", ";", "\n", ".", "twice", "a", "night", "nothing", "for", "week",
            "station", "2", "400000000000", "31st", "the", "1", "never", "é", "\u0000", "every", "day", "minutes", "{0}"];
        Random random = new(5);
        for (int i = 0; i < 300; i++)
        {
            StringBuilder text = new();
            for (int n = random.Next(12); n >= 0; n--)
            {
                text.Append(words[random.Next(words.Length)]).Append(' ');
            }

            SeenText read = ObservationText.Parse(text.ToString(), (ClockStyle)random.Next(2));
            if (i % 10 == 0)
            {
                Assert.NotNull(Symptoms.Rank(CheckSite.Site, CheckSite.North, i % 20 == 0 ? CheckSite.Plan : null, read.Observations,
                    new CheckContext(CheckSite.At)));
            }
        }
    }
}
