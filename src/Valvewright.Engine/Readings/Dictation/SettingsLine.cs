using System.Text.RegularExpressions;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Readings.Dictation;

/// <summary>The settings line of a card, pasted into a reading: its check text proves that it is whole.</summary>
internal static partial class SettingsLine
{
    /// <summary>Takes the line out of a text, blanks in its place, and reads it; null where there is none.</summary>
    public static string TakeOut(string text, out ReadText? settings)
    {
        settings = null;
        if (Line().Match(text) is not { Success: true } line)
        {
            return text;
        }

        try
        {
            settings = new ReadText(ToReading(SettingsText.Read(line.Value.TrimEnd())), []);
        }
        catch (FormatException)
        {
            int start = line.Index == 0 ? 0 : text.LastIndexOf('\n', line.Index - 1) + 1;
            Doubt doubt = new(1 + text.AsSpan(0, line.Index).Count('\n'), line.Index - start + 1, line.Value.Trim(), "", "",
                "Left out: the card's settings line does not match its check text", []) { IsLeftOut = true };
            settings = new ReadText(new Reading(), [doubt]);
        }

        return string.Concat(text.AsSpan(0, line.Index), new string(' ', line.Length), text.AsSpan(line.Index + line.Length));
    }

    /// <summary>The line and what was said besides; where both speak of one thing, what was said is later and asked about.</summary>
    public static ReadText Join(ReadText line, ReadText said)
    {
        ListOf<DoubtfulPart> twice = said.Reading.Programs.Where(p => line.Reading.Programs.Any(l => l.Letter == p.Letter))
            .SelectMany(p => new (ReadPart Part, bool Said)[] { (ReadPart.StartTimes, p.StartTimes is not null),
                (ReadPart.RunTimes, p.RunTimes is not null), (ReadPart.WaterDays, p.Days is not null) }
                .Where(s => s.Said).Select(s => new DoubtfulPart(s.Part, p.Letter)))
            .Concat(said.Reading.Percent is not null && line.Reading.Percent is not null && said.Reading.Percent != line.Reading.Percent
                ? [new DoubtfulPart(ReadPart.Percent, null)] : []).ToListOf();
        Reading joined = said.Reading with
        {
            Percent = said.Reading.Percent ?? line.Reading.Percent,
            Programs = line.Reading.Programs.Select(l => said.Reading.Programs.FirstOrDefault(p => p.Letter == l.Letter) is { } p
                    ? l with { StartTimes = p.StartTimes ?? l.StartTimes, RunTimes = p.RunTimes ?? l.RunTimes, Days = p.Days ?? l.Days }
                    : l)
                .Concat(said.Reading.Programs.Where(p => line.Reading.Programs.All(l => l.Letter != p.Letter)))
                    .OrderBy(p => p.Letter).ToListOf(),
        };
        IEnumerable<Doubt> asked = twice.Count == 0 ? []
            : [new Doubt(1, 1, "", "", "", "Said twice, and differently; the later one was taken", twice)];
        return new ReadText(joined, line.Doubts.Concat(said.Doubts).Concat(asked).ToListOf());
    }

    private static Reading ToReading(Settings settings) => new()
    {
        Percent = settings.PercentAdjust,
        Programs = settings.Programs.Select(p => new ReadProgram(p.Letter)
        {
            StartTimes = p.StartTimes,
            RunTimes = p.RunTimes,
            Days = p.Days switch
            {
                DaysOfWeek week => new ReadDays(DayRuleKind.DaysOfWeek, week.Days),
                OddDays => new ReadDays(DayRuleKind.Odd, []),
                EvenDays => new ReadDays(DayRuleKind.Even, []),
                EveryNDays every => new ReadDays(DayRuleKind.Interval, [], every.Days, null, every.Anchor),
                _ => ReadDays.None,
            },
        }).ToListOf(),
    };

    [GeneratedRegex("VW1/[^\n;]*?/K[0-9A-Z]+(?:/N[-A-Z0-9. ]*)?")]
    private static partial Regex Line();
}
