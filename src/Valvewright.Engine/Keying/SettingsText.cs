using System.Globalization;
using System.Text;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Keying;

/// <summary>Settings as one short line of text, for codes that are scanned and messages that are sent.</summary>
/// <remarks>
/// <para>
/// <c>VW1/A W135 T0400 0530 S1:12 2:8 3:0.30/B I3.20260702 T2100 S4:45/%100/K7FR2</c>: the form's name; one part a
/// program with its letter, watering days (<c>W</c> and days of the week from 1, Monday; <c>ODD</c>; <c>EVEN</c>;
/// <c>I</c>, the interval, a dot and a date on which it waters; <c>-</c> for none), start times (<c>T</c>, four digits,
/// or six where there are seconds) and run times at 100 percent (<c>S</c>, station, colon, minutes, and after a dot the
/// seconds); the percent adjust; the check text; and, if given, <c>N</c> and a name.
/// </para>
/// <para>All signs are from the 45 that QR codes pack tightest (ISO/IEC 18004, alphanumeric mode).</para>
/// </remarks>
public static class SettingsText
{
    private const string Form = "VW1";
    private const string Accented = "ÀÁÂÃÄÅÇÈÉÊËÌÍÎÏÑÒÓÔÕÖÙÚÛÜÝ";
    private const string Plain = "AAAAAACEEEEIIIINOOOOOUUUUY";

    /// <summary>The longest name that is carried; the rest is cut.</summary>
    public const int LongestName = 24;

    /// <summary>Writes settings, with their check text, and a name for the eye that is reduced to the allowed signs.</summary>
    public static string Write(Settings settings, string? name = null)
    {
        ArgumentNullException.ThrowIfNull(settings);
        StringBuilder text = new(Form);
        foreach (Program program in settings.Programs)
        {
            text.Append('/').Append(OfProgram(program, WriteRule));
        }

        text.Append("/%").Append(settings.PercentAdjust).Append("/K").Append(CheckText.Of(settings));
        string shown = Reduce(name);
        return shown.Length == 0 ? text.ToString() : text.Append("/N").Append(shown).ToString();
    }

    /// <summary>The text itself, and texts that are read the same but look different as a code: blanks behind the name.</summary>
    public static IReadOnlyCollection<string> Equivalents(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        string named = text.Contains("/N", StringComparison.Ordinal) ? text : text + "/N";
        return [text, .. Enumerable.Range(1, 6).Select(blanks => named + new string(' ', blanks))];
    }

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    /// <exception cref="FormatException">The text has another form, or its check text does not fit its settings.</exception>
    public static Settings Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        string[] parts = text.Split('/');
        if (parts[0] != Form)
        {
            throw new FormatException($"Found '{parts[0]}' at the beginning, expected '{Form}'.");
        }

        List<Program> programs = [];
        int? percent = null;
        string? check = null;
        foreach (string part in parts.Skip(1))
        {
            if (part.StartsWith('%'))
            {
                percent = Number(part[1..], part);
            }
            else if (percent is null)
            {
                programs.Add(ReadProgram(part));
            }
            else if (part.StartsWith('K'))
            {
                check = part[1..];
            }
            else if (!part.StartsWith('N'))
            {
                throw new FormatException($"Found '{part}', expected a check text (K...) or a name (N...).");
            }
        }

        Settings settings = new([.. programs], percent ?? throw new FormatException("The percent adjust (%...) is missing."));
        string expected = CheckText.Of(settings);
        return check == expected
            ? settings
            : throw new FormatException($"The check text is '{check}', but the settings give '{expected}': the text is damaged.");
    }

    /// <summary>A program's part of the text, its watering days written as asked.</summary>
    internal static string OfProgram(Program program, Func<DayRule?, string> rule)
    {
        StringBuilder text = new();
        text.Append(program.Letter).Append(' ').Append(rule(program.Days));
        string lead = " T";
        foreach (LocalTime time in program.StartTimes)
        {
            text.Append(lead).Append(CultureInfo.InvariantCulture, $"{time.Hour:00}{time.Minute:00}");
            text.Append(time.Second == 0 ? "" : time.Second.ToString("00", CultureInfo.InvariantCulture));
            lead = " ";
        }

        lead = " S";
        foreach (RunTime run in program.RunTimes)
        {
            text.Append(lead).Append(run.Station).Append(':').Append(run.Seconds / 60);
            text.Append(run.Seconds % 60 == 0 ? "" : $".{run.Seconds % 60:00}");
            lead = " ";
        }

        return text.ToString();
    }

    /// <summary>Days of the week as digits, Monday 1.</summary>
    internal static string Digits(IEnumerable<IsoDayOfWeek> days) => string.Concat(days.Select(d => (char)('0' + (int)d)));

    private static string WriteRule(DayRule? rule) => rule switch
    {
        null => "-",
        DaysOfWeek week => "W" + Digits(week.Days),
        OddDays => "ODD",
        EvenDays => "EVEN",
        EveryNDays every => string
            .Create(CultureInfo.InvariantCulture, $"I{every.Days}.{every.Anchor.Year:0000}{every.Anchor.Month:00}{every.Anchor.Day:00}"),
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "A kind of watering days without a written form."),
    };

    private static Program ReadProgram(string part)
    {
        string[] words = part.Split(' ');
        if (words.Length < 2 || words[0].Length != 1)
        {
            throw new FormatException($"Found '{part}', expected a program: its letter, then its watering days.");
        }

        List<LocalTime> starts = [];
        List<RunTime> runs = [];
        char group = ' ';
        foreach (string word in words.Skip(2))
        {
            bool opens = word.StartsWith('T') || word.StartsWith('S');
            group = opens ? word[0] : group;
            string value = opens ? word[1..] : word;
            if (group == 'T')
            {
                starts.Add(ReadTime(value));
            }
            else
            {
                runs.Add(group == 'S' ? ReadRun(value)
                    : throw new FormatException($"Found '{word}' in '{part}', expected start times (T...) or run times (S...)."));
            }
        }

        return new Program(words[0][0], [.. starts], [.. runs], ReadRule(words[1]));
    }

    private static DayRule? ReadRule(string word)
    {
        switch (word)
        {
            case "-": return null;
            case "ODD": return new OddDays();
            case "EVEN": return new EvenDays();
        }

        if (word.StartsWith('W') && word.Skip(1).All(c => c is >= '1' and <= '7'))
        {
            return new DaysOfWeek([.. word.Skip(1).Select(c => (IsoDayOfWeek)(c - '0'))]);
        }

        string[] interval = word.Split('.');
        if (word.StartsWith('I') && interval is [_, { Length: 8 } date])
        {
            int days = Number(interval[0][1..], word);
            int year = Number(date[..4], word), month = Number(date[4..6], word), day = Number(date[6..], word);
            if (days >= 1 && month is >= 1 and <= 12 && year >= 1 && day >= 1 && day <= CalendarSystem.Iso.GetDaysInMonth(year, month))
            {
                return new EveryNDays(days, new LocalDate(year, month, day));
            }
        }

        throw new FormatException($"Found '{word}', expected watering days: W and digits 1 to 7, ODD, EVEN, I3.20260702, or -.");
    }

    private static LocalTime ReadTime(string word)
    {
        int digits = Number(word, word);
        int seconds = word.Length == 6 ? digits % 100 : 0;
        int clock = word.Length == 6 ? digits / 100 : digits;
        return word.Length is 4 or 6 && clock / 100 < 24 && clock % 100 < 60 && seconds < 60
            ? new LocalTime(clock / 100, clock % 100, seconds)
            : throw new FormatException($"Found '{word}', expected a start time of four digits, 0000 to 2359, or six with seconds.");
    }

    private static RunTime ReadRun(string word)
    {
        string[] parts = word.Split(':', '.');
        if (parts.Length is < 2 or > 3)
        {
            throw new FormatException($"Found '{word}', expected a run time: station, colon, minutes, and after a dot the seconds.");
        }

        int minutes = Number(parts[1], word);
        int seconds = parts.Length == 3 ? Number(parts[2], word) : 0;
        return minutes <= 10_000 && seconds < 60
            ? new RunTime(Number(parts[0], word), minutes * 60 + seconds)
            : throw new FormatException($"Found '{word}', expected at most 10000 minutes and 59 seconds.");
    }

    private static int Number(string digits, string where) =>
        digits.Length is >= 1 and <= 8 && int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out int number)
            ? number
            : throw new FormatException($"Found '{digits}' in '{where}', expected a whole number.");

    /// <summary>Accents go, letters rise, other signs become dots. A table, because no culture data is loaded to ask.</summary>
    private static string Reduce(string? name)
    {
        StringBuilder text = new();
        foreach (char c in (name ?? "").Take(LongestName))
        {
            char upper = char.ToUpperInvariant(c);
            int accented = Accented.IndexOf(upper, StringComparison.Ordinal);
            upper = accented >= 0 ? Plain[accented] : upper;
            text.Append(upper is >= 'A' and <= 'Z' or >= '0' and <= '9' or ' ' or '-' or '.' ? upper : '.');
        }

        return text.ToString().Trim();
    }
}
