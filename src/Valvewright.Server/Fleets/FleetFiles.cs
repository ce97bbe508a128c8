using System.Text;

namespace Valvewright.Server.Fleets;

/// <summary>A table as CSV.</summary>
internal static class FleetFiles
{
    /// <summary>
    /// RFC 4180. Text that a spreadsheet would take for a formula gets an apostrophe before it: a site's name must not become a command
    /// on the desk of anyone who opens the table.
    /// </summary>
    public static string Csv(IReadOnlyList<string> headings, IEnumerable<object?[]> rows)
    {
        StringBuilder csv = new();
        csv.AppendJoin(',', headings).Append("\r\n");
        foreach (object?[] row in rows)
        {
            csv.AppendJoin(',', row.Select(c => Field(c))).Append("\r\n");
        }

        return csv.ToString();
    }

    /// <summary>Whether text would be taken for a formula, or begins as if it had been kept from being one.</summary>
    public static bool IsGuarded(ReadOnlySpan<char> text)
    {
        ReadOnlySpan<char> bare = text.TrimStart('\'');
        return bare is ['=' or '+' or '-' or '@' or '\t' or '\r', ..];
    }

    private static string Field(object? cell)
    {
        string text = FleetTable.Text(cell);
        if (cell is string && IsGuarded(text))
        {
            text = "'" + text;
        }

        return text.AsSpan().IndexOfAny(",\"\r\n") >= 0 ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : text;
    }
}
