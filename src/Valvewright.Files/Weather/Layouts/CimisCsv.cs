using System.Text;
using NodaTime;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts;

/// <summary>
/// California DWR's CIMIS daily CSV, metric or US: columns in pairs of value and quality flag, the flag columns named after their value
/// or all just "qc"; dates month/day/year; several stations may follow each other.
/// </summary>
internal static class CimisCsv
{
    private const string Source = "California DWR, CIMIS";
    private const double WindHeightM = 2;

    /// <summary>
    /// Flags whose value is kept: none, moderately outside historical limits (Y), made from flagged hours (H), not fully checked (Q),
    /// estimated (E). All others are dropped: far outside limits (R), to be ignored (I), out of service (S), missing (M), N/A, N/C.
    /// </summary>
    private static readonly string[] KeptFlags = ["Y", "H", "Q", "E"];

    private static readonly Dictionary<string, Quantity> Known = new()
    {
        ["maxairtemp"] = Quantity.TmaxC,
        ["minairtemp"] = Quantity.TminC,
        ["precip"] = Quantity.RainMm,
        ["maxrelhum"] = Quantity.RhMaxPercent,
        ["minrelhum"] = Quantity.RhMinPercent,
        ["relhum"] = Quantity.RhMeanPercent,
        ["vappres"] = Quantity.VapourPressureKpa,
        ["dewpoint"] = Quantity.DewPointC,
        ["dewpt"] = Quantity.DewPointC,
        ["solrad"] = Quantity.RadiationMjM2,
        ["windspeed"] = Quantity.WindMs,
        ["wspd"] = Quantity.WindMs,
        ["eto"] = Quantity.PublishedEtoMm,
    };

    /// <summary>Whether a header row belongs to this layout.</summary>
    public static bool Fits(DelimitedText header)
    {
        bool station = StationField(header) >= 0;
        bool day = Find(header, "jul") >= 0 || Find(header, "cimisregion") >= 0;
        return station && day && Find(header, "date") >= 0;
    }

    public static void Read(ReadingJob job)
    {
        DelimitedText header = new(job.Text, ',');
        header.Next();
        int stationField = StationField(header), dateField = Find(header, "date"), width = header.Count;
        if (stationField < 0 || dateField < 0)
        {
            job.Problem(header.Line, 1, header.Whole, "Station Number or Stn Id, and Date", "this is not the header of a CIMIS table");
            return;
        }

        List<DayColumn> columns = Columns(job, header);
        if (job.HasProblems || Station(job, header, stationField) is not { } station)
        {
            return;
        }

        job.Source = Source;
        job.WindHeightM = WindHeightM;
        SortedDictionary<string, int> odd = new(StringComparer.Ordinal);
        DayRows days = new(job, header.FromHere(), width, columns)
        {
            Wanted = row => row[stationField].SequenceEqual(station),
            Date = row => Date(job, row, dateField),
            MissingWords = ["--", "N/A"],
            KeepsFlag = flag => Keeps(flag, odd),
            DropsImplausible = true,
        };
        days.Read();
        if (days.Flagged > 0)
        {
            job.Found(
                $"{days.Flagged} values left out for their quality flag ({string.Join(", ", odd.Select(flag => $"{flag.Key}: {flag.Value}"))}).");
        }
    }

    private static bool Keeps(ReadOnlySpan<char> flag, SortedDictionary<string, int> dropped)
    {
        if (flag.Length == 0)
        {
            return true;
        }

        string word = flag.Length > 8 ? flag[..8].ToString() : flag.ToString();
        if (KeptFlags.Contains(word, StringComparer.OrdinalIgnoreCase))
        {
            return true;
        }

        if (dropped.ContainsKey(word) || dropped.Count < 20)
        {
            dropped[word] = dropped.GetValueOrDefault(word) + 1;
        }

        return false;
    }

    private static List<DayColumn> Columns(ReadingJob job, DelimitedText header)
    {
        List<DayColumn> columns = [];
        for (int field = 0; field < header.Count; field++)
        {
            (string name, string unitText) = Parts(header[field]);
            if (!Known.TryGetValue(name, out Quantity quantity) || columns.Exists(c => c.Quantity == quantity))
            {
                continue;
            }

            string written = header[field].ToString();
            unitText = job.Options.ColumnUnits.GetValueOrDefault(written) ?? unitText;
            Dimension dimension = Quantities.DimensionOf(quantity);
            Unit? unit = Unit.Named(unitText);
            if (unit?.Dimension != dimension)
            {
                string choices = Unit.ChoicesFor(dimension);
                job.Problem(header.Line, header.ColumnOf(field), unitText, choices,
                    $"{written} has no unit of {(Sentence)Quantities.Title(quantity)}", NearestWord.To(unitText, choices.Split(", ")));
                continue;
            }

            bool flagged = field + 1 < header.Count && Parts(header[field + 1]).Name.EndsWith("qc", StringComparison.Ordinal);
            columns.Add(new DayColumn(field, written, quantity, unit, flagged ? field + 1 : null));
        }

        return columns;
    }

    /// <summary>A header's name in lower-case letters, without what only some exports put before it, and its unit.</summary>
    private static (string Name, string Unit) Parts(ReadOnlySpan<char> header)
    {
        int open = header.IndexOf('(');
        string unit = open < 0 ? "" : header[(open + 1)..].TrimEnd(')').Trim().ToString();
        StringBuilder letters = new();
        foreach (char c in open < 0 || header.EndsWith("QC", StringComparison.OrdinalIgnoreCase) ? header : header[..open])
        {
            if (char.IsAsciiLetter(c))
            {
                letters.Append(char.ToLowerInvariant(c));
            }
        }

        string name = letters.ToString();
        foreach (string prefix in new[] { "cimis", "avg" })
        {
            name = name.StartsWith(prefix, StringComparison.Ordinal) && name != "cimisregion" ? name[prefix.Length..] : name;
        }

        return (name, unit);
    }

    private static string? Station(ReadingJob job, DelimitedText header, int stationField) =>
        StationChoice.Of(job, header, stationField, Math.Max(Find(header, "stationname"), Find(header, "stnname")));

    private static LocalDate? Date(ReadingJob job, DelimitedText row, int field)
    {
        if (Dates.TryMonthDayYear(row[field], out LocalDate date))
        {
            return date;
        }

        job.Problem(row.Line, row.ColumnOf(field), row[field], "a date as 12/31/2021 (month/day/year)", "this is not a date");
        return null;
    }

    private static int StationField(DelimitedText header) => Math.Max(Find(header, "stationnumber"), Find(header, "stnid"));

    private static int Find(DelimitedText header, string name) => header.FieldOf(name, static field => Parts(field).Name);
}
