using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts.Ghcn;

/// <summary>
/// The fixed-width file of NOAA's GHCN-Daily: a line is one station, month and element; columns 1-11 station, 12-15 year, 16-17 month,
/// 18-21 element, then 31 groups of value (5), measurement flag, quality flag, source flag (readme.txt, section III).
/// </summary>
internal sealed class GhcnDaily
{
    private const int GroupsFrom = 21;
    private const int GroupWidth = 8;
    private const int ValueWidth = 5;
    private const int Groups = 31;
    private const int Missing = -9999;
    private readonly ReadingJob job;
    private readonly MultiDayTotals totals = new();
    private readonly Tally dropped = new();
    private readonly HashSet<(LocalDate Month, string Element)> read = [];
    private int flagged;

    private GhcnDaily(ReadingJob job) => this.job = job;

    /// <summary>Whether a line looks like one of this layout.</summary>
    public static bool Fits(ReadOnlySpan<char> line) =>
        line.Length >= GroupsFrom + ValueWidth && char.IsAsciiLetterUpper(line[0]) && char.IsAsciiLetterUpper(line[1])
        && Dates.Digits(line[11..17], out _) && line[17..21].IndexOfAnyExceptInRange('0', 'Z') < 0 && !line[..21].Contains(',');

    public static void Read(ReadingJob job) => new GhcnDaily(job).ReadAll();

    private void ReadAll()
    {
        StationChoice stations = new();
        DelimitedText lines = new(job.Text, '\0');
        while (lines.Next())
        {
            if (lines.Whole.Length >= 11)
            {
                stations.Add(lines.Whole[..11], [], lines.Line);
            }
        }

        string? station = stations.Settle(job);
        if (station is null)
        {
            if (!job.HasProblems)
            {
                job.Problem(1, 1, "", "lines of station, month, element and 31 values", "the file has no line of this layout");
            }

            return;
        }

        job.Source = GhcnElements.Source;
        lines = new DelimitedText(job.Text, '\0');
        while (!job.Enough && lines.Next())
        {
            if (lines.Whole.StartsWith(station, StringComparison.Ordinal))
            {
                ReadLine(lines);
            }
            else if (lines.Whole.Length < 11)
            {
                job.Problem(lines.Line, lines.Whole.Length + 1, lines.Whole, "269 characters", "the line ends early");
            }
        }

        totals.Spread(job);
        dropped.Report(job);
        GhcnElements.ReportFlagged(job, flagged);
        GhcnElements.SettleWind(job);
    }

    private void ReadLine(DelimitedText lines)
    {
        ReadOnlySpan<char> line = lines.Whole;
        if (line.Length < GroupsFrom + ((Groups - 1) * GroupWidth) + ValueWidth)
        {
            job.Problem(lines.Line, line.Length + 1, $"{line.Length} characters", "269 characters (trailing blanks may be missing)",
                "the line ends early");
            return;
        }

        if (!Dates.Digits(line[11..15], out int year) || !Dates.Digits(line[15..17], out int month)
            || !Dates.TryMake(year, month, 1, out LocalDate first))
        {
            job.Problem(lines.Line, 12, line[11..17], "year and month as 202112", "this is not a month");
            return;
        }

        ReadOnlySpan<char> element = line[17..21];
        bool isTotal = element.SequenceEqual(GhcnElements.MultiDayRain);
        bool isDays = element.SequenceEqual(GhcnElements.MultiDayRainDays);
        (Quantity Quantity, Unit Unit)? use = GhcnElements.Of(element);
        if (use is null && !isTotal && !isDays)
        {
            return;
        }

        if (!read.Add((first, element.ToString())))
        {
            job.Problem(lines.Line, 12, line[11..21], "each month and element once", "the month is here twice");
            return;
        }

        for (int day = 1; day <= Groups; day++)
        {
            int at = GroupsFrom + ((day - 1) * GroupWidth);
            if (ValueAt(lines, at, day, first) is not { } value)
            {
                continue;
            }

            LocalDate date = first.PlusDays(day - 1);
            if (isTotal)
            {
                totals.AddTotal(date, Unit.TenthMillimetre.Kept(value));
            }
            else if (isDays)
            {
                totals.AddDays(date, value);
            }
            else
            {
                Take(use!.Value.Quantity, use.Value.Unit.Kept(value), date, lines.Line, at, value);
            }
        }
    }

    /// <summary>The value of a group, null where there is none, it failed a check, or it is a problem.</summary>
    private int? ValueAt(DelimitedText lines, int at, int day, LocalDate first)
    {
        ReadOnlySpan<char> text = lines.Whole.Slice(at, ValueWidth);
        if (!int.TryParse(text, System.Globalization.NumberStyles.AllowLeadingWhite | System.Globalization.NumberStyles.AllowLeadingSign,
            null, out int value))
        {
            job.Problem(lines.Line, at + 1, text, "a whole number in 5 characters", "the value is not a number");
            return null;
        }

        if (value == Missing)
        {
            return null;
        }

        if (day > first.Calendar.GetDaysInMonth(first.Year, first.Month))
        {
            job.Problem(lines.Line, at + 1, text, "-9999", $"{first.Year}-{first.Month:00} has no day {day}");
            return null;
        }

        ReadOnlySpan<char> flags = lines.Whole[(at + ValueWidth)..Math.Min(lines.Whole.Length, at + GroupWidth)];
        if (flags.Length > 1 && flags[1] != ' ')
        {
            flagged++;
            return null;
        }

        return value;
    }

    private void Take(Quantity quantity, double value, LocalDate date, int line, int at, int written)
    {
        dropped.Seen(quantity);
        if (Plausible.Holds(quantity, value))
        {
            job.Days.Set(job.Days.RowOf(date), quantity, value);
        }
        else
        {
            dropped.Drop(quantity, line, at + 1, $"{written}");
        }
    }
}
