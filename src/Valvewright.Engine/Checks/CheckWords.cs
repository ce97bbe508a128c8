using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Checks;

/// <summary>Says times, days and changes in the language of a check and the clock style of a site.</summary>
internal sealed class CheckWords(CheckLanguage language, ClockStyle style)
{
    private static readonly LocalTimePattern Hours24 = LocalTimePattern.CreateWithInvariantCulture("HH:mm");
    private static readonly LocalTimePattern Hours12 = LocalTimePattern.CreateWithInvariantCulture("h:mm tt");

    private bool IsSpanish => language == CheckLanguage.Spanish;

    /// <summary>A text with its places filled, in order: {0}, {1}, ...</summary>
    public string Say(string name, params object[] values)
    {
        (string english, string spanish) = CheckTexts.All[name];
        return string.Format(CultureInfo.InvariantCulture, IsSpanish ? spanish : english, values);
    }

    public string Time(LocalTime time) => style == ClockStyle.Hours24 ? Hours24.Format(time) : Hours12.Format(time).ToLowerInvariant();

    public string Weekday(IsoDayOfWeek day) => Say("weekdays").Split(' ')[(int)day - 1];

    /// <summary>Tue 14 Jul.</summary>
    public string Date(LocalDate date) => $"{Weekday(date.DayOfWeek)} {date.Day} {Say("months").Split(' ')[date.Month - 1]}";

    public string Moment(LocalDateTime at) => Say("moment", Date(at.Date), Time(at.TimeOfDay));

    public string Times(IEnumerable<LocalTime> times) => List([.. times.Select(Time)]);

    public string Stations(IEnumerable<int> stations)
    {
        int[] all = [.. stations];
        return Say(all.Length == 1 ? "station" : "stations", List([.. all.Select(s => s.ToString(CultureInfo.InvariantCulture))]));
    }

    public string List(IReadOnlyList<string> items) => items.Count switch
    {
        0 => Say("none"),
        1 => items[0],
        _ => Say("and", string.Join(", ", items.Take(items.Count - 1)), items[^1]),
    };

    public static string Duration(long seconds) => (seconds / 60, seconds % 60) switch
    {
        (0, var s) => $"{s} s",
        (var m, 0) => $"{m} min",
        var (m, s) => $"{m} min {s} s",
    };

    /// <summary>How far a clock is out: minutes, hours, or days, by its size.</summary>
    public string Offset(double minutes)
    {
        long whole = (long)Math.Round(minutes);
        (long days, long hours, long rest) = (whole / 1440, whole % 1440 / 60, whole % 60);
        string[] parts = [days > 0 ? Say(days == 1 ? "amount.day" : "amount.days", days) : "", hours > 0 ? $"{hours} h" : "",
            rest > 0 && days == 0 ? $"{rest} min" : ""];
        return string.Join(' ', parts.Where(p => p.Length > 0).DefaultIfEmpty("0 min"));
    }

    public string Days(DayRule? rule) => rule switch
    {
        null or DaysOfWeek { Days.Count: 0 } => Say("days.none"),
        DaysOfWeek { Days.Count: 7 } or EveryNDays { Days: 1 } => Say("days.every"),
        DaysOfWeek week => string.Join(' ', week.Days.Order().Select(Weekday)),
        OddDays => Say("days.odd"),
        EvenDays => Say("days.even"),
        EveryNDays every => Say("days.interval", every.Days),
        _ => rule.Kind.ToString(),
    };

    /// <summary>How to key a change in.</summary>
    public string Change(KeyChange change, LocalDate controllerDate) => change switch
    {
        StartChange { From: null, To: { } to } c => Say("key.startAdd", c.Program, Time(to)),
        StartChange { From: { } from, To: null } c => Say("key.startClear", c.Program, Time(from)),
        StartChange { From: { } from, To: { } to } c => Say("key.startMove", c.Program, Time(from), Time(to)),
        RunChange { Seconds: 0 } c => Say("key.runClear", c.Program, c.Station),
        RunChange c => Say("key.run", c.Program, c.Station, Duration(c.Seconds)),
        DaysChange { Days: EveryNDays { Days: > 1 } every } c => Say(
            "key.daysInterval", c.Program, every.Days, Expectation.DaysLeft(every, controllerDate),
                Date(controllerDate.PlusDays(Expectation.DaysLeft(every, controllerDate)))),
        DaysChange c => Say("key.days", c.Program, Days(c.Days)),
        PercentChange c => Say("key.percent", c.Percent),
        SwitchChange { On: true } => Say("key.on"),
        SwitchChange => Say("key.off"),
        HoldChange => Say("key.hold"),
        ClockKeyed c => Say("key.clock", Date(c.Shows.Date) + " " + c.Shows.Year, Time(c.Shows.TimeOfDay)),
        _ => change.ToString(),
    };
}
