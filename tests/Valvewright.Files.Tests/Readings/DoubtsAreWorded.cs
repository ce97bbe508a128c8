using Valvewright.Engine.Checks.Seen;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Tests.Readings;

/// <summary>Whatever is asked about a reading, or about what was seen, has words in Spanish.</summary>
public sealed class DoubtsAreWorded
{
    private static readonly string[] Scraps =
    [
        "clock", "Tue", "3:12", "pm", "80", "percent", "A:", "B:", "starts", "5:00", "24:00", "25:10", "17 pm", "days", "MWF", "TS",
            "stations", "1=10", "2=", "9=7h", "every", "40 days", "left", "12 left",
        "next", "03/04/2026", "31/31/2026", "none", "off", "hold", "150", "for", "odd", "even", "program", "7", "run",
            "10 12 14 16 18 20 22", "1h20", "3:30", "xyzzy", "2026-04-07", "now", ";", "\n", "5", "6:37", "st1=10 st1=12", "am",
        "interval", "controller", "Mon", "1=0:30", "starts 5:00 5:00 6:00 7:00 8:00 9:00", "percent 350", "percent 93", "C:", "program 2",
            "st3", "clock Tue 2026-07-01 5:00", "maybe", "no wait", "be 5 45", "statoin", "except Sunday",
        "rain delay", "rain delay 48 hours", "cada tercer día", "VW1/A W1/%100/KAAAAA", "half past seven", "all stations 10",
    ];

    private static readonly string[] Seen = ["ran at 7:30", "ran at 3:30 with blorp", "blorp", "twice a night blorp",
        "nothing for a week blorp", "runs every day blorp", "does not run on Monday blorp"];

    [Fact]
    public void Doubts_of_readings()
    {
        Random random = new(11);
        Profile profile = new()
        {
            Name = "6 stations, 2 programs", Stations = 6, Programs = 2, StartTimesPerProgram = 4, StartStepMinutes = 10,
                RunTimeStepSeconds = 60, DayRules = [DayRuleKind.DaysOfWeek, DayRuleKind.Interval], LargestIntervalDays = 30,
        };
        HashSet<string> met = [], missing = [];
        for (int trial = 0; trial < 800; trial++)
        {
            string text = string.Join(' ', Enumerable.Range(0, random.Next(1, 12)).Select(_ => Scraps[random.Next(Scraps.Length)]));
            foreach (Doubt doubt in ReadingText
                .Parse(text, random.Next(3) == 0 ? null : profile, random.Next(2) == 0 ? ClockStyle.Hours12 : ClockStyle.Hours24).Doubts)
            {
                met.Add(doubt.Why.Pattern);
                Collect(doubt, missing);
            }
        }

        Assert.Empty(missing);
        Assert.True(met.Count > 25, $"only {met.Count} reasons were met");
    }

    [Fact]
    public void Doubts_of_what_was_seen()
    {
        HashSet<string> missing = [];
        foreach (Doubt doubt in Seen.SelectMany(s => ObservationText.Parse(s, ClockStyle.Hours12).Doubts))
        {
            Collect(doubt, missing);
        }

        Assert.Empty(missing);
    }

    /// <summary>What was taken, and what else it could be, may be a single word or a time, the same in both languages.</summary>
    private static void Collect(Doubt doubt, HashSet<string> missing)
    {
        missing.UnionWith(new[] { doubt.Why, doubt.Taken, doubt.Otherwise }
            .Where(s => !Sentences.IsWorded(s) && (s == doubt.Why || s.Pattern.Contains('{', StringComparison.Ordinal))
                && s.Text.Any(char.IsLetter))
            .Select(s => s.Pattern));
    }
}
