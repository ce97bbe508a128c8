using System.Text;
using NodaTime;
using NodaTime.Text;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Readings;

/// <summary>Writes a reading back in the quick form, so that it can be read aloud to anyone who dictated it.</summary>
/// <remarks>What it writes, in either language and clock style, is read by <see cref="ReadingText"/> without a doubt, as the same
/// reading.</remarks>
public static class ReadingWriter
{
    private static readonly Terms English = new("controller", "now", "clock", "percent", "off", "on", "hold", "none", "starts", "stations",
        "st", "days", "odd", "even", "every", "left", "next", "Mon Tue Wed Thu Fri Sat Sun");
    private static readonly Terms Spanish = new("programador", "ahora", "reloj", "ajuste", "apagado", "encendido", "pausa", "nada",
        "inicios", "estaciones", "est", "días", "impares", "pares", "cada", "faltan", "próximo", "lun mar mié jue vie sáb dom");
    private static readonly LocalTimePattern Hours24 = LocalTimePattern.CreateWithInvariantCulture("HH:mm");
    private static readonly LocalTimePattern Hours12 = LocalTimePattern.CreateWithInvariantCulture("h:mmtt");

    /// <summary>One line for the controller as a whole, then one a program; stations as "st1=10m".</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="clock">How times are written: as the display shows them.</param>
    /// <param name="spanish">In Spanish, else in English.</param>
    public static string Write(Reading reading, ClockStyle clock = ClockStyle.Hours24, bool spanish = false)
    {
        ArgumentNullException.ThrowIfNull(reading);
        Terms terms = spanish ? Spanish : English;
        string Time(LocalTime time) => clock == ClockStyle.Hours24 ? Hours24.Format(time) : Hours12.Format(time).ToLowerInvariant();
        StringBuilder text = new();
        void Line(string line) => text.Append(line).Append('\n');
        if (reading.Controller is { } name)
        {
            Line($"{terms.Controller} {name}");
        }

        if (reading.ReadAt is { } at)
        {
            Line($"{terms.Now} {at.Date:uuuu-MM-dd} {Time(at.TimeOfDay)}");
        }

        if (reading.Clock is { } shown)
        {
            Line(terms.Clock + (shown.Weekday is { } day ? $" {terms.Day(day)}" : "") + (
                shown.Date is { } date ? $" {date:uuuu-MM-dd}" : "")
                + (shown.Time is { } time ? $" {Time(time)}" : ""));
        }

        if (reading.Percent is { } percent)
        {
            Line($"{terms.Percent} {percent}");
        }

        if (reading.Off is { } off)
        {
            Line(off ? terms.Off : terms.On);
        }

        if (reading.RainHoldDays is { } hold)
        {
            Line($"{terms.Hold} {hold}");
        }

        foreach (ReadProgram program in reading.Programs)
        {
            Line($"{program.Letter}: {(IsEmpty(program) ? terms.None : string.Join("; ", PartsOf(program, terms, Time)))}");
        }

        return text.ToString();
    }

    private static bool IsEmpty(ReadProgram program) => program is { StartTimes.Count: 0, RunTimes.Count: 0, Days: { Kind: null } };

    private static IEnumerable<string> PartsOf(ReadProgram program, Terms terms, Func<LocalTime, string> time)
    {
        if (program.Days is { } days)
        {
            yield return DaysOf(days, terms);
        }

        if (program.StartTimes is { } starts)
        {
            yield return $"{terms.Starts} " + (starts.Count == 0 ? terms.None : string.Join(' ', starts.Select(time)));
        }

        if (program.RunTimes is { } runs)
        {
            yield return runs.Count == 0 ? $"{terms.Stations} {terms.None}"
                : string.Join(' ', runs.Select(r => $"{terms.Station}{r.Station}={Length(r.Seconds)}"));
        }
    }

    private static string DaysOf(ReadDays days, Terms terms) => days.Kind switch
    {
        null => $"{terms.Days} {terms.None}",
        DayRuleKind.Odd => terms.Odd,
        DayRuleKind.Even => terms.Even,
        DayRuleKind.DaysOfWeek => $"{terms.Days} " + string.Join(' ', days.Weekdays.Select(terms.Day)),
        _ => (days.IntervalDays is { } n ? $"{terms.Every} {n} {(n == 1 ? terms.DayWord : terms.Days)}" : terms.Days)
            + (days.DaysLeft is { } left ? $" {left} {terms.Left}" : "")
            + (days.Next is { } next ? $" {terms.Next} {next:uuuu-MM-dd}" : ""),
    };

    private static string Length(int seconds) =>
        seconds == 0 ? "0m" : seconds % 60 == 0 ? $"{seconds / 60}m" : seconds < 60 ? $"{seconds}s" : $"{seconds / 60}m{seconds % 60}s";

    private sealed record Terms(
        string Controller, string Now, string Clock, string Percent, string Off, string On, string Hold, string None, string Starts,
            string Stations, string Station, string Days,
        string Odd, string Even, string Every, string Left, string Next, string Weekdays)
    {
        /// <summary>One day.</summary>
        public string DayWord => Days[..^1];

        public string Day(IsoDayOfWeek day) => Weekdays.Split(' ')[(int)day - 1];
    }
}
