using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts.Agencies;

/// <summary>One column of an agency's table: its header there, what it holds and in which unit.</summary>
internal sealed record AgencyColumn(string Name, Quantity Quantity, Unit Unit);

/// <summary>
/// The layout of one agency's daily table: a header line that is recognized by its words, lines before it that may hold the
/// station's place, and rows of one day each. What an agency adds is data here, not another reader.
/// </summary>
internal sealed record AgencyTable(WeatherLayout Layout, string Source, char Delimiter, params AgencyColumn[] Columns)
{
    /// <summary>Words that all stand in the header line.</summary>
    public required string[] HeaderWords { get; init; }

    /// <summary>The column with the date and how dates are written.</summary>
    public required (string[] Names, DateReading Read, string Expected) Date { get; init; }

    /// <summary>The column with the station, where a file may hold several.</summary>
    public string? StationColumn { get; init; }

    /// <summary>Height of the wind by the agency's documentation, m; null where it differs from station to station.</summary>
    public double? WindHeightM { get; init; }

    /// <summary>Words for "not measured".</summary>
    public string[] MissingWords { get; init; } = [];

    /// <summary>What a value means that stands for something else; null: as it is.</summary>
    public Func<AgencyColumn, double, double>? Meant { get; init; }

    /// <summary>A line after the rows.</summary>
    public string? EndLine { get; init; }

    /// <summary>Takes station and place from the lines before the header; the last is the station that is read, where the table names
    /// any.</summary>
    public Action<ReadingJob, IReadOnlyList<string>, string?>? ReadHead { get; init; }

    /// <summary>What the header calls a column, without what differs from file to file.</summary>
    public Func<string, string> HeaderName { get; init; } = static name => name;

    /// <summary>Reads a date.</summary>
    public delegate bool DateReading(ReadOnlySpan<char> text, out LocalDate date);

    /// <summary>How far the header is looked for: notes before it are a page at most.</summary>
    private const int MostHeadLines = 120;

    /// <summary>The table of a text at its header line, with the lines before it; null where the text is not of this layout.</summary>
    public (DelimitedText Header, List<string> Head)? Find(string text)
    {
        DelimitedText lines = new(text, Delimiter);
        List<string> head = [];
        while (head.Count < MostHeadLines && lines.Next())
        {
            if (HeaderWords.All(word => FieldOf(lines, word) >= 0))
            {
                return (lines, head);
            }

            head.Add(lines.Whole.ToString());
        }

        return null;
    }

    public void Read(ReadingJob job)
    {
        if (Find(job.Text) is not var (header, head))
        {
            job.Problem(1, 1, job.Text.AsSpan(0, Math.Min(job.Text.Length, 80)), $"a header line with {string.Join(", ", HeaderWords)}",
                $"the file is not {(Sentence)Layout.Title()}");
            return;
        }

        int date = Date.Names.Select(name => FieldOf(header, name)).FirstOrDefault(field => field >= 0, -1);
        int station = StationColumn is null ? -1 : FieldOf(header, StationColumn);
        if (date < 0)
        {
            job.Problem(header.Line, 1, header.Whole, string.Join(" or ", Date.Names), "the header has no date");
            return;
        }

        string? wanted = station < 0 ? null : StationChoice.Of(job, header, station, -1, IsRemark);
        if (job.HasProblems)
        {
            return;
        }

        ReadHead?.Invoke(job, head, wanted);
        job.Source = Source;
        job.WindHeightM = WindHeightM;
        ReadRows(job, header, wanted is null ? -1 : station, wanted, date);
    }

    private void ReadRows(ReadingJob job, DelimitedText header, int station, string? wanted, int date)
    {
        List<DayColumn> columns = [];
        foreach (AgencyColumn column in Columns)
        {
            int field = FieldOf(header, column.Name);
            if (field >= 0 && !columns.Exists(c => c.Quantity == column.Quantity))
            {
                Func<double, double>? meant = Meant is null ? null : value => Meant(column, value);
                columns.Add(new DayColumn(field, column.Name, column.Quantity, column.Unit) { Meant = meant });
            }
        }

        new DayRows(job, header.FromHere(), header.Count, columns)
        {
            Wanted = row => wanted is null || row[station].SequenceEqual(wanted),
            Skips = IsRemark,
            Ends = row => EndLine is not null && row.Whole.Trim().SequenceEqual(EndLine),
            Date = row => DateOf(job, row, date),
            MissingWords = MissingWords,
            DropsImplausible = true,
        }.Read();
    }

    private LocalDate? DateOf(ReadingJob job, DelimitedText row, int field)
    {
        if (Date.Read(row[field], out LocalDate date))
        {
            return date;
        }

        job.Problem(row.Line, row.ColumnOf(field), row[field], Date.Expected, "this is not a date");
        return null;
    }

    private int FieldOf(DelimitedText header, string name) => header.FieldOf(name, field => HeaderName(field.ToString()));

    private static bool IsRemark(DelimitedText row) => row.Whole.TrimStart() is ['#', ..];
}
