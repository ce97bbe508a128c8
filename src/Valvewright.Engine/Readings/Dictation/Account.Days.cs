using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Readings.Rules;
using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Readings.Dictation;

/// <summary>Watering days.</summary>
internal sealed partial class Account
{
    private void TakeDays(ProgramNotes notes, Said said)
    {
        switch (said)
        {
            case SaysDays { Days.IntervalDays: -1 }:
                notes.DaysAreUnsettled = true;
                break;
            case SaysDays rule:
                SetDays(notes, rule.Days);
                break;
            case SaysWeekdays { Less: true } less:
                TakeAway(notes, less.Days);
                break;
            case SaysWeekdays more:
                IEnumerable<IsoDayOfWeek> known = notes.Days?.Kind == DayRuleKind.DaysOfWeek ? notes.Days.Weekdays : [];
                SetDays(notes, new ReadDays(DayRuleKind.DaysOfWeek, known.Union(more.Days).Order().ToListOf()));
                break;
            case SaysCount count:
                TakeCount(notes, count);
                break;
        }
    }

    private void TakeAway(ProgramNotes notes, ListOf<IsoDayOfWeek> days)
    {
        bool has = notes.Days?.Kind == DayRuleKind.DaysOfWeek;
        ListOf<IsoDayOfWeek> before = has ? notes.Days!.Weekdays : [.. Enumerable.Range(1, 7).Select(d => (IsoDayOfWeek)d)];
        ListOf<IsoDayOfWeek> left = before.Except(days).ToListOf();
        if (!has)
        {
            Ask("days of the week", "", "Only the days without water were said; every other day of the week was taken");
        }

        SetDays(notes, left.Count == 0 ? ReadDays.None : new ReadDays(DayRuleKind.DaysOfWeek, left));
    }

    private void SetDays(ProgramNotes notes, ReadDays days)
    {
        if (notes.Days?.Kind is { } before && days.Kind is { } after && before != after)
        {
            Ask(NameOf(after), NameOf(before), "Two kinds of watering days for one program; the later one was taken");
        }

        bool keepsCount = days.Kind == DayRuleKind.Interval && notes.Days?.Kind == DayRuleKind.Interval;
        notes.Days = keepsCount ? days with { DaysLeft = notes.Days!.DaysLeft, Next = notes.Days.Next } : days;
        if (hear.Profile is { } profile && days.Kind is { } kind && !profile.KnownDayRules.Contains(kind))
        {
            Ask(NameOf(kind), "", "This controller does not offer such watering days");
        }
        else if (hear.Profile is { } display && days.IntervalDays is { } n && n > display.LargestIntervalDays)
        {
            Ask($"every {n} days", "", $"This controller's longest interval is {display.LargestIntervalDays} days");
        }

        CountFits(notes.Days);
    }

    private void TakeCount(ProgramNotes notes, SaysCount count)
    {
        ReadDays days = notes.Days ?? new ReadDays(DayRuleKind.Interval, []);
        notes.Days = days with { DaysLeft = count.DaysLeft ?? days.DaysLeft, Next = count.Next ?? days.Next };
        if (days.Kind != DayRuleKind.Interval)
        {
            Ask("", "", "Days left belong to an interval, and none was said");
        }

        CountFits(notes.Days);
    }

    private void CountFits(ReadDays days)
    {
        if (days is { IntervalDays: { } n, DaysLeft: { } left } && left >= n)
        {
            Ask($"{left} days left", "", $"Of every {n} days at most {n - 1} can be left");
        }
    }

    private static Sentence NameOf(DayRuleKind kind) => kind switch
    {
        DayRuleKind.DaysOfWeek => "days of the week",
        DayRuleKind.Odd => "odd dates",
        DayRuleKind.Even => "even dates",
        _ => "an interval",
    };
}
