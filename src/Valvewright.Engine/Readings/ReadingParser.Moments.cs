using System.Text.RegularExpressions;
using NodaTime;
using NodaTime.Text;

namespace Valvewright.Engine.Readings;

/// <summary>What the clock showed, and when it was read.</summary>
internal sealed partial class ReadingParser
{
    private static readonly LocalDatePattern IsoDate = LocalDatePattern.Iso;

    [GeneratedRegex("^([0-9]{1,2})[/.-]([0-9]{1,2})[/.-]([0-9]{2}|[0-9]{4})$")]
    private static partial Regex NumericDate();

    /// <summary>Weekday, date and time in any order, as far as they follow; null where none does.</summary>
    private ClockShown? TakeMoment(Word opening)
    {
        LocalTime? time = null;
        IsoDayOfWeek? weekday = null;
        LocalDate? date = null;
        while (Current is { } word && !(word.BeginsStatement && (time ?? (object?)weekday ?? date) is not null))
        {
            if (Lexicon.WeekdayOf(word.Text) is { } day)
            {
                weekday = day;
                at++;
            }
            else if (DateAt() is { } shown)
            {
                date = shown;
            }
            else if (Lexicon.SenseOf(word.Text) is Sense.Noon or Sense.Midnight)
            {
                time = Lexicon.SenseOf(word.Text) == Sense.Noon ? LocalTime.Noon : LocalTime.Midnight;
                at++;
            }
            else if (time is null && TimeAt(word) is { } read)
            {
                time = read;
            }
            else if (Lexicon.SenseOf(word.Text) is Sense.Filler or Sense.Clock)
            {
                at++;
            }
            else
            {
                break;
            }
        }

        if (time is null && weekday is null && date is null)
        {
            Left(opening, "neither a time nor a day follows");
            return null;
        }

        if (date is { } full && weekday is { } named && full.DayOfWeek != named)
        {
            Doubted(opening, $"{full:uuuu-MM-dd}", (Phrase)named.ToString()!, $"That date is a {(Phrase)full.DayOfWeek.ToString()}");
        }

        return new ClockShown(time, weekday, date);
    }

    private void TakeReadAt(Word word)
    {
        ClockShown? moment = TakeMoment(word);
        if (moment is { Date: { } date, Time: { } time })
        {
            readAt = date + time;
        }
        else if (moment is not null)
        {
            Left(word, "when it was read needs a date and a time");
        }
    }

    /// <summary>"2026-07-14", "14 July 2026", "July 14 2026", "14/7/2026"; passes it and gives the date, or null.</summary>
    private LocalDate? DateAt()
    {
        if (Current is not { } word)
        {
            return null;
        }

        if (IsoDate.Parse(word.Text) is { Success: true } iso)
        {
            at++;
            return iso.Value;
        }

        return NumericDate().Match(word.Text) is { Success: true } numeric ? FromNumbers(numeric, word) : FromWords();
    }

    private LocalDate? FromNumbers(Match match, Word word)
    {
        int one = int.Parse(match.Groups[1].ValueSpan), two = int.Parse(match.Groups[2].ValueSpan), year = FullYear(match.Groups[3].Value);
        at++;
        LocalDate? dayFirst = Make(year, two, one), monthFirst = Make(year, one, two);
        if (dayFirst is { } d && monthFirst is { } m && d != m)
        {
            Doubted(word, $"{d:uuuu-MM-dd}", $"{m:uuuu-MM-dd}", "Day first or month first");
        }

        if ((dayFirst ?? monthFirst) is not { } date)
        {
            Left(word, "this is no date");
            return null;
        }

        return date;
    }

    private LocalDate? FromWords()
    {
        if (at + 2 >= words.Count)
        {
            return null;
        }

        (string a, string b, string c) = (words[at].Text, words[at + 1].Text, words[at + 2].Text);
        int? month = Lexicon.MonthOf(a) ?? Lexicon.MonthOf(b);
        string day = Lexicon.MonthOf(a) is null ? a : b;
        if (month is null || !int.TryParse(day.TrimEnd('s', 't', 'n', 'd', 'r', 'h'), out int number) || c.Length is not (2 or 4) || !int.TryParse(c, out _))
        {
            return null;
        }

        if (Make(FullYear(c), month.Value, number) is not { } date)
        {
            return null;
        }

        at += 3;
        return date;
    }

    /// <summary>Two digits mean this century.</summary>
    private static int FullYear(string digits) => int.Parse(digits) + (digits.Length == 2 ? 2000 : 0);

    private static LocalDate? Make(int year, int month, int day) =>
        year is >= 1990 and <= 2199 && month is >= 1 and <= 12 && day >= 1 && day <= CalendarSystem.Iso.GetDaysInMonth(year, month)
            ? new LocalDate(year, month, day)
            : null;
}
