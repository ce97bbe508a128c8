using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Readings;

/// <summary>Water days.</summary>
internal sealed partial class ReadingParser
{
    private const int LongestInterval = 365;

    private bool TakeDay(Word word)
    {
        if (Lexicon.WeekdayOf(word.Text) is { } weekday)
        {
            at++;
            AddWeekdays([weekday], word);
            return true;
        }

        if (DayLetters.Read(word.Text, section == Section.Days) is not { } letters)
        {
            return false;
        }

        at++;
        if (letters.Problem.Length > 0)
        {
            Doubted(word, "", letters.Otherwise, letters.Problem);
        }
        else
        {
            AddWeekdays(letters.Days, word);
        }

        section = Section.Days;
        return true;
    }

    /// <summary>Whether "days" comes next, fillers aside, as in "todos los días".</summary>
    private bool DaysFollow()
    {
        int next = at + 1;
        while (next < words.Count && !words[next].BeginsStatement && Lexicon.SenseOf(words[next].Text) == Sense.Filler)
        {
            next++;
        }

        return next < words.Count && !words[next].BeginsStatement && Lexicon.SenseOf(words[next].Text) == Sense.Days;
    }

    private bool TakeDayWord(Word word, Sense sense)
    {
        bool vague = word.Text is "all" or "todos" or "each" or "from" or "since" or "desde";
        if (vague && section != Section.Days && sense != Sense.Every && !(sense == Sense.Daily && DaysFollow()))
        {
            return false;
        }

        at++;
        switch (sense)
        {
            case Sense.Odd:
                SetDays(new ReadDays(DayRuleKind.Odd, []), word);
                break;
            case Sense.Even:
                SetDays(new ReadDays(DayRuleKind.Even, []), word);
                break;
            case Sense.Daily:
                SetDays(new ReadDays(DayRuleKind.DaysOfWeek, EveryDay), word);
                break;
            case Sense.Every:
                TakeEvery(word);
                break;
            case Sense.Left:
                TakeLeft(word);
                break;
            case Sense.Next:
                TakeNext(word);
                break;
            default:
                Left(word, "it stands alone");
                break;
        }

        if (Current is { BeginsStatement: false } days && Lexicon.SenseOf(days.Text) == Sense.Days)
        {
            at++;
        }

        return true;
    }

    private static ListOf<IsoDayOfWeek> EveryDay => [.. Enumerable.Range(1, 7).Select(d => (IsoDayOfWeek)d)];

    private void TakeEvery(Word word)
    {
        if (Current is { } day && Lexicon.SenseOf(day.Text) == Sense.Days)
        {
            at++;
            SetDays(new ReadDays(DayRuleKind.DaysOfWeek, EveryDay), word);
        }
        else if (Current is { Text: "other" or "second" })
        {
            at++;
            SetDays(new ReadDays(DayRuleKind.Interval, [], 2), word);
        }
        else if (Current is { } number && int.TryParse(number.Text.TrimEnd('r', 'd', 't', 'h'), out int n) && n is >= 1 and <= LongestInterval)
        {
            at++;
            SetDays(new ReadDays(DayRuleKind.Interval, [], n), word);
            if (profile is not null && n > profile.LargestIntervalDays)
            {
                Doubted(number, $"every {n} days", "", $"This controller's longest interval is {profile.LargestIntervalDays} days");
            }
        }
        else if (Current is { } weekday && Lexicon.WeekdayOf(weekday.Text) is not null)
        {
            section = Section.Days;
        }
        else
        {
            Left(word, "every how many days is missing");
        }
    }

    private void TakeLeft(Word word)
    {
        if (Current is { } number && int.TryParse(number.Text, out int left) && left is >= 0 and <= LongestInterval)
        {
            at++;
            SetDaysLeft(left, number);
        }
        else
        {
            Left(word, "how many days are left is missing");
        }
    }

    private void SetDaysLeft(int left, Word word)
    {
        ProgramNotes notes = Notes(word);
        ReadDays days = notes.Days ?? new ReadDays(DayRuleKind.Interval, []);
        notes.Days = days with { DaysLeft = left };
        if (days.Kind != DayRuleKind.Interval)
        {
            Doubted(word, $"{left} days left", "", "Days left belong to an interval, and none was said");
        }
        else if (days.IntervalDays is { } n && left >= n)
        {
            Doubted(word, $"{left} days left", "", $"Of every {n} days at most {n - 1} can be left");
        }
    }

    private void TakeNext(Word word)
    {
        if (DateAt() is not { } date)
        {
            Left(word, "a date is missing after it");
            return;
        }

        ProgramNotes notes = Notes(word);
        notes.Days = (notes.Days ?? new ReadDays(DayRuleKind.Interval, [])) with { Next = date };
        section = Section.Days;
    }

    private void AddWeekdays(IEnumerable<IsoDayOfWeek> added, Word word)
    {
        ReadDays? before = Notes(word).Days;
        IEnumerable<IsoDayOfWeek> known = before?.Kind == DayRuleKind.DaysOfWeek ? before.Weekdays : [];
        SetDays(new ReadDays(DayRuleKind.DaysOfWeek, known.Union(added).Order().ToListOf()), word);
    }

    private void SetDays(ReadDays days, Word word)
    {
        ProgramNotes notes = Notes(word);
        if (notes.Days?.Kind is { } before && before != days.Kind)
        {
            Doubted(word, NameOf(days.Kind!.Value), NameOf(before), "Two kinds of water days for one program; the later one was taken");
        }

        bool keepsCount = days.Kind == DayRuleKind.Interval && notes.Days?.Kind == DayRuleKind.Interval;
        notes.Days = keepsCount ? days with { DaysLeft = notes.Days!.DaysLeft, Next = notes.Days.Next } : days;
        section = Section.Days;
        if (profile is not null && !profile.DayRules.Contains(days.Kind!.Value))
        {
            Doubted(word, NameOf(days.Kind.Value), "", "This controller does not offer such water days");
        }
    }

    private static string NameOf(DayRuleKind kind) => kind switch
    {
        DayRuleKind.DaysOfWeek => "days of the week",
        DayRuleKind.Odd => "odd dates",
        DayRuleKind.Even => "even dates",
        _ => "an interval",
    };
}
