using NodaTime;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Files.Readings;
using Valvewright.Tests.Slips;

namespace Valvewright.Files.Tests.Readings;

public class ReadingFilesTests
{
    private const string Quick = """
        controller North gate
        clock Tue 15:12
        80 percent
        hold 2
        on
        A: starts 05:00 06:30; days Mon Wed Fri; st1=10m st2=12m
        B: every 3 days 2 left; starts none; st4=80m
        """;

    [Fact]
    public void YAML_says_the_same_as_the_quick_form()
    {
        ReadingFile yaml = ReadingFiles.Parse(
            """
            controller: North gate
            clock: Tue 15:12
            percent: 80
            rainHoldDays: 2
            off: no
            programs:
              - letter: A
                startTimes: [05:00, "06:30"]
                days: Mon Wed Fri
                runTimes: { 1: 10 min, 2: 12 min }
              - letter: b
                startTimes: none
                days: { kind: interval, intervalDays: 3, daysLeft: 2 }
                runTimes: 4=1h20
            """,
            "gate.yaml");
        Assert.Empty(yaml.Problems);
        Assert.Equal(ReadingText.Parse(Quick).Reading, yaml.Text!.Reading);
    }

    [Fact]
    public void JSON_is_read_as_it_was_written()
    {
        foreach (SlipCase one in SlipSet.Faulty(2, 2, 11).Concat(SlipSet.Sound(40, 11)))
        {
            ReadingFile read = ReadingFiles.Parse(ReadingFiles.WriteJson(one.Reading), "reading.json");
            Assert.Empty(read.Problems);
            Assert.Equal(one.Reading, read.Text!.Reading);
        }
    }

    /// <summary>What no display can show is read all the same, and asked about; written as JSON it is still what was said.</summary>
    [Theory]
    [InlineData("percent 99999")]
    [InlineData("rain delay 3000 days")]
    [InlineData("rain delay -3 days")]
    [InlineData("A: starts 5:00 23:59; days 2 left; stations 1=10")]
    [InlineData("A: every 400 days, 399 left; B: every 3 days; C: days none; D: odd")]
    [InlineData("A: every day next 2026-07-14; stations 1=40h 2=0")]
    [InlineData("clock Tue 3:12 pm; 80 percent; off; A: Mon Wed Fri, start 12:00 am")]
    public void What_was_said_is_read_back_from_JSON(string said)
    {
        Reading reading = ReadingText.Parse(said).Reading;
        ReadingFile read = ReadingFiles.Parse(ReadingFiles.WriteJson(reading), "reading.json");
        Assert.Empty(read.Problems);
        Assert.Equal(reading, read.Text!.Reading);
        Assert.True(reading.RainHoldDays is null or >= 0);
    }

    [Theory]
    [InlineData("progams: []", 1, 1, "programs")]
    [InlineData("percent: 80\noff: mabye", 2, 6, null)]
    [InlineData("programs:\n  - letter: A\n    startTimes: [05:00, 27:00]", 3, 25, null)]
    [InlineData("programs:\n  - letter: A\n    days: evn", 3, 11, "even")]
    [InlineData("programs:\n  - letter: Z", 2, 13, null)]
    [InlineData("programs:\n  - letter: A\n    runTimes: { 1: 10 min, 1: 12 min }", 3, 15, null)]
    [InlineData("readAt: yesterday", 1, 9, null)]
    [InlineData("percent: 80 %", 1, 10, null)]
    [InlineData("", 0, 0, null)]
    [InlineData("- off", 1, 1, null)]
    public void What_is_wrong_is_told_with_its_place(string yaml, int line, int column, string? nearest)
    {
        ReadingFile read = ReadingFiles.Parse(yaml, "r.yaml");
        Assert.Null(read.Text);
        Problem problem = read.Problems[0];
        Assert.Equal((line, column), (problem.Line, problem.Column));
        Assert.Equal(nearest, problem.Nearest);
        Assert.DoesNotContain("site", problem.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_could_be_two_things_is_a_doubt_at_its_place()
    {
        ReadingFile read = ReadingFiles
            .Parse("programs:\n  - letter: A\n    startTimes: 5:00", "r.yaml", null, Engine.Survey.ClockStyle.Hours12);
        Doubt doubt = Assert.Single(read.Text!.Doubts);
        Assert.Equal((3, 17), (doubt.Line, doubt.Column));
        Assert.Equal((ListOf<LocalTime>)[new LocalTime(5, 0)], read.Text.Reading.Programs[0].StartTimes);
    }

    [Fact]
    public void Nothing_in_a_file_makes_it_fail()
    {
        string whole = ReadingFiles.WriteJson(SlipSet.Sound(1, 3).First().Reading);
        Random random = new(9);
        for (int i = 0; i < 3000; i++)
        {
            char[] text = whole.ToCharArray();
            for (int n = random.Next(1, 6); n > 0; n--)
            {
                text[random.Next(text.Length)] = "{}[]:,\"'\n\t -0aZ&*?|>%@\u0000é"[random.Next(23)];
            }

            ReadingFile read = ReadingFiles.Parse(new string(text)[..random.Next(text.Length)], "r.json");
            Assert.True(read.Text is not null != read.Problems.Count > 0);
        }
    }

    [Fact]
    public void A_file_that_is_not_there_is_said_so() =>
        Assert.Equal("no such file", Assert.Single(ReadingFiles.Read("nowhere.txt").Problems).Found);
}
