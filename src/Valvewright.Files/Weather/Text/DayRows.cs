using NodaTime;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Text;

/// <summary>Reads the rows of a table with one row a day into a job's days: the part that all such layouts share.</summary>
internal sealed class DayRows(ReadingJob job, DelimitedText rows, int width, IReadOnlyList<DayColumn> columns)
{
    private readonly Tally dropped = new();
    private readonly List<int> lines = [];
    private LocalDate last = LocalDate.MinIsoValue;

    /// <summary>Reads the date of the current row; null when it reported a problem.</summary>
    public delegate LocalDate? DateReader(DelimitedText row);

    /// <summary>Whether a value with this flag is kept.</summary>
    public delegate bool FlagRule(ReadOnlySpan<char> flag);

    public required DateReader Date { get; init; }

    /// <summary>Whether the current row is to be read at all.</summary>
    public Func<DelimitedText, bool> Wanted { get; init; } = _ => true;

    /// <summary>Whether the current row is a remark.</summary>
    public Func<DelimitedText, bool> Skips { get; init; } = static _ => false;

    /// <summary>Whether the current row comes after the last.</summary>
    public Func<DelimitedText, bool> Ends { get; init; } = static _ => false;

    /// <summary>Value that stands for "not measured".</summary>
    public double? FillValue { get; init; }

    /// <summary>Words that stand for "not measured".</summary>
    public string[] MissingWords { get; init; } = [];

    public FlagRule KeepsFlag { get; init; } = static _ => true;

    /// <summary>
    /// What to do with a number that cannot be weather: true, leave it out and say so (an agency's file, which no one can fix);
    /// false, call it a problem.
    /// </summary>
    public bool DropsImplausible { get; init; }

    /// <summary>Whether numbers are written with a decimal comma.</summary>
    public bool HasDecimalComma { get; init; }

    /// <summary>Whether rows may hold more than is read of them.</summary>
    public bool HasWiderRows { get; init; }

    /// <summary>Values left out because of their flag.</summary>
    public int Flagged { get; private set; }

    public void Read()
    {
        while (!job.Enough && rows.Next() && !Ends(rows))
        {
            if (!Skips(rows) && RowStands() && Wanted(rows) && Date(rows) is { } date && RowFor(date) is { } row)
            {
                ReadValues(row);
            }
        }

        dropped.Report(job);
        if (job.Text.Length > 0 && job.Text[^1] != '\n' && !job.HasProblems)
        {
            job.Warn("The last line has no line break; if the file was cut there, its last value may be too short.");
        }
    }

    private bool RowStands()
    {
        if (rows.QuoteLeftOpen)
        {
            job.Problem(rows.Line, rows.ColumnOf(rows.Count - 1), rows[rows.Count - 1], "a closing quote",
                "a quote is opened and not closed");
            return false;
        }

        if (rows.Count < width)
        {
            job.Problem(rows.Line, rows.ColumnOf(rows.Count), $"{rows.Count} fields", $"{width} fields", "the line ends early");
            return false;
        }

        for (int field = width; !HasWiderRows && field < rows.Count; field++)
        {
            if (rows[field].Length > 0)
            {
                job.Problem(rows.Line, rows.ColumnOf(field), rows[field], $"{width} fields", "the line has more fields than the header");
                return false;
            }
        }

        return true;
    }

    private int? RowFor(LocalDate date)
    {
        int known = job.Days.Find(date);
        if (known >= 0)
        {
            job.Problem(rows.Line, 1, Iso(date), "each date once", $"the date is here twice, first on line {lines[known]}");
            return null;
        }

        if (date < last)
        {
            job.Problem(rows.Line, 1, Iso(date), $"a date after {Iso(last)}", "the dates are out of order");
            return null;
        }

        last = date;
        lines.Add(rows.Line);
        return job.Days.RowOf(date);
    }

    private void ReadValues(int row)
    {
        foreach (DayColumn column in columns)
        {
            ReadOnlySpan<char> text = rows[column.Field];
            if (text.Length == 0 || IsMissingWord(text))
            {
                continue;
            }

            if (!Numbers.TryRead(HasDecimalComma && text.Contains(',') ? WithPoint(text) : text, out double number))
            {
                job.Problem(
                    rows.Line, rows.ColumnOf(column.Field), text, $"a number in {column.Unit.Word}, or nothing where it was not measured",
                    $"{column.Name} is not a number");
                continue;
            }

            if (number == FillValue)
            {
                continue;
            }

            if (column.FlagField is { } flag && !KeepsFlag(rows[flag]))
            {
                Flagged++;
                continue;
            }

            Take(row, column, column.Meant?.Invoke(number) ?? number, text);
        }
    }

    private void Take(int row, DayColumn column, double number, ReadOnlySpan<char> text)
    {
        double value = column.Unit.Kept(number);
        dropped.Seen(column.Quantity);
        if (Plausible.Holds(column.Quantity, value))
        {
            job.Days.Set(row, column.Quantity, value);
        }
        else if (DropsImplausible)
        {
            dropped.Drop(column.Quantity, rows.Line, rows.ColumnOf(column.Field), text.ToString());
        }
        else
        {
            job.Problem(rows.Line, rows.ColumnOf(column.Field), text, Tally.Range(column),
                $"{column.Name} cannot be {(Sentence)Quantities.Title(column.Quantity)} in {column.Unit.Word}");
        }
    }

    private static string WithPoint(ReadOnlySpan<char> text) => text.Contains('.') ? "" : text.ToString().Replace(',', '.');

    private bool IsMissingWord(ReadOnlySpan<char> text)
    {
        foreach (string word in MissingWords)
        {
            if (text.Equals(word, StringComparison.OrdinalIgnoreCase))
            {
                return true;
            }
        }

        return false;
    }

    private static string Iso(LocalDate date) => date.ToString("uuuu-MM-dd", null);
}
