using System.Globalization;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Cards;

/// <summary>How a card's values are said: in one language, one clock style, one unit system and the controller's own terms.</summary>
public sealed class CardPhrases(CardContent card, Language language)
{
    private readonly RunTimeStyle style = RunTimes.StyleOf(card.Profile);

    /// <summary>The texts themselves.</summary>
    public Wording Words { get; } = Wording.In(language);

    /// <summary>The text of that name.</summary>
    public string this[string name] => Words["card." + name];

    /// <summary>The text of that name, filled.</summary>
    public string Fill(string name, params ReadOnlySpan<(string, object)> values) => Words.Fill("card." + name, values);

    /// <summary>A date with its day of the week, the same day for all readers: the month is a word.</summary>
    public string Date(LocalDate date) => $"{WeekDay(date.DayOfWeek)} {DayAndMonth(date)}";

    /// <summary>A date with its year.</summary>
    public string DateAndYear(LocalDate date) => string.Create(CultureInfo.InvariantCulture, $"{DayAndMonth(date)} {date.Year}");

    /// <summary>A day of the year.</summary>
    public string DayAndMonth(AnnualDate date) => $"{date.Day} {Words[$"month.{date.Month}"]}";

    /// <summary>A time of day; its spaces do not break.</summary>
    public string Time(LocalTime time)
    {
        string seconds = time.Second == 0 ? "" : $":{time.Second:00}";
        if (card.ClockStyle == ClockStyle.Hours24)
        {
            return $"{time.Hour:00}:{time.Minute:00}{seconds}";
        }

        return $"{time.ClockHourOfHalfDay}:{time.Minute:00}{seconds}\u00a0{(time.Hour < 12 ? "am" : "pm")}";
    }

    /// <summary>Seconds from midnight as a time of day, up to the next whole minute, with the days passed.</summary>
    public string TimeOfSeconds(int seconds)
    {
        const int day = 86_400;
        seconds = (seconds + 59) / 60 * 60;
        string time = Time(LocalTime.FromSecondsSinceMidnight(seconds % day));
        return seconds < day ? time : time + "\u00a0" + Fill("nextDay", ("n", seconds / day));
    }

    /// <summary>A run time as this controller's display takes it.</summary>
    public string RunTime(int seconds) => RunTimes.Write(seconds, style, Words);

    /// <summary>A sum of run times.</summary>
    public string Sum(int seconds) =>
        RunTimes.Write(seconds, seconds % 60 == 0 ? RunTimeStyle.Minutes : RunTimeStyle.MinutesAndSeconds, Words);

    /// <summary>A volume of water in the site's units, to three figures or the whole unit.</summary>
    public string Volume(double litres)
    {
        if (!double.IsFinite(litres))
        {
            return this["unknown"];
        }

        double amount = card.Units == UnitSystem.Metric ? litres : litres / UsUnits.LitresPerGallon;
        string number = amount is >= 100 or 0 ? Words.Whole(Math.Round(amount)) : amount.ToString("0.0", CultureInfo.InvariantCulture);
        return $"{number}\u00a0{Words[card.Units == UnitSystem.Metric ? "unit.litres" : "unit.gallons"]}";
    }

    /// <summary>Watering days in words.</summary>
    public string Days(DayRule? rule) => rule switch
    {
        null or DaysOfWeek { Days.Count: 0 } => this["noDays"],
        DaysOfWeek { Days.Count: 7 } => this["everyDay"],
        DaysOfWeek week => string.Join(' ', week.Days.Order().Select(WeekDay)),
        OddDays => this["odd"],
        EvenDays => this["even"],
        EveryNDays { Days: 1 } => this["intervalOne"],
        EveryNDays every => Fill("interval", ("n", every.Days)),
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "Watering days without words."),
    };

    /// <summary>What to set for an interval's beginning; null for other rules.</summary>
    public string? UntilFirst(ProgramStep step) => step.DaysUntilFirst is { } days ? Words.Count("card.untilFirst", days) : null;

    /// <summary>For which date that holds; null for other rules.</summary>
    public string? UntilFirstNote(ProgramStep step) => step.DaysUntilFirst is { } days
        ? Fill(days == 0 ? "untilFirst.today" : "untilFirst.note", ("date", Date(card.From)), ("first", Date(card.From.PlusDays(days))))
        : null;

    /// <summary>How to set the clock.</summary>
    public string Clock()
    {
        ClockStep clock = card.Clock;
        (string, object)[] values = [("offset", UtcOffset(clock.StandardOffset)), ("hours", Span(clock.Summer))];
        return clock.Kind switch
        {
            ClockKind.NoChange => this["clock.noChange"],
            ClockKind.ChangesByItself => this["clock.byItself"],
            _ => Fill(clock.Now == Offset.Zero ? "clock.winter" : "clock.summer", values),
        };
    }

    /// <summary>Length of a program's run and how many starts it has a day.</summary>
    public string RunAndStarts(ProgramTotals totals) => $"{Sum(totals.RunSeconds)}\u00a0×\u00a0{totals.Starts}";

    /// <summary>The name of a station's zone.</summary>
    public string Zone(StationName station) => station.Zone ?? this["notWired"];

    /// <summary>What to do with the programs that the plan leaves empty; null when there are none.</summary>
    public string? Unused() => card.UnusedPrograms.Count == 0
        ? null
        : Fill(card.UnusedPrograms.Count == 1 ? "unusedProgram" : "unusedPrograms", ("letters", string.Join(", ", card.UnusedPrograms)));

    /// <summary>What to do with the stations that nothing is wired to; null when there are none.</summary>
    public string? EmptyStations() => card.EmptyStations.Count == 0
        ? null
        : Fill(card.EmptyStations.Count == 1 ? "emptyStation" : "emptyStations", ("stations", Ranges(card.EmptyStations)));

    /// <summary>The percent to set now.</summary>
    public string Percent() => card.PercentNow == 0 ? this["percent.off"] : Fill("percent.now", ("percent", card.PercentNow));

    /// <summary>What to know before the work begins.</summary>
    public IEnumerable<string> CautionsBefore() =>
        Cautions(c => c is not (Caution.Batteries or Caution.BlowOut)).Append(this["caution.codes"]);

    /// <summary>What to know where the controller is opened and its clock is set.</summary>
    public IEnumerable<string> CautionsAtClock() => Cautions(c => c is Caution.Batteries);

    /// <summary>What to know at the visit that turns the controller off.</summary>
    public IEnumerable<string> CautionsAtVisits() => Cautions(c => c is Caution.BlowOut);

    private IEnumerable<string> Cautions(Func<Caution, bool> here) =>
        card.Cautions.Where(here).Select(c => this[$"caution.{c.ToString().ToLowerInvariant()}"]);

    /// <summary>Whether there is a percent to set, or to turn it off at a visit.</summary>
    public bool HasPercent => card.Profile.Percent is not { Least: 100, Largest: 100 };

    /// <summary>What is wrong with the plan, before anything is set; null where it passes or was not proven.</summary>
    public string? Fails()
    {
        if (card.Verdict is not { Passed: false } verdict)
        {
            return null;
        }

        string[] here = [.. verdict.Short.Where(s => s.Controller == card.Controller).Select(s => s.Zone)];
        string[] zones = here.Length > 0 ? here : [.. verdict.Short.Select(s => $"{s.Controller}, {s.Zone}")];
        return string.Join(' ', new[]
        {
            this[here.Length > 0 ? "verdict.here" : "verdict.fails"],
                verdict.Breaches > 0 ? Words.Count("card.verdict.rules", verdict.Breaches) : "",
            zones.Length > 0 ? Fill("verdict.short", ("zones", string.Join("; ", zones))) : "", this["verdict.advice"],
        }.Where(t => t.Length > 0));
    }

    /// <summary>What is new at the visit of the card's date; null on other dates.</summary>
    public string? New()
    {
        int at = card.Visits.ToList().FindIndex(v => v.Date.Month == card.From.Month && v.Date.Day == card.From.Day);
        if (at < 0 || card.Visits.Count < 2)
        {
            return null;
        }

        int before = card.Visits[(at + card.Visits.Count - 1) % card.Visits.Count].Percent, now = card.Visits[at].Percent;
        bool changes = card.Changes.Any(c => c.Date == card.Visits[at].Date);
        return before == now && !changes ? null
            : string.Join(' ', new[] { before == now ? "" : Fill("new.percent", ("before", Percent(before)), ("now", Percent(now))),
                this[changes ? "new.programs" : "new.rest"] }.Where(t => t.Length > 0));
    }

    /// <summary>Index of the visit that is in force on the card's date; -1 without visits.</summary>
    public int VisitNow => card.Visits.Count == 0 ? -1
        : card.Visits.ToList().FindLastIndex(v => (v.Date.Month, v.Date.Day).CompareTo((card.From.Month, card.From.Day)) <= 0)
            is >= 0 and var at ? at : card.Visits.Count - 1;

    /// <summary>What the controller can hold.</summary>
    public string Holds() =>
        $"{Words.Count("card.stations", card.Profile.Stations)}, {Words.Count("card.programs", card.Profile.Programs)}";

    /// <summary>A visit's percent.</summary>
    public string Percent(int percent) => percent == 0 ? this["off"] : Words.Percent(percent);

    /// <summary>What a visit sets beside the percent, with its date; days until the first watering hold for the next time that the visit
    /// is made.</summary>
    public string Change(VisitChange change) =>
        $"{DayAndMonth(change.Date)}: {string.Join("; ", ChangedPrograms(change))}. {ChangedCheck(change)}";

    /// <summary>The same program by program.</summary>
    public IEnumerable<string> ChangedPrograms(VisitChange change)
    {
        LocalDate on = change.Date.InYear(card.From.Year) is var date && date >= card.From ? date : change.Date.InYear(card.From.Year + 1);
        return change.Programs.Select(p => $"{Fill("program", ("letter", p.Letter))}: {string.Join(", ", Parts(p, on))}");
    }

    /// <summary>The check text that a visit leaves.</summary>
    public string ChangedCheck(VisitChange change) => Fill("change.check", ("check", change.Check));

    private IEnumerable<string> Parts(ProgramChange change, LocalDate on)
    {
        if (change.Days is { } days)
        {
            yield return days is EveryNDays { Days: > 1 } every
                ? $"{Days(days)} ({Words.Count("card.untilFirst", ProgramStep.UntilFirst(every, on))})" : Days(days);
        }

        if (change.StartTimes is { } starts)
        {
            yield return starts.Count == 0 ? this["change.noStarts"]
                : Fill("change.starts", ("times", string.Join(", ", starts.Select(Time))));
        }

        foreach (RunTime run in change.RunTimes)
        {
            yield return Fill("change.run", ("station", run.Station), ("time", run.Seconds == 0 ? this["zero"] : RunTime(run.Seconds)));
        }
    }

    /// <summary>Start times to clear, as the numbers of their places.</summary>
    public string? EmptyStarts(ProgramStep step)
    {
        int used = step.Program.StartTimes.Count;
        return step.EmptyStarts == 0 ? null : Fill("clearSlots", ("slots", Ranges(Enumerable.Range(used + 1, step.EmptyStarts))));
    }

    /// <summary>When a program opens and closes on a date, to the minute outwards: watering lies within.</summary>
    public string Expected(ExpectedProgram program) =>
        $"{Time(WholeMinute(program.Opens))}–{Time(WholeMinute(program.Closes.PlusSeconds(59)))}" + (
            program.Closes.Date > program.Opens.Date
                ? "\u00a0" + Fill("nextDay", ("n", Period.DaysBetween(program.Opens.Date, program.Closes.Date))) : "")
        + (program.Starts > 1 ? $"\u00a0×{program.Starts}" : "");

    /// <summary>Rising numbers with runs drawn together: 1–3, 5.</summary>
    public static string Ranges(IEnumerable<int> numbers)
    {
        List<(int From, int To)> runs = [];
        foreach (int number in numbers)
        {
            if (runs.Count > 0 && runs[^1].To == number - 1)
            {
                runs[^1] = (runs[^1].From, number);
            }
            else
            {
                runs.Add((number, number));
            }
        }

        return string.Join(", ", runs.Select(r => r.From == r.To ? $"{r.From}" : $"{r.From}–{r.To}"));
    }

    private string DayAndMonth(LocalDate date) => $"{date.Day} {Words[$"month.{date.Month}"]}";

    private string WeekDay(IsoDayOfWeek day) => Words[$"day.{(int)day}"];

    private static LocalTime WholeMinute(LocalDateTime at) => new(at.Hour, at.Minute);

    private static string UtcOffset(Offset offset)
    {
        int minutes = Math.Abs(offset.Seconds) / 60;
        return string.Create(CultureInfo.InvariantCulture, $"{(offset.Seconds < 0 ? '−' : '+')}{minutes / 60}:{minutes % 60:00}");
    }

    private string Span(Offset offset) => offset.Seconds % 3600 == 0
        ? Words.Count("card.clock.hours", offset.Seconds / 3600)
        : Fill("clock.minutes", ("n", offset.Seconds / 60));
}
