using NodaTime.Text;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Season;

/// <summary>Changes of programs in plain words, for tables, calendars and the terminal.</summary>
public static class ChangeWords
{
    private static readonly LocalTimePattern Clock = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    /// <summary>Program B every 6 days; program A no start times.</summary>
    public static string Of(IEnumerable<ProgramChange> changes, Language language = Language.English)
    {
        Wording words = Wording.In(language);
        return string.Join("; ", changes.Select(c =>
            words.Fill("change.program", ("letter", c.Letter), ("what", string.Join(", ", Parts(c, words))))));
    }

    private static IEnumerable<string> Parts(ProgramChange change, Wording words)
    {
        if (change.Days is { } days)
        {
            yield return Days(days, words);
        }

        if (change.StartTimes is { } starts)
        {
            yield return starts.Count == 0 ? words["change.noStarts"]
                : words.Fill("change.starts", ("times", string.Join(' ', starts.Select(Clock.Format))));
        }

        foreach (RunTime run in change.RunTimes)
        {
            yield return words.Fill("change.run", ("n", run.Station), ("time", SiteWords.Duration(run.Seconds)));
        }
    }

    private static string Days(DayRule days, Wording words) => days switch
    {
        DaysOfWeek { Days.Count: 0 } => words["days.none"],
        DaysOfWeek { Days.Count: 7 } or EveryNDays { Days: 1 } => words["days.every"],
        DaysOfWeek week => string.Join(' ', week.Days.Order().Select(d => words[$"day.{(int)d}"])),
        EveryNDays every => words.Fill("card.interval", ("n", every.Days)).ToLowerInvariant(),
        OddDays => words["days.odd"],
        EvenDays => words["days.even"],
        _ => throw new NotSupportedException($"Watering days of kind {days.Kind}."),
    };
}
