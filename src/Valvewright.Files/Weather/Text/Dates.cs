using NodaTime;

namespace Valvewright.Files.Weather.Text;

/// <summary>Reads the ways in which weather files write dates.</summary>
internal static class Dates
{
    /// <summary>Earlier years hold no instrument readings; later ones are slips.</summary>
    public const int FirstYear = 1650;

    /// <summary>See <see cref="FirstYear"/>.</summary>
    public const int LastYear = 2200;

    /// <summary>2021-12-31, 2021/12/31 or 20211231, with or without a time of midnight behind it.</summary>
    public static bool TryIso(ReadOnlySpan<char> text, out LocalDate date)
    {
        date = default;
        if (text.Length > 10 && (text[10] is 'T' or ' ') && text[11..].IndexOfAnyExcept("0:.Z") < 0)
        {
            text = text[..10];
        }

        if (text.Length == 10 && text[4] == text[7] && (text[4] is '-' or '/'))
        {
            return Digits(text[..4], out int year) && Digits(text[5..7], out int month) && Digits(text[8..], out int day)
                && TryMake(year, month, day, out date);
        }

        return text.Length == 8
            && Digits(text[..4], out int y) && Digits(text[4..6], out int m) && Digits(text[6..], out int d) && TryMake(y, m, d, out date);
    }

    /// <summary>12/31/2021: month, day, year.</summary>
    public static bool TryMonthDayYear(ReadOnlySpan<char> text, out LocalDate date)
    {
        date = default;
        int first = text.IndexOf('/');
        int last = text.LastIndexOf('/');
        return first > 0 && last > first + 1
            && Digits(text[..first], out int month) && Digits(text[(first + 1)..last], out int day) && text.Length - last == 5
            && Digits(text[(last + 1)..], out int year) && TryMake(year, month, day, out date);
    }

    /// <summary>31.12.2021, with or without a time of midnight behind it.</summary>
    public static bool TryDayMonthYear(ReadOnlySpan<char> text, out LocalDate date)
    {
        date = default;
        if (text.Length > 10 && text[10] == ' ' && text[11..].IndexOfAnyExcept("0:") < 0)
        {
            text = text[..10];
        }

        return text.Length == 10 && text[2] == text[5] && (text[2] is '.' or '/' or '-')
            && Digits(text[..2], out int day) && Digits(text[3..5], out int month) && Digits(text[6..], out int year)
                && TryMake(year, month, day, out date);
    }

    /// <summary>31-dec-2021: English months in three letters.</summary>
    public static bool TryDayMonthName(ReadOnlySpan<char> text, out LocalDate date)
    {
        const string Months = "janfebmaraprmayjunjulaugsepoctnovdec";
        date = default;
        if (text.Length != 11 || text[2] != '-' || text[6] != '-')
        {
            return false;
        }

        int month = Months.AsSpan().IndexOf(text[3..6], StringComparison.OrdinalIgnoreCase);
        return month >= 0 && month % 3 == 0 && Digits(text[..2], out int day) && Digits(text[7..], out int year)
            && TryMake(year, (month / 3) + 1, day, out date);
    }

    /// <summary>A date of the calendar within the years that can be weather.</summary>
    public static bool TryMake(int year, int month, int day, out LocalDate date)
    {
        date = default;
        if (year is < FirstYear or > LastYear || month is < 1 or > 12 || day < 1 || day > DateTime.DaysInMonth(year, month))
        {
            return false;
        }

        date = new LocalDate(year, month, day);
        return true;
    }

    /// <summary>The n-th day of a year, from 1.</summary>
    public static bool TryDayOfYear(int year, int dayOfYear, out LocalDate date)
    {
        date = default;
        if (year is < FirstYear or > LastYear || dayOfYear < 1 || dayOfYear > (DateTime.IsLeapYear(year) ? 366 : 365))
        {
            return false;
        }

        date = new LocalDate(year, 1, 1).PlusDays(dayOfYear - 1);
        return true;
    }

    /// <summary>A run of one to six digits as a number.</summary>
    public static bool Digits(ReadOnlySpan<char> text, out int number)
    {
        number = 0;
        if (text.Length is 0 or > 6)
        {
            return false;
        }

        foreach (char c in text)
        {
            if (!char.IsAsciiDigit(c))
            {
                return false;
            }

            number = (number * 10) + (c - '0');
        }

        return true;
    }
}
