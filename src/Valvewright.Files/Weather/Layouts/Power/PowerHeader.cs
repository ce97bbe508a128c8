using System.Globalization;
using System.Text.RegularExpressions;
using Valvewright.Files.Weather.Text;

namespace Valvewright.Files.Weather.Layouts.Power;

/// <summary>The block between -BEGIN HEADER- and -END HEADER- of a NASA POWER CSV.</summary>
internal sealed partial class PowerHeader
{
    public const string Begin = "-BEGIN HEADER-";
    private const string End = "-END HEADER-";

    /// <summary>Unit and header line of each parameter.</summary>
    public Dictionary<string, (string Unit, int Line)> Units { get; } = [];

    public double FillValue { get; private set; } = PowerParameters.FillValue;

    /// <summary>The dates that the file says it holds.</summary>
    public (LocalDate From, LocalDate To)? Period { get; private set; }

    /// <summary>Reads the block if there is one; null where there is none, or after a problem.</summary>
    public static PowerHeader? Read(ReadingJob job, DelimitedText lines)
    {
        PowerHeader header = new();
        double latitude = double.NaN, longitude = double.NaN, elevation = double.NaN;
        while (lines.Next())
        {
            string line = lines.Whole.Length > 500 ? lines.Whole[..500].ToString() : lines.Whole.ToString();
            if (line.StartsWith(End, StringComparison.Ordinal))
            {
                SettlePlace(job, latitude, longitude, elevation);
                return header;
            }

            if (Location().Match(line) is { Success: true } location)
            {
                latitude = Number(location.Groups[1].Value);
                longitude = Number(location.Groups[2].Value);
            }
            else if (Elevation().Match(line) is { Success: true } height)
            {
                elevation = Number(height.Groups[1].Value);
            }
            else
            {
                header.ReadLine(job, line, lines.Line);
            }
        }

        job.Problem(lines.Line, 0, "", End, "the file ends inside its header");
        return null;
    }

    /// <summary>Says so where the rows do not reach as far as the header claims.</summary>
    public void CheckPeriod(ReadingJob job)
    {
        if (Period is not { } period || job.Days.Count == 0)
        {
            return;
        }

        LocalDate last = job.Days.DateOf(job.Days.Count - 1);
        LocalDate first = job.Days.DateOf(0);
        if (last < period.To || first > period.From)
        {
            job.Warn(
                $"The header says {period.From:uuuu-MM-dd} to {period.To:uuuu-MM-dd}, the rows hold {first:uuuu-MM-dd} to {last:uuuu-MM-dd}: the file may have been cut.");
        }
    }

    private static double Number(string text) => double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value)
        ? value : double.NaN;

    [GeneratedRegex(@"latitude\s+(-?[\d.]+)\s+longitude\s+(-?[\d.]+)", RegexOptions.IgnoreCase)]
    private static partial Regex Location();

    [GeneratedRegex(@"^elevation.*=\s*(-?[\d.]+)\s*meters", RegexOptions.IgnoreCase)]
    private static partial Regex Elevation();

    [GeneratedRegex(@"^Dates.*?(\d{2}/\d{2}/\d{4})\s+through\s+(\d{2}/\d{2}/\d{4})(?:\s+in\s+(\w+))?", RegexOptions.IgnoreCase)]
    private static partial Regex Dates();

    [GeneratedRegex(@"^The value for missing.*?(-?\d+(?:\.\d+)?)\s*$", RegexOptions.IgnoreCase)]
    private static partial Regex Fill();

    [GeneratedRegex(@"^([A-Z][A-Z0-9_]+)\s.*\(([^()]*)\)\s*$")]
    private static partial Regex Parameter();

    private void ReadLine(ReadingJob job, string line, int number)
    {
        if (Dates().Match(line) is { Success: true } dates)
        {
            if (Text.Dates.TryMonthDayYear(dates.Groups[1].Value, out LocalDate from)
                && Text.Dates.TryMonthDayYear(dates.Groups[2].Value, out LocalDate to))
            {
                Period = (from, to);
            }

            if (dates.Groups[3].Value.Equals("UTC", StringComparison.OrdinalIgnoreCase))
            {
                job.Warn("Days run from midnight to midnight UTC, not local time; far from Greenwich highs, lows and rain fall on the " +
                    "neighboring day.");
            }
        }
        else if (Fill().Match(line) is { Success: true } fill)
        {
            FillValue = Number(fill.Groups[1].Value);
        }
        else if (Parameter().Match(line) is { Success: true } parameter)
        {
            Units[parameter.Groups[1].Value] = (parameter.Groups[2].Value, number);
        }
    }

    private static void SettlePlace(ReadingJob job, double latitude, double longitude, double elevation)
    {
        if (Math.Abs(latitude) <= 90 && Math.Abs(longitude) <= 180)
        {
            PowerParameters.SettlePlace(job, new Place(latitude, longitude, elevation));
        }
    }
}
