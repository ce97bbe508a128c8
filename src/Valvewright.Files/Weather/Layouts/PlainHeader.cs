using Valvewright.Files.Problems;
using Valvewright.Files.Weather.Text;
using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Layouts;

/// <summary>A column of a plain CSV whose unit may still be open.</summary>
/// <param name="Field">Its number, from 0.</param>
/// <param name="Line">Line of the header.</param>
/// <param name="Position">Character where its header starts.</param>
/// <param name="Name">Its header as written.</param>
/// <param name="Quantity">What it holds.</param>
/// <param name="Unit">Its unit; null where the header says none.</param>
internal sealed record HeaderColumn(int Field, int Line, int Position, string Name, Quantity Quantity, Unit? Unit);

/// <summary>Reads the header of a plain CSV: which column is what, in which unit, and which may be misspelt.</summary>
internal static class PlainHeader
{
    public static List<HeaderColumn> Read(ReadingJob job, DelimitedText header, int dateField)
    {
        List<HeaderColumn> columns = [];
        List<(int Field, ColumnHeader Header)> others = [];
        for (int field = 0; field < header.Count; field++)
        {
            ColumnHeader column = ColumnWords.Read(header[field]);
            if (field == dateField || header[field].Length == 0)
            {
                continue;
            }

            if (column is { Quantity: { } quantity, Plain: true })
            {
                Add(job, header, columns, field, column, quantity);
            }
            else
            {
                others.Add((field, column));
            }
        }

        CheckOverrides(job, columns);
        CheckOthers(job, header, columns, others);
        return columns;
    }

    private static void Add(
        ReadingJob job, DelimitedText header, List<HeaderColumn> columns, int field, ColumnHeader column, Quantity quantity)
    {
        if (columns.Find(other => other.Quantity == quantity) is { } twin)
        {
            job.Problem(header.Line, header.ColumnOf(field), column.Text, $"one column for {(Sentence)Quantities.Title(quantity)}",
                $"the column says the same as {twin.Name}");
            return;
        }

        string? unitText = OverrideFor(job, column.Text, column.Name) ?? column.UnitText;
        Unit? unit = unitText is null ? null : Unit.Named(unitText);
        Dimension dimension = Quantities.DimensionOf(quantity);
        if (unitText is not null && unit?.Dimension != dimension)
        {
            string choices = Unit.ChoicesFor(dimension);
            job.Problem(
                header.Line, header.ColumnOf(field), unitText, choices,
                $"{column.Text} has no unit of {(Sentence)Quantities.Title(quantity)}",
                NearestWord.To(unitText, choices.Split(", ")));
            return;
        }

        job.WindHeightM = column.WindHeightM ?? job.WindHeightM;
        columns.Add(new HeaderColumn(field, header.Line, header.ColumnOf(field), column.Text, quantity, unit));
    }

    private static string? OverrideFor(ReadingJob job, params string[] names)
    {
        foreach ((string name, string unit) in job.Options.ColumnUnits)
        {
            if (names.Contains(name, StringComparer.OrdinalIgnoreCase))
            {
                return unit;
            }
        }

        return null;
    }

    private static void CheckOverrides(ReadingJob job, List<HeaderColumn> columns)
    {
        foreach (string name in job.Options.ColumnUnits.Keys)
        {
            if (!columns.Exists(c => c.Name.Equals(name, StringComparison.OrdinalIgnoreCase) || ColumnWords.Read(c.Name).Name
                .Equals(name, StringComparison.OrdinalIgnoreCase))
                && !job.HasProblems)
            {
                job.Problem(1, 0, name, "a column of the file", "a unit is given for a column that the file does not have",
                    NearestWord.To(name, columns.Select(c => c.Name)));
            }
        }
    }

    /// <summary>Columns that are not used: fine, unless one of them looks like a column that is missing.</summary>
    private static void CheckOthers(
        ReadingJob job, DelimitedText header, List<HeaderColumn> columns, List<(int Field, ColumnHeader Header)> others)
    {
        bool Missing(Quantity quantity) => !columns.Exists(c => c.Quantity == quantity);
        foreach ((int field, ColumnHeader other) in others)
        {
            int position = header.ColumnOf(field);
            if (other.Quantity is { } quantity && Missing(quantity))
            {
                string choices = Unit.ChoicesFor(Quantities.DimensionOf(quantity));
                string rest = other.UnitText ?? other.Text;
                job.Problem(header.Line, position, rest, choices, $"{other.Text} has no unit of {(Sentence)Quantities.Title(quantity)}",
                    NearestWord.To(rest, choices.Split(", ")));
            }
            else if (other.Quantity is null && NearestOf(other, Missing) is { } nearest)
            {
                job.Problem(header.Line, position, other.Text, "a known column name", "no column has this name", nearest);
            }
        }

        if (others.Count > 0 && !job.HasProblems)
        {
            job.Found(
                $"Columns not used: {string.Join(", ", others.Take(8).Select(other => other.Header.Text))}{(others.Count > 8 ? ", ..." : "")}.");
        }
    }

    /// <summary>The nearest missing name, tried with and without the header's last word, which may be a unit.</summary>
    private static string? NearestOf(ColumnHeader header, Func<Quantity, bool> missing)
    {
        int last = header.Name.LastIndexOf('_');
        string? withoutLast = last > 0 && Unit.Named(header.Name.AsSpan(last + 1)) is not null ? header.Name[..last] : null;
        return (withoutLast is null ? null : (header with { Name = withoutLast }).Nearest(missing)) ?? header.Nearest(missing);
    }
}
