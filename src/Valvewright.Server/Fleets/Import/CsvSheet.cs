using System.Text;
using Valvewright.Files.Texts;

namespace Valvewright.Server.Fleets.Import;

/// <summary>Reads a table of text (RFC 4180). Spreadsheets of other countries part cells by semicolons or tabs: the headings show
/// which.</summary>
internal static class CsvSheet
{
    private const string Name = "fleet.csv";

    public static Sheet Read(string text, Language language)
    {
        string headings = text.Split('\n', 2)[0];
        char separator = ((char[])[',', ';', '\t']).MaxBy(c => headings.Count(h => h == c));
        Telling told = new(language, separator != ',');
        return Sheet.Of(Name, Rows(text, separator, told), told);
    }

    private static IEnumerable<SheetRow> Rows(string text, char separator, Telling told)
    {
        int at = 0, line = 1;
        while (at < text.Length)
        {
            int began = line;
            List<object?> cells = [];
            bool more = true;
            while (more)
            {
                (string cell, at) = at < text.Length && text[at] == '"' ? Quoted(text, at, separator, told, ref line)
                    : Plain(text, at, separator);
                cells.Add(Unguarded(cell));
                more = at < text.Length && text[at] == separator && cells.Count <= Sheet.MostColumns;
                at += more ? 1 : 0;
            }

            if (at < text.Length && text[at] == '\r')
            {
                at++;
            }

            if (at < text.Length && text[at] == '\n')
            {
                at++;
            }

            line++;
            yield return new SheetRow(began, cells);
        }
    }

    private static (string Cell, int At) Plain(string text, int at, char separator)
    {
        int end = text.AsSpan(at).IndexOfAny(separator, '\r', '\n') is >= 0 and int length ? at + length : text.Length;
        return (text[at..end], end);
    }

    private static (string Cell, int At) Quoted(string text, int at, char separator, Telling told, ref int line)
    {
        int began = line;
        StringBuilder cell = new();
        for (int i = at + 1; i < text.Length; i++)
        {
            if (text[i] != '"')
            {
                line += text[i] == '\n' ? 1 : 0;
                cell.Append(text[i]);
            }
            else if (i + 1 < text.Length && text[i + 1] == '"')
            {
                cell.Append('"');
                i++;
            }
            else if (i + 1 == text.Length || text[i + 1] == separator || text[i + 1] is '\r' or '\n')
            {
                return (cell.ToString(), i + 1);
            }
            else
            {
                throw told.Refused(Name, line, 0, text.Substring(i, Math.Min(10, text.Length - i)),
                    "a quote doubled within quotes, and nothing after the last", null, "Something follows the end of a quoted cell");
            }
        }

        throw told.Refused(Name, began, 0, text.Substring(at, Math.Min(20, text.Length - at)), "a quote at the end of the cell", null,
            "A quoted cell does not end");
    }

    /// <summary>Takes the apostrophe away that <see cref="FleetFiles.Csv"/> puts before text that a spreadsheet would take for a
    /// formula.</summary>
    private static string Unguarded(string cell) => cell is ['\'', ..] && FleetFiles.IsGuarded(cell.AsSpan(1)) ? cell[1..] : cell;
}
