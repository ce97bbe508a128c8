using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using static NodaTime.IsoDayOfWeek;

namespace Valvewright.Engine.Tests.Readings;

/// <summary>The quick form of a reading (docs/readings.md).</summary>
public sealed class ReadingTextTests
{
    private static readonly Profile Six = new()
    {
        Name = "6 stations, 2 programs",
        Stations = 6,
        Programs = 2,
        StartTimesPerProgram = 4,
        DayRules = [DayRuleKind.DaysOfWeek, DayRuleKind.Odd, DayRuleKind.Even, DayRuleKind.Interval],
        LargestIntervalDays = 14,
    };

    private static LocalTime T(int hour, int minute) => new(hour, minute);

    [Fact]
    public void A_whole_display_is_read_as_it_is_dictated()
    {
        ReadText read = ReadingText.Parse(
            """
            controller North gate
            clock Tue 3:12 pm; 80 percent
            A: starts 5:00 am 6:30am; days MWF; stations 1=10 2=12 3=8
            B: every 3 days, 2 left; start 10 pm; st4 1h20
            """, Six);

        Assert.Empty(read.Doubts);
        Reading reading = read.Reading;
        Assert.Equal("North gate", reading.Controller);
        Assert.Equal(new ClockShown(T(15, 12), Tuesday, null), reading.Clock);
        Assert.Equal(80, reading.Percent);
        ReadProgram a = reading.Programs[0], b = reading.Programs[1];
        Assert.Equal([T(5, 0), T(6, 30)], a.StartTimes!);
        Assert.Equal([new RunTime(1, 600), new RunTime(2, 720), new RunTime(3, 480)], a.RunTimes!);
        Assert.Equal(new ReadDays(DayRuleKind.DaysOfWeek, [Monday, Wednesday, Friday]), a.Days);
        Assert.Equal(new ReadDays(DayRuleKind.Interval, [], 3, 2), b.Days);
        Assert.Equal([T(22, 0)], b.StartTimes!);
        Assert.Equal([new RunTime(4, 4800)], b.RunTimes!);
    }

    [Theory]
    [InlineData("A: 5:00 6:30 22:15")]
    [InlineData("program A start times 05:00, 06:30 and 22:15")]
    [InlineData("prog a starts 5:00am 6:30 am 10:15 p.m.")]
    [InlineData("A\nstarts: 0500 0630 2215")]
    [InlineData("starts for program A 5 am, 6:30 am, 10:15pm")]
    [InlineData("programa A arranques 05:00 06:30 22:15")]
    public void Start_times_may_be_said_in_many_ways(string text)
    {
        ReadText read = ReadingText.Parse(text, Six);
        ReadProgram program = Assert.Single(read.Reading.Programs);
        Assert.Equal('A', program.Letter);
        Assert.Equal([T(5, 0), T(6, 30), T(22, 15)], program.StartTimes!);
    }

    [Theory]
    [InlineData("A: stations 1 10, 2 12, 3 90")]
    [InlineData("A: station 1 10 min station 2 12 minutes station 3 1 hour 30 min")]
    [InlineData("A: 1=10 2=12 3=1:30")]
    [InlineData("A: st1 10m st2 12' st3 1h30")]
    [InlineData("A: estacion 1 10, estacion 2 12 minutos, estacion 3 90")]
    [InlineData("A: #1=10m #2=12m #3=90m")]
    public void Run_times_may_be_said_in_many_ways(string text)
    {
        ReadText read = ReadingText.Parse(text, Six);
        Assert.Equal([new RunTime(1, 600), new RunTime(2, 720), new RunTime(3, 5400)], Assert.Single(read.Reading.Programs).RunTimes!);
        Assert.Empty(read.Doubts);
    }

    [Fact]
    public void Run_times_without_stations_are_taken_in_order_and_said_to_be_so()
    {
        ReadText read = ReadingText.Parse("A: run 10 12 8", Six);
        Assert.Equal([new RunTime(1, 600), new RunTime(2, 720), new RunTime(3, 480)], read.Reading.Programs[0].RunTimes!);
        Assert.Contains("in order", Assert.Single(read.Doubts).Why.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("A: stations 1 10 2 12\n60 percent")]
    [InlineData("A: st1 10 st2 12\npercent 60")]
    [InlineData("A: run 10 12\npercent 60")]
    [InlineData("A: stations 1 10, 2 12; 60%")]
    public void A_percent_after_run_times_is_no_station(string text)
    {
        ReadText read = ReadingText.Parse(text, Six);
        Assert.Equal(60, read.Reading.Percent);
        Assert.Equal([new RunTime(1, 600), new RunTime(2, 720)], Assert.Single(read.Reading.Programs).RunTimes!);
    }

    [Theory]
    [InlineData("MWF", new[] { Monday, Wednesday, Friday })]
    [InlineData("mon wed fri", new[] { Monday, Wednesday, Friday })]
    [InlineData("M-W-F--", new[] { Monday, Wednesday, Friday })]
    [InlineData("TuThSa", new[] { Tuesday, Thursday, Saturday })]
    [InlineData("MTWTFSS", new[] { Monday, Tuesday, Wednesday, Thursday, Friday, Saturday, Sunday })]
    [InlineData("SMTWTFS", new[] { Monday, Tuesday, Wednesday, Thursday, Friday, Saturday, Sunday })]
    [InlineData("MTW", new[] { Monday, Tuesday, Wednesday })]
    [InlineData("WTF", new[] { Wednesday, Thursday, Friday })]
    [InlineData("lun mié vie", new[] { Monday, Wednesday, Friday })]
    [InlineData("LXV", new[] { Monday, Wednesday, Friday })]
    [InlineData("every day", new[] { Monday, Tuesday, Wednesday, Thursday, Friday, Saturday, Sunday })]
    public void Days_may_be_letters_or_words(string days, IsoDayOfWeek[] expected)
    {
        ReadText read = ReadingText.Parse($"A: days {days}", Six);
        Assert.Empty(read.Doubts);
        Assert.Equal(expected, read.Reading.Programs[0].Days!.Weekdays);
    }

    [Theory]
    [InlineData("A: days T", "Tue or Thu")]
    [InlineData("A: days MTF", "Mon Tue Fri or Mon Thu Fri")]
    [InlineData("A: days WS", "Wed Sat or Wed Sun")]
    public void Letters_that_could_be_two_days_are_left_out_and_shown(string text, string otherwise)
    {
        ReadText read = ReadingText.Parse(text, Six);
        Assert.Equal(otherwise, Assert.Single(read.Doubts).Otherwise.Text);
        Assert.Null(Assert.Single(read.Reading.Programs).Days);
    }

    [Fact]
    public void On_a_12_hour_display_a_time_without_half_is_doubtful()
    {
        ReadText read = ReadingText.Parse("A: start 5:00", Six, ClockStyle.Hours12);
        Doubt doubt = Assert.Single(read.Doubts);
        Assert.Equal(("05:00", "17:00"), (doubt.Taken.Text, doubt.Otherwise.Text));
    }

    [Fact]
    public void On_a_24_hour_display_it_is_certain() =>
        Assert.True(ReadingText.Parse("A: start 5:00", Six, ClockStyle.Hours24).IsCertain);

    [Fact]
    public void Nothing_read_and_read_as_nothing_are_kept_apart()
    {
        ReadProgram a = ReadingText.Parse("A: starts none", Six).Reading.Programs[0];
        Assert.Empty(a.StartTimes!);
        Assert.Null(a.RunTimes);
        Assert.Null(a.Days);
        ReadProgram b = ReadingText.Parse("B: none", Six).Reading.Programs[0];
        Assert.Empty(b.StartTimes!);
        Assert.Empty(b.RunTimes!);
        Assert.Equal(ReadDays.None, b.Days);
    }

    [Theory]
    [InlineData("off", true, null)]
    [InlineData("controller is off", true, null)]
    [InlineData("on; rain hold 3 days", false, 3)]
    [InlineData("hold none", null, 0)]
    public void Off_and_rain_hold(string text, bool? off, int? hold)
    {
        Reading reading = ReadingText.Parse(text, Six).Reading;
        Assert.Equal(off, reading.Off);
        Assert.Equal(hold, reading.RainHoldDays);
    }

    [Theory]
    [InlineData("A: strats 5:00 am", "starts")]
    [InlineData("A: days wendesday", "wednesday")]
    public void A_misspelt_word_is_taken_for_the_nearest_and_asked_about(string text, string nearest) =>
        Assert.Contains(ReadingText.Parse(text, Six).Doubts, d => d.Taken.Text == nearest && d.Parts.Count > 0);

    [Theory]
    [InlineData("A: start 25:00")]
    [InlineData("A: st9=10")]
    [InlineData("A: st1=900")]
    [InlineData("C: start 5:00 am")]
    [InlineData("A: starts 1:00 am 2:00 am 3:00 am 4:00 am 5:00 am")]
    [InlineData("A: every 30 days")]
    [InlineData("A: every 3 days 5 left")]
    [InlineData("percent 85")]
    [InlineData("percent 900")]
    [InlineData("start 5:00 am")]
    [InlineData("clock Mon 14 July 2026 5:00 pm")]
    [InlineData("A: odd; days MWF")]
    public void What_cannot_be_so_is_shown_back(string text) => Assert.NotEmpty(ReadingText.Parse(text, Six).Doubts);

    [Fact]
    public void A_date_with_month_and_day_unclear_is_shown_back()
    {
        ReadText read = ReadingText.Parse("clock 4/7/2026 16:00", Six);
        Assert.Equal(new LocalDate(2026, 7, 4), read.Reading.Clock!.Date);
        Assert.Equal("2026-04-07", Assert.Single(read.Doubts).Otherwise.Text);
    }

    [Fact]
    public void Nothing_that_can_be_typed_makes_it_fail()
    {
        string[] pieces =
        [
            "A:", "b", "program", "starts", "5:00", "25:99", "am", "pm", "st1", "1=10", "1-4=12", "=", "-", "--", "none",
                "off", "on", "hold",
            "every", "3", "days", "left", "odd", "next", "14/7/2026", "99999999999", "percent", "80%", "%", "clock", "tue", "MWF",
                "ttss", "\n", ";",
            ",", "\0", "é", "\U0001F4A7", "1:20", "1h20", "h", "m", "s", "now", "2026-07-14", "july", "14", "2026", "controller", "run",
                "10'", "''", "00:00",
        ];
        ClockStyle?[] styles = [null, ClockStyle.Hours12, ClockStyle.Hours24];
        Random random = new(20260714);
        for (int trial = 0; trial < 20_000; trial++)
        {
            string text = string.Join(
                random.Next(3) == 0 ? "" : " ", Enumerable.Range(0, random.Next(1, 14)).Select(_ => pieces[random.Next(pieces.Length)]));
            ReadText read = ReadingText.Parse(text, random.Next(2) == 0 ? Six : null, styles[random.Next(3)]);
            Assert.NotNull(read.Reading);
        }

        Assert.NotEmpty(ReadingText.Parse(new string('x', 1_000_000)).Doubts);
    }

    [Theory]
    [InlineData("A: starts 05:00 27:00 06:00\ndays MWF", ReadPart.StartTimes)]
    [InlineData("A: starts 05:00\ndays W Xq", ReadPart.WaterDays)]
    public void A_list_with_a_hole_is_doubtful_and_left_out_of_what_is_certain(string text, ReadPart part)
    {
        ReadText read = ReadingText.Parse(text, Six, ClockStyle.Hours24);
        Assert.Contains(new DoubtfulPart(part, 'A'), read.DoubtfulParts);
        ReadProgram certain = Assert.Single(read.Certain().Programs);
        Assert.Equal(part == ReadPart.StartTimes, certain.StartTimes is null);
        Assert.Equal(part == ReadPart.WaterDays, certain.Days is null);
    }

    [Fact]
    public void Spanish_says_percent_and_every_day_in_several_words()
    {
        ReadText read = ReadingText.Parse("80 por ciento; A: inicio 17:00; todos los días; estación 1=10", Six);
        Assert.Empty(read.Doubts);
        Assert.Equal(80, read.Reading.Percent);
        Assert.Equal(7, Assert.Single(read.Reading.Programs).Days!.Weekdays.Count);
    }
}
