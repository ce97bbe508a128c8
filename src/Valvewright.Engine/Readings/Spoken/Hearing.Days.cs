using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Readings.Spoken;

/// <summary>Days of the week heard.</summary>
/// <param name="Problem">The two ways in which letters can be read, where the order of the week does not settle it; else null.</param>
internal sealed record HeardDays(ListOf<IsoDayOfWeek> Days, int End, string? Problem = null, bool Letters = false);

internal sealed partial class Hearing
{
    /// <summary>One or two letters that stand for a day by themselves; "a" and "al" do not.</summary>
    private static readonly string[] LoneLetters = ["m", "t", "w", "th", "f", "s", "tu", "sa", "su", "l", "x", "j", "v", "d", "mt", "tt",
        "ws", "ss", "tf", "mw", "mf", "wf", "lx", "lv", "xv", "mj", "js", "jd", "sd", "tw"];

    private const int MostTokens = 40;

    public IsoDayOfWeek? Weekday(int at) => this[at] is { Kind: TokenKind.Word } word
        && !(word.Text.Length == 2 && word.Text == "we" && !word.Glued && IsBeginning(at)) ? CalendarNames.WeekdayOf(word.Known) : null;

    /// <summary>Names of days in a row: "Monday, Wednesday and Friday", "Monday to Friday", "Mon on Tue off".</summary>
    public HeardDays? WeekdayList(int at)
    {
        SortedSet<IsoDayOfWeek> days = [];
        int next = IsText(at, "from", "de", "del", "on", "los", "el", "the") ? at + 1 : at;
        next = IsText(next, "el", "los", "the") ? next + 1 : next;
        int end = at;
        bool switched = false, listed = false;
        while (next - at < MostTokens && Weekday(next) is { } day)
        {
            end = next + 1;
            if (SwitchAt(end) is { } on && (switched || !listed)
                && (switched || Weekday(end + 1) is not null || (this[end + 1]?.IsPause == true && Weekday(end + 2) is not null)))
            {
                switched = true;
                (end, _) = (end + 1, on && days.Add(day));
            }
            else
            {
                days.Add(day);
                listed = true;
                int to = IsText(end, "el", "los") ? end + 1 : end;
                to = Is(to, Sense.Through) ? to + 1 : -1;
                to = to > 0 && IsText(to, "el", "los") ? to + 1 : to;
                bool chain = to > 0 && this[to - 1]?.Text == "-" && Is(to + 1, Sense.Through) && this[to + 1]?.Text == "-";
                if (to > 0 && !chain && !IsListed(at, next) && Weekday(to) is { } last)
                {
                    for (int i = 0; i < 7 && !days.Contains(last); i++)
                    {
                        days.Add((IsoDayOfWeek)((((int)day - 1 + i) % 7) + 1));
                    }

                    end = to + 1;
                }
            }

            next = Joined(end);
        }

        return end > at ? new HeardDays(days.ToListOf(), end) : null;

        bool IsListed(int from, int here) => here > from && this[here - 1] is { Text: "-" or "/" };

        int Joined(int after)
        {
            int word = after;
            while (word - after < 4 && this[word] is { } t && (t.Kind == TokenKind.Pause
                || t.Text is "and" or "y" or "&" or "+" or "/" or "-" or "on" or "el" or "los" or "the" or "e" or "plus"))
            {
                word++;
            }

            return word;
        }

        bool? SwitchAt(int word) => Is(word, Sense.On) || Is(word, Sense.Yes) ? true : Is(word, Sense.Off) || IsText(word, "no")
            ? false : null;
    }

    /// <summary>"MWF", "T Th S", "M-W-F--", "L X V".</summary>
    public HeardDays? DayLetters(int at, bool expected)
    {
        System.Text.StringBuilder letters = new();
        int end = at;
        bool mask = false;
        for (int i = at; this[i] is { } token; i++)
        {
            bool isLetters = token.Kind == TokenKind.Word && token.Text.Length <= (i == at ? 10 : 7) && token.Text.All(
                c => "mtwthfsaulxjvd".Contains(c, StringComparison.Ordinal)) && (token.Text.Length > 2 || LoneLetters.Contains(token.Text));
            bool isJoin = token.Text is "-" or "/" or "_" && (token.Glued || i == at);
            if ((!isLetters && !isJoin) || (i > at && token.Is(Sense.Day))
                || (isLetters && i > at && token.Text.Length > 2 && CalendarNames.Knows(token.Text)))
            {
                break;
            }

            mask |= isJoin;
            letters.Append(isLetters ? token.Text : token.Text == "/" ? "" : "-");
            end = i + 1;
        }

        string text = letters.ToString();
        bool spaced = end - at > 1;
        if (text.Length < 2 && !expected)
        {
            return null;
        }

        bool capitals = !spaced && this[at]!.Typed.All(char.IsUpper);
        string clump = text.Length == 7 && mask ? text : text.Replace("-", "", StringComparison.Ordinal);
        if (Readings.DayLetters.Read(clump, true) is not { } read || (!expected && !spaced && !capitals && text.Length < 3))
        {
            return null;
        }

        return new HeardDays(read.Days, end, read.Otherwise.Length > 0 ? read.Otherwise : null, true);
    }

    /// <summary>A date: "2026-07-14", "14 July 2026", "July 14, 2026", "14/7/2026"; with what must be asked where day and month could
    /// change places.</summary>
    public (LocalDate Date, int End, Question? Asks)? Date(int at)
    {
        if (this[at] is { Kind: TokenKind.Number } first && this[at + 1] is { Glued: true, Text: "-" or "/" or "." }
            && this[at + 2] is { Glued: true, Kind: TokenKind.Number } second
            && this[at + 3] is { Glued: true, Text: "-" or "/" or "." } && this[at + 4] is { Glued: true, Kind: TokenKind.Number } third)
        {
            if (first.Text.Length == 4)
            {
                return Make(first.Number, second.Number, third.Number) is { } iso ? (iso, at + 5, null) : null;
            }

            int year = third.Number + (third.Text.Length == 2 ? 2000 : 0);
            LocalDate? dayFirst = Make(year, second.Number, first.Number), monthFirst = Make(year, first.Number, second.Number);
            Question? asks = dayFirst is { } d && monthFirst is { } m && d != m
                ? new Question($"{d:uuuu-MM-dd}", $"{m:uuuu-MM-dd}", "Day first or month first") : null;
            return (dayFirst ?? monthFirst) is { } date ? (date, at + 5, asks) : null;
        }

        List<int> parts = [];
        int? month = null;
        int end = at;
        for (int i = at; i < at + 6 && parts.Count < 3; i++)
        {
            if (this[i] is { } word && month is null && CalendarNames.MonthOf(word.Known) is { } named
                && (word.Text.Length > 3 || parts.Count > 0 || this[i + 1]?.Kind == TokenKind.Number))
            {
                month = named;
                parts.Add(0);
            }
            else if (this[i] is { Kind: TokenKind.Number } number)
            {
                parts.Add(number.Number);
            }
            else if (i == at || !IsText(i, "de", "of", "st", "nd", "rd", "th", ",", "del"))
            {
                break;
            }

            end = i + 1;
        }

        if (month is null || parts.Count < 3 || parts[2] == 0)
        {
            return null;
        }

        int full = parts[2] < 100 ? parts[2] + 2000 : parts[2];
        return Make(full, month.Value, parts[0] == 0 ? parts[1] : parts[0]) is { } said ? (said, end, null) : null;
    }

    private static LocalDate? Make(int year, int month, int day) =>
        year is >= 1990 and <= 2199 && month is >= 1 and <= 12 && day >= 1 && day <= CalendarSystem.Iso.GetDaysInMonth(year, month)
            ? new LocalDate(year, month, day) : null;
}
