using Valvewright.App.Texts;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings;
using Valvewright.Files.Texts;

namespace Valvewright.App.Pages.Reading;

/// <summary>A reading said back in the person's language and the site's clock style, part by part.</summary>
/// <param name="Name">What the part is.</param>
/// <param name="Value">What was understood.</param>
public sealed record ReadPart(string Name, string Value)
{
    /// <summary>All parts that were understood.</summary>
    public static ListOf<ReadPart> Of(Engine.Readings.Reading reading, SiteWords say, PageWords words)
    {
        List<ReadPart> parts = [];
        void Add(string name, string? value)
        {
            if (value is { Length: > 0 })
            {
                parts.Add(new ReadPart(words[name], value));
            }
        }

        Add("readback.controller", reading.Controller);
        Add("readback.readAt", reading.ReadAt is { } at ? say.Moment(at) : null);
        Add("readback.clock", reading.Clock is { } clock ? Clock(clock, say, words) : null);
        Add("readback.percent", reading.Percent is { } percent ? words.Percent(percent) : null);
        Add("readback.switch", reading.Off is { } off ? words[off ? "readback.off" : "readback.on"] : null);
        Add("readback.hold", reading.RainHoldDays is { } hold ? words.Count("readback.days", hold) : null);
        parts.AddRange(reading.Programs
            .Select(p => new ReadPart(words.Fill("readback.program", ("letter", p.Letter)), Program(p, say, words))));
        return parts.ToListOf();
    }

    private static string Clock(ClockShown clock, SiteWords say, PageWords words) => string.Join(' ', new[]
    {
        clock.Date is { } date ? say.Date(date) : clock.Weekday is { } day ? words.Common[$"day.{(int)day}"] : "",
        clock.Time is { } time ? say.Time(time) : "",
    }.Where(t => t.Length > 0));

    private static string Program(ReadProgram program, SiteWords say, PageWords words)
    {
        if (program is { StartTimes.Count: 0, RunTimes.Count: 0, Days.Kind: null })
        {
            return words["readback.nothing"];
        }

        List<string> said = [];
        if (program.StartTimes is { } starts)
        {
            said.Add(words.Fill(
                "readback.starts", ("times", starts.Count == 0 ? words["readback.none"] : string.Join(", ", starts.Select(say.Time)))));
        }

        if (program.Days is { } days)
        {
            said.Add(words.Fill("readback.waterDays", ("days", Days(days, say, words))));
        }

        if (program.RunTimes is { } runs)
        {
            said.Add(words.Fill(
                "readback.runs", ("runs", runs.Count == 0 ? words["readback.none"]
                    : string.Join(", ", runs.Select(r => $"{r.Station} = {SiteWords.Duration(r.Seconds)}".Replace(' ', '\u00a0'))))));
        }

        return string.Join("; ", said);
    }

    private static string Days(ReadDays days, SiteWords say, PageWords words) => days.Kind switch
    {
        null => words.Common["days.none"],
        DayRuleKind.Odd => words.Common["days.odd"],
        DayRuleKind.Even => words.Common["days.even"],
        DayRuleKind.DaysOfWeek => days.Weekdays.Count == 7 ? words.Common["days.every"]
            : string.Join(' ', days.Weekdays.Order().Select(d => words.Common[$"day.{(int)d}"])),
        _ => string.Join(", ", new[]
        {
            days.IntervalDays is { } n ? words.Count("readback.every", n) : "",
            days.DaysLeft is { } left ? words.Count("readback.left", left) : "",
            days.Next is { } next ? words.Fill("readback.next", ("date", say.Date(next))) : "",
        }.Where(t => t.Length > 0)),
    };
}
