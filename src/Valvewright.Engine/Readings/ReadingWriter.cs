using System.Text;
using NodaTime;
using Valvewright.Engine.Controllers;

namespace Valvewright.Engine.Readings;

/// <summary>Writes a reading back in the quick form, so that it can be read aloud to whoever dictated it.</summary>
/// <remarks>What it writes is read by <see cref="ReadingText"/> without a doubt, as the same reading.</remarks>
public static class ReadingWriter
{
    /// <summary>One line for the controller as a whole, then one a program; 24-hour times, stations as "st1=10m".</summary>
    public static string Write(Reading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        StringBuilder text = new();
        void Line(string line) => text.Append(line).Append('\n');
        if (reading.Controller is { } name)
        {
            Line($"controller {name}");
        }

        if (reading.ReadAt is { } at)
        {
            Line($"now {at:uuuu-MM-dd HH:mm}");
        }

        if (reading.Clock is { } clock)
        {
            Line("clock" + (clock.Weekday is { } day ? $" {day}" : "") + (clock.Date is { } date ? $" {date:uuuu-MM-dd}" : "")
                + (clock.Time is { } time ? $" {time:HH:mm}" : ""));
        }

        if (reading.Percent is { } percent)
        {
            Line($"percent {percent}");
        }

        if (reading.Off is { } off)
        {
            Line(off ? "off" : "on");
        }

        if (reading.RainHoldDays is { } hold)
        {
            Line($"hold {hold}");
        }

        foreach (ReadProgram program in reading.Programs)
        {
            Line($"{program.Letter}: {(IsEmpty(program) ? "none" : string.Join("; ", PartsOf(program)))}");
        }

        return text.ToString();
    }

    private static bool IsEmpty(ReadProgram program) => program is { StartTimes.Count: 0, RunTimes.Count: 0, Days: { Kind: null } };

    private static IEnumerable<string> PartsOf(ReadProgram program)
    {
        if (program.Days is { } days)
        {
            yield return DaysOf(days);
        }

        if (program.StartTimes is { } starts)
        {
            yield return "starts " + (starts.Count == 0 ? "none" : string.Join(' ', starts.Select(s => $"{s:HH:mm}")));
        }

        if (program.RunTimes is { } runs)
        {
            yield return runs.Count == 0 ? "stations none" : string.Join(' ', runs.Select(r => $"st{r.Station}={Length(r.Seconds)}"));
        }
    }

    private static string DaysOf(ReadDays days) => days.Kind switch
    {
        null => "days none",
        DayRuleKind.Odd => "odd",
        DayRuleKind.Even => "even",
        DayRuleKind.DaysOfWeek => "days " + string.Join(' ', days.Weekdays.Select(d => d.ToString()[..3])),
        _ => (days.IntervalDays is { } n ? $"every {n} days" : "days")
            + (days.DaysLeft is { } left ? $" {left} left" : "")
            + (days.Next is { } next ? $" next {next:uuuu-MM-dd}" : ""),
    };

    private static string Length(int seconds) =>
        seconds == 0 ? "0m" : seconds % 60 == 0 ? $"{seconds / 60}m" : seconds < 60 ? $"{seconds}s" : $"{seconds / 60}m{seconds % 60}s";
}
