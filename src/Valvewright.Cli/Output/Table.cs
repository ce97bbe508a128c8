namespace Valvewright.Cli.Output;

/// <summary>Rows in columns. Numbers to the right, words to the left; the last column of words gives way when it gets tight.</summary>
/// <param name="columns">Headings; one that begins with <c>&gt;</c> is a column of numbers.</param>
internal sealed class Table(params Sentence[] columns)
{
    private const int Gap = 2;
    private readonly bool[] isNumber = [.. columns.Select(c => c.Pattern.StartsWith('>'))];
    private readonly List<string[]> rows = [];

    /// <summary>Adds a row; one cell a column.</summary>
    public Table Row(params string[] cells)
    {
        if (cells.Length != columns.Length)
        {
            throw new ArgumentException($"{cells.Length} cells for {columns.Length} columns.", nameof(cells));
        }

        rows.Add(cells);
        return this;
    }

    /// <summary>The lines of the table.</summary>
    /// <param name="width">Columns of the page.</param>
    /// <param name="say">Words a heading; null: in English.</param>
    public IEnumerable<string> Lines(int width, Func<Sentence, string>? say = null)
    {
        string[] headings = [.. columns.Select(c => (say is null ? c.Text : say(c)).TrimStart('>'))];
        int[] widths = Fit(headings, width);
        foreach (string line in Break(headings, widths))
        {
            yield return line;
        }

        foreach (string[] row in rows)
        {
            foreach (string line in Break(row, widths))
            {
                yield return line;
            }
        }
    }

    private int[] Fit(string[] headings, int width)
    {
        int[] widths = [.. headings.Select((h, i) => rows.Select(r => r[i].Length).Append(LongestWord(h, isNumber[i])).Max())];
        while (widths.Sum() + (Gap * (widths.Length - 1)) > width)
        {
            // The widest column of words gives a column away; then, if there is none left, the widest of all.
            int giver = Enumerable.Range(0, widths.Length).OrderBy(i => isNumber[i]).ThenByDescending(i => widths[i]).First();
            if (widths[giver] <= 8)
            {
                giver = Array.IndexOf(widths, widths.Max());
            }

            widths[giver]--;
        }

        return widths;
    }

    private static int LongestWord(string heading, bool number) => number ? heading.Split(' ').Max(w => w.Length) : heading.Length;

    private IEnumerable<string> Break(string[] cells, int[] widths)
    {
        string[][] parts = [.. cells.Select((c, i) => Wrap.Lines(c, widths[i]).ToArray())];
        int height = parts.Max(p => p.Length);
        for (int line = 0; line < height; line++)
        {
            IEnumerable<string> padded = parts.Select((p, i) =>
            {
                string part = line < p.Length ? p[line] : "";
                return isNumber[i] ? part.PadLeft(widths[i]) : part.PadRight(widths[i]);
            });
            yield return string.Join(new string(' ', Gap), padded).TrimEnd();
        }
    }
}
