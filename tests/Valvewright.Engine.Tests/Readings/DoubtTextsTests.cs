using System.Text.RegularExpressions;
using Valvewright.Engine.Checks.Seen;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Readings;

/// <summary>Doubts are told in both languages.</summary>
public partial class DoubtTextsTests
{
    private static readonly string[] Scraps =
    [
        "clock", "Tue", "3:12", "pm", "80", "percent", "A:", "B:", "starts", "5:00", "24:00", "25:10", "17 pm", "days", "MWF", "TS", "stations", "1=10", "2=", "9=7h", "every", "40 days", "left", "12 left",
        "next", "03/04/2026", "31/31/2026", "none", "off", "hold", "150", "for", "odd", "even", "program", "7", "run", "10 12 14 16 18 20 22", "1h20", "3:30", "xyzzy", "2026-04-07", "now", ";", "\n", "5", "6:37", "st1=10 st1=12", "am",
        "interval", "controller", "Mon", "1=0:30", "starts 5:00 5:00 6:00 7:00 8:00 9:00", "percent 350", "percent 93", "C:", "program 2", "st3", "clock Tue 2026-07-01 5:00",
    ];

    private static readonly string[] Seen = ["ran at 7:30", "ran at 3:30 with blorp", "blorp", "twice a night blorp", "nothing for a week blorp", "runs every day blorp", "does not run on Monday blorp"];

    [GeneratedRegex(@"\{[0-9]\}")]
    private static partial Regex Place();

    [Fact]
    public void Spanish_has_the_places_of_English() =>
        Assert.All(DoubtTexts.Spanish, t => Assert.Equal(Place().Matches(t.Key).Select(m => m.Value).Order(), Place().Matches(t.Value).Select(m => m.Value).Order()));

    [Fact]
    public void Every_doubt_that_readings_can_raise_has_Spanish()
    {
        Random random = new(11);
        Profile profile = new()
        {
            Name = "6 stations, 2 programs", Stations = 6, Programs = 2, StartTimesPerProgram = 4, StartStepMinutes = 10, RunTimeStepSeconds = 60, DayRules = [DayRuleKind.DaysOfWeek, DayRuleKind.Interval], LargestIntervalDays = 30,
        };
        HashSet<string> met = [];
        for (int trial = 0; trial < 20_000; trial++)
        {
            string text = string.Join(' ', Enumerable.Range(0, random.Next(1, 12)).Select(_ => Scraps[random.Next(Scraps.Length)]));
            foreach (Doubt doubt in ReadingText.Parse(text, random.Next(3) == 0 ? null : profile, random.Next(2) == 0 ? ClockStyle.Hours12 : ClockStyle.Hours24).Doubts)
            {
                Assert.Empty(doubt.Untranslated());
                Assert.NotEqual(doubt.Why, doubt.InSpanish().Why);
                met.Add(doubt.Why);
            }
        }

        // So many different reasons are met that hardly one can be missing.
        Assert.True(met.Count > 60, $"only {met.Count} reasons were met");
    }

    [Fact]
    public void Every_doubt_of_what_was_seen_has_Spanish() => Assert.All(
        Seen.SelectMany(s => ObservationText.Parse(s, ClockStyle.Hours12).Doubts), d =>
        {
            Assert.Empty(d.Untranslated());
            Assert.NotEqual(d.Why, d.InSpanish().Why);
        });
}
