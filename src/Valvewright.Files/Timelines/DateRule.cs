namespace Valvewright.Files.Timelines;

/// <summary>A rule of RFC 5545 (section 3.3.10) that gives exactly some dates.</summary>
/// <param name="Parts">The rule without its end: <c>FREQ=WEEKLY;BYDAY=MO,WE</c>.</param>
/// <param name="Dates">The dates that it gives from the first to the last, both included.</param>
public sealed record DateRule(string Parts, ListOf<LocalDate> Dates)
{
    private const int FewestForARule = 3;
    private static readonly string[] DayLetters = ["", "MO", "TU", "WE", "TH", "FR", "SA", "SU"];

    /// <summary>
    /// Splits rising dates into stretches that a rule gives exactly, and single dates (with empty parts) where none does.
    /// </summary>
    public static IEnumerable<DateRule> Split(IReadOnlyList<LocalDate> dates)
    {
        ArgumentNullException.ThrowIfNull(dates);
        for (int from = 0; from < dates.Count;)
        {
            (string parts, int count) = Candidates(dates, from)
                .Select(c => (c.Parts, Count: Matching(dates, from, c.Gives)))
                .MaxBy(c => c.Count);
            count = count >= FewestForARule ? count : 1;
            yield return new DateRule(count == 1 ? "" : parts, dates.Skip(from).Take(count).ToListOf());
            from += count;
        }
    }

    /// <summary>Rules that could go on as the dates begin, each with the test that says which days it gives.</summary>
    private static IEnumerable<(string Parts, Func<LocalDate, bool> Gives)> Candidates(IReadOnlyList<LocalDate> dates, int from)
    {
        LocalDate first = dates[from];
        int step = from + 1 < dates.Count ? Period.DaysBetween(first, dates[from + 1]) : 1;
        yield return (step == 1 ? "FREQ=DAILY" : $"FREQ=DAILY;INTERVAL={step}", d => Period.DaysBetween(first, d) % step == 0);

        HashSet<IsoDayOfWeek> week = [.. dates.Skip(from).TakeWhile(d => d < first.PlusDays(7)).Select(d => d.DayOfWeek)];
        yield return ($"FREQ=WEEKLY;BYDAY={string.Join(',', week.Order().Select(d => DayLetters[(int)d]))}", d =>
            week.Contains(d.DayOfWeek));

        int[] odd = [.. Enumerable.Range(0, 16).Select(i => 2 * i + 1)];
        yield return ($"FREQ=MONTHLY;BYMONTHDAY={string.Join(',', odd)}", d => d.Day % 2 == 1);
        yield return ($"FREQ=MONTHLY;BYMONTHDAY={string.Join(',', odd[..^1])}", d => d.Day % 2 == 1 && d.Day != 31);
        yield return ($"FREQ=MONTHLY;BYMONTHDAY={string.Join(',', odd[..^1].Select(d => d + 1))}", d => d.Day % 2 == 0);
    }

    /// <summary>How many of the dates, from one on, are exactly those that a rule gives.</summary>
    private static int Matching(IReadOnlyList<LocalDate> dates, int from, Func<LocalDate, bool> gives)
    {
        int count = 0;
        for (LocalDate day = dates[from]; from + count < dates.Count; day = day.PlusDays(1))
        {
            bool listed = dates[from + count] == day;
            if (listed != gives(day))
            {
                break;
            }

            count += listed ? 1 : 0;
        }

        return count;
    }
}
