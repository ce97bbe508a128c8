using System.Globalization;
using NodaTime;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Cli.Commands;

/// <summary>Days of the year and of the week as a person types them.</summary>
internal static class DayText
{
    /// <summary>Seven letters of a day are enough to tell what was meant; three are enough to tell them apart.</summary>
    private static readonly (string Word, IsoDayOfWeek Day)[] Week =
        [.. Enum.GetValues<IsoDayOfWeek>().Where(d => d != IsoDayOfWeek.None).Select(d => (d.ToString().ToLowerInvariant(), d))];

    /// <summary><c>5-12</c> is 12 May; null where the text is no day of the year.</summary>
    public static AnnualDate? Annual(string text)
    {
        string[] parts = text.Split('-');
        return parts.Length == 2 && Number(parts[0]) is { } month and >= 1 and <= 12 && Number(parts[1]) is { } day && day >= 1
            && day <= CalendarSystem.Iso.GetDaysInMonth(2000, month)
                ? new AnnualDate(month, day)
                : null;
    }

    /// <summary><c>8-1..8-31</c> is August, <c>11-15..2-20</c> runs over the new year; null where the text is no such span.</summary>
    public static PeriodOfYear? Period(string text)
    {
        string[] ends = text.Split("..");
        return ends.Length == 2 && Annual(ends[0]) is { } from && Annual(ends[1]) is { } to ? new PeriodOfYear(from, to) : null;
    }

    /// <summary><c>mon</c> or <c>Monday</c>; null where it is no day of the week.</summary>
    public static IsoDayOfWeek? Weekday(string text)
    {
        string word = text.Trim().ToLowerInvariant();
        return word.Length < 3 ? null : Week.Where(w => w.Word.StartsWith(word, StringComparison.Ordinal)).Select(w => (IsoDayOfWeek?)w.Day)
            .FirstOrDefault();
    }

    /// <summary>The day of the week that was probably meant.</summary>
    public static string? NearestWeekday(string text) => NearestWord.To(text, Week.SelectMany(w => new[] { w.Word[..3], w.Word }));

    private static int? Number(string text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number)
        ? number : null;
}
