using System.Collections.Frozen;
using NodaTime;

namespace Valvewright.Engine.Readings.Spoken;

/// <summary>Names of days and months in English and Spanish.</summary>
internal static class CalendarNames
{
    private static readonly FrozenDictionary<string, int> Weekdays = Numbered(
    [
        "mo mon monday mondays mondays' lu lun lunes", "tu tue tues tuesday tuesdays ma mar martes",
            "we wed weds wednesday wednesdays mi mie mier miercoles", "th thu thur thurs thursday thursdays ju jue jueves",
        "fr fri friday fridays vi vie viernes", "sa sat saturday saturdays sab sabado sabados",
            "su sun sunday sundays dom domingo domingos",
    ]);

    private static readonly FrozenDictionary<string, int> Months = Numbered(
    [
        "jan january ene enero", "feb february febrero", "march marzo", "apr april abr abril", "may mayo", "jun june junio",
        "jul july julio", "aug august ago agosto", "sep sept september septiembre", "oct october octubre", "nov november noviembre",
            "dec december dic diciembre",
    ]);

    /// <summary>All names.</summary>
    public static IEnumerable<string> Names => Weekdays.Keys.Concat(Months.Keys);

    /// <summary>Whether it names a day or a month.</summary>
    public static bool Knows(string word) => Weekdays.ContainsKey(word) || Months.ContainsKey(word);

    /// <summary>The weekday a word of two or more letters names; null for none.</summary>
    public static IsoDayOfWeek? WeekdayOf(string word) => Weekdays.TryGetValue(word, out int day) ? (IsoDayOfWeek)day : null;

    /// <summary>The month a word names, 1 to 12; null for none.</summary>
    public static int? MonthOf(string word) => Months.TryGetValue(word, out int month) ? month : null;

    private static FrozenDictionary<string, int> Numbered(string[] rows) =>
        rows.SelectMany((row, index) => row.Split(' ').Select(word => (word, index + 1))).ToFrozenDictionary(
            pair => pair.word, pair => pair.Item2, StringComparer.Ordinal);
}
