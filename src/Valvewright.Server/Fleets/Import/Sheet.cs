using System.Globalization;
using NodaTime.Text;
using Valvewright.Files.Texts;
using Valvewright.Records.Views;
using Valvewright.Server.Problems;

namespace Valvewright.Server.Fleets.Import;

/// <summary>A table as it was read from a file: headings in row 1, cells of text, numbers or dates.</summary>
/// <param name="Name">What it is called in problems.</param>
/// <param name="Headings">The headings, by column.</param>
/// <param name="Rows">The rows below.</param>
/// <param name="Told">How the file was read, and in which language problems are told.</param>
internal sealed record Sheet(string Name, IReadOnlyList<string> Headings, IReadOnlyList<SheetRow> Rows, Telling Told)
{
    public const int MostRows = 20_000;
    public const int MostColumns = 100;
    public const int LongestCell = 1000;

    /// <summary>The table, with headings as the fleet's table has them.</summary>
    /// <param name="name">What it is called in problems.</param>
    /// <param name="rows">All rows, headings first.</param>
    /// <param name="told">How the file was read, and in which language problems are told.</param>
    /// <exception cref="Refusal">A heading is unknown, stands twice or is missing.</exception>
    public static Sheet Of(string name, IEnumerable<SheetRow> rows, Telling told)
    {
        List<SheetRow> all = [];
        foreach (SheetRow row in rows)
        {
            if (all.Count > MostRows || row.Cells.Count > MostColumns || row.Cells.Any(c => c is string { Length: > LongestCell }))
            {
                throw told.Refused(name, row.Number, 0, "",
                    $"at most {MostRows} rows, {MostColumns} columns and {LongestCell} characters in a cell", null,
                        "Not a table of controllers: there is too much in it");
            }

            all.Add(row);
        }

        if (all.Count == 0)
        {
            throw told.Refused(name, 0, 0, "nothing", "headings and rows", null, "The table is empty");
        }

        string[] headings = [.. all[0].Cells.Select(c => FleetTable.Text(c).Trim().ToLowerInvariant().Replace(' ', '_'))];
        List<TextProblem> problems = [];
        for (int column = 0; column < headings.Length; column++)
        {
            string heading = headings[column];
            if (heading.Length > 0 && !FleetTable.Headings.Contains(heading))
            {
                problems.Add(told.Problem(name, all[0].Number, column + 1, heading, string.Join(", ", FleetTable.Headings),
                    NearestWord.To(heading, FleetTable.Headings), "Unknown column"));
            }
            else if (heading.Length > 0 && headings.Take(column).Contains(heading))
            {
                problems.Add(told.Problem(name, all[0].Number, column + 1, heading, "each column once", null, "The column is there twice"));
            }
        }

        if (!headings.Contains("controller") || !(headings.Contains("site") || headings.Contains("site_id")))
        {
            problems.Add(told.Problem(name, all[0].Number, 0, string.Join(", ", headings), "the columns site or site_id, and controller",
                null, "The table does not say which controllers its rows are about"));
        }

        return problems.Count > 0
            ? throw Telling.Refused(problems)
            : new Sheet(name, headings, [.. all.Skip(1).Where(r => r.Cells.Any(c => FleetTable.Text(c).Trim().Length > 0))], told);
    }

    /// <summary>The column of a heading, from 1; 0 where the table has none.</summary>
    public int ColumnOf(string heading) => Headings.ToList().IndexOf(heading) + 1;

    /// <summary>A problem of a cell.</summary>
    public TextProblem Problem(SheetRow row, string heading, Sentence expected, string? nearest, Sentence message) =>
        Told.Problem(Name, row.Number, ColumnOf(heading), FleetTable.Text(Cell(row, heading)), expected, nearest, message);

    /// <summary>A cell as text; empty where there is none.</summary>
    public string TextOf(SheetRow row, string heading) => FleetTable.Text(Cell(row, heading)).Trim();

    /// <summary>A number; null where the cell is empty or is none, which is then among the problems.</summary>
    public double? NumberOf(SheetRow row, string heading, List<TextProblem> problems)
    {
        object? cell = Cell(row, heading);
        string text = FleetTable.Text(cell).Trim();
        if (text.Length == 0 || cell is double)
        {
            return cell as double?;
        }

        string plain = Told.DecimalComma && text.Count(c => c == ',') == 1 && !text.Contains('.', StringComparison.Ordinal)
            ? text.Replace(',', '.') : text;
        if (double.TryParse(plain, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent,
            CultureInfo.InvariantCulture, out double number) && double.IsFinite(number))
        {
            return number;
        }

        problems.Add(Problem(row, heading, "a number such as 8.7, without a unit", null, "Not a number"));
        return null;
    }

    /// <summary>A date; null where the cell is empty or is none, which is then among the problems.</summary>
    public LocalDate? DateOf(SheetRow row, string heading, List<TextProblem> problems)
    {
        object? cell = Cell(row, heading);
        string text = FleetTable.Text(cell).Trim();
        if (text.Length == 0 || cell is LocalDate)
        {
            return cell as LocalDate?;
        }

        ParseResult<LocalDate> date = LocalDatePattern.Iso.Parse(text);
        if (date.Success)
        {
            return date.Value;
        }

        problems.Add(Problem(row, heading, "a date as 2026-04-01", null, "Not a date"));
        return null;
    }

    private object? Cell(SheetRow row, string heading) =>
        ColumnOf(heading) is > 0 and int column && column <= row.Cells.Count ? row.Cells[column - 1] : null;
}

/// <summary>A row of a table.</summary>
/// <param name="Number">Its number, headings being 1; in a text file the number of its line.</param>
/// <param name="Cells">Text, numbers (double), dates (LocalDate) or null.</param>
internal sealed record SheetRow(int Number, IReadOnlyList<object?> Cells);

/// <summary>How a file was read, and in which language its problems are told.</summary>
/// <param name="Language">The language.</param>
/// <param name="DecimalComma">Whether numbers may have a comma, because something else parts the cells.</param>
internal sealed record Telling(Language Language, bool DecimalComma = false)
{
    /// <summary>A problem of a place in a table.</summary>
    public TextProblem Problem(string name, int row, int column, string found, Sentence expected, string? nearest, Sentence message) =>
        Shown.Of(new Files.Problems.Problem(name, row, column, found, expected, nearest, message), Language);

    /// <summary>A table that cannot be used for one reason.</summary>
    public Refusal Refused(string name, int row, int column, string found, Sentence expected, string? nearest, Sentence message) =>
        Refused([Problem(name, row, column, found, expected, nearest, message)]);

    /// <summary>A table that cannot be used.</summary>
    public static Refusal Refused(IEnumerable<TextProblem> problems) =>
        new Refusal(StatusCodes.Status422UnprocessableEntity, "wrong-text", "The table cannot be used as it is. Nothing was stored.")
            .With("problems", problems.Take(200).ToListOf());
}
