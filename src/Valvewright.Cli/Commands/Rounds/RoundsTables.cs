using System.Globalization;
using NodaTime.Text;
using Valvewright.Cli.Output;
using Valvewright.Files.Problems;
using Valvewright.Work.Rounds;
using Valvewright.Work.Search.Rounds;

namespace Valvewright.Cli.Commands.Rounds;

/// <summary>Reads the small tables of rounds: comma separated, with a line of headings.</summary>
internal static class RoundsTables
{
    private const long LargestBytes = 10_000_000;
    private static readonly LocalTime EndOfDay = new(23, 59);

    /// <summary>Dates that were promised: site, date, from, to.</summary>
    public static ListOf<PromisedVisit> Promised(string? file, IReadOnlyList<string> sites) => Rows(file, 4, "site,date,from,to", row =>
    {
        PromisedVisit visit = new(
            row.Name(0, sites), row.Read(1, LocalDatePattern.Iso.Parse, "a date as 2026-05-14"), row.Time(2, LocalTime.Midnight),
            row.Time(3, EndOfDay));
        return visit.From <= visit.To ? visit : throw row.Wrong(3, "a time after 'from'", "the window ends before it begins");
    });

    /// <summary>Visits that were made: site, controller, date, percent left (0 for off, or empty).</summary>
    public static ListOf<(string Site, VisitDone Visit)> Done(string? file, IReadOnlyList<Site> sites) =>
        Rows(file, 4, "site,controller,date,percent", row =>
        {
            string site = row.Name(0, [.. sites.Select(s => s.Name)]);
            string controller = row.Name(1, [.. sites.First(s => s.Name == site).Controllers.Select(c => c.Name)]);
            return (site, new VisitDone(
                controller, row.Read(2, LocalDatePattern.Iso.Parse, "a date as 2026-05-14"),
                row[3].Length == 0 ? null : (int)row.Number(3, 0, 1000, "a percent, 0 for off")));
        });

    /// <summary>Own travel times: from, to, minutes.</summary>
    public static Dictionary<(string From, string To), double> Travel(string? file, IReadOnlyList<string> places)
    {
        Dictionary<(string, string), double> minutes = [];
        foreach ((string from, string to, double time, RoundsRow row) in Rows(file, 3, "from,to,minutes", row =>
            (row.Name(0, places), row.Name(1, places), row.Number(2, 0, 1440, "minutes, 0 to 1440"), row)))
        {
            if (!minutes.TryAdd((from, to), time))
            {
                throw row.Wrong(0, "each pair once", "this way is there already");
            }
        }

        return minutes;
    }

    private static ListOf<T> Rows<T>(string? file, int columns, string headings, Func<RoundsRow, T> read)
    {
        if (file is null)
        {
            return [];
        }

        if (new FileInfo(file) is not { Exists: true, Length: <= LargestBytes })
        {
            throw new ProblemsException(new Problem(
                file, 0, 0, File.Exists(file) ? "a file over 10 MB" : "no such file", $"a table with the headings {headings}", null,
                "this table can't be read"));
        }

        string[] lines = File.ReadAllLines(file);
        if (lines.Length == 0 || lines[0].Trim().TrimStart('\uFEFF') != headings)
        {
            throw new ProblemsException(new Problem(
                file, 1, 1, Printable.Of(lines.FirstOrDefault() ?? ""), headings, null, "these are not the headings of the table"));
        }

        List<T> rows = [];
        for (int line = 1; line < lines.Length; line++)
        {
            if (lines[line].Trim().Length > 0)
            {
                RoundsRow row = new(file, line + 1, Fields(lines[line]));
                rows.Add(row.Count == columns ? read(row) : throw row.Wrong(0, $"{columns} columns: {headings}",
                    "a column is missing or too many"));
            }
        }

        return rows.ToListOf();
    }

    /// <summary>Fields of a line as RFC 4180 quotes them.</summary>
    private static string[] Fields(string line)
    {
        List<string> fields = [];
        System.Text.StringBuilder field = new();
        bool quoted = false;
        for (int i = 0; i < line.Length; i++)
        {
            bool isQuote = line[i] == '"';
            if (isQuote && quoted && i + 1 < line.Length && line[i + 1] == '"')
            {
                field.Append(line[i++]);
            }
            else if (isQuote)
            {
                quoted = !quoted;
            }
            else if (line[i] == ',' && !quoted)
            {
                fields.Add(field.ToString().Trim());
                field.Clear();
            }
            else
            {
                field.Append(line[i]);
            }
        }

        return [.. fields, field.ToString().Trim()];
    }
}

/// <summary>One row of such a table.</summary>
internal sealed class RoundsRow(string file, int line, string[] fields)
{
    /// <summary>How many fields it has.</summary>
    public int Count => fields.Length;

    /// <summary>A field.</summary>
    public string this[int field] => fields[field];

    /// <summary>A name that must be known.</summary>
    public string Name(int field, IReadOnlyList<string> known) => known.Contains(fields[field]) ? fields[field]
        : throw new ProblemsException(new Problem(
            file, line, 0, Printable.Of(fields[field]), string.Join(", ", known.Take(12)), NearestWord.To(fields[field], known),
            "this name is not known"));

    /// <summary>A number within bounds.</summary>
    public double Number(int field, double least, double most, Sentence expected) =>
        double.TryParse(fields[field], NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && value >= least
            && value <= most
            ? value : throw Wrong(field, expected, "this is not a number that can be used");

    /// <summary>A time of day; a usual one where the field is empty.</summary>
    public LocalTime Time(int field, LocalTime usual) => fields[field].Length == 0 ? usual
        : Read(field, LocalTimePattern.CreateWithInvariantCulture("H:mm").Parse, "a time as 09:30");

    /// <summary>A value of a pattern.</summary>
    public T Read<T>(int field, Func<string, ParseResult<T>> parse, Sentence expected) =>
        parse(fields[field]) is { Success: true } read ? read.Value : throw Wrong(field, expected, "this can't be understood");

    /// <summary>What is wrong with a field.</summary>
    public ProblemsException Wrong(int field, Sentence expected, Sentence message) =>
        new(new Problem(file, line, 0, Printable.Of(fields[field]), expected, null, message));
}
