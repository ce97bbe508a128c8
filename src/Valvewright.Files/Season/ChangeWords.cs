using NodaTime.Text;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;

namespace Valvewright.Files.Season;

/// <summary>Changes of programs in plain English, for tables, calendars and the terminal.</summary>
public static class ChangeWords
{
    private static readonly LocalTimePattern Clock = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    /// <summary>Program B every 6 days; program A no start times.</summary>
    public static string Of(IEnumerable<ProgramChange> changes) => string.Join("; ", changes.Select(c => $"program {c.Letter} {string.Join(", ", Parts(c))}"));

    private static IEnumerable<string> Parts(ProgramChange change)
    {
        if (change.Days is { } days)
        {
            yield return Days(days);
        }

        if (change.StartTimes is { } starts)
        {
            yield return starts.Count == 0 ? "no start times" : $"start {string.Join(" ", starts.Select(Clock.Format))}";
        }

        foreach (RunTime run in change.RunTimes)
        {
            yield return $"station {run.Station} {run.Seconds / 60} min{(run.Seconds % 60 == 0 ? "" : $" {run.Seconds % 60} s")}";
        }
    }

    private static string Days(DayRule days) => days switch
    {
        DaysOfWeek { Days.Count: 0 } => "no water days",
        DaysOfWeek { Days.Count: 7 } or EveryNDays { Days: 1 } => "every day",
        DaysOfWeek week => string.Join(" ", week.Days.Order().Select(d => d.ToString()[..3])),
        EveryNDays every => $"every {every.Days} days",
        OddDays => "odd dates",
        EvenDays => "even dates",
        _ => throw new NotSupportedException($"Water days of kind {days.Kind}."),
    };
}
