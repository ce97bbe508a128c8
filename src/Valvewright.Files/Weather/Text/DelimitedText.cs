namespace Valvewright.Files.Weather.Text;

/// <summary>
/// Walks over text line by line and parts each line into fields, keeping where each field stands. Quotes as in RFC 4180, except
/// that a field ends with its line: daily weather has no line breaks inside a field, and an unclosed quote then spoils one line, not
/// the rest of the file.
/// </summary>
internal sealed class DelimitedText
{
    /// <summary>Delimiter that stands for any run of blanks.</summary>
    public const char Blanks = ' ';

    private readonly string text;
    private readonly char delimiter;
    private int next;
    private int lineStart;
    private int lineEnd;
    private int[] starts = new int[64];
    private int[] ends = new int[64];

    public DelimitedText(string text, char delimiter, int offset = 0, int linesBefore = 0)
    {
        this.text = text;
        this.delimiter = delimiter;
        next = offset;
        Line = linesBefore;
    }

    /// <summary>Number of the current line, from 1.</summary>
    public int Line { get; private set; }

    /// <summary>Where the current line starts in the text.</summary>
    public int Offset => lineStart;

    /// <summary>Fields of the current line.</summary>
    public int Count { get; private set; }

    /// <summary>Whether a quote was opened and not closed on this line.</summary>
    public bool QuoteLeftOpen { get; private set; }

    /// <summary>The whole current line.</summary>
    public ReadOnlySpan<char> Whole => text.AsSpan(lineStart, lineEnd - lineStart);

    /// <summary>A field without its quotes and without blanks around it; empty beyond the last.</summary>
    public ReadOnlySpan<char> this[int field] => field < Count ? text.AsSpan(starts[field], ends[field] - starts[field]).Trim() : [];

    /// <summary>Column where a field starts, from 1; the end of the line for a field that is not there.</summary>
    public int ColumnOf(int field)
    {
        if (field >= Count)
        {
            return lineEnd - lineStart + 1;
        }

        int start = starts[field];
        while (start < ends[field] && char.IsWhiteSpace(text[start]))
        {
            start++;
        }

        return start - lineStart + 1;
    }

    /// <summary>The field of that header, in either case; -1 where there is none.</summary>
    public int FieldOf(string name) => FieldOf(name, static field => field);

    /// <summary>The same, where a layout reads headers in its own way before they are compared.</summary>
    public int FieldOf(string name, HeaderReading read)
    {
        for (int field = 0; field < Count; field++)
        {
            if (read(this[field]).Equals(name, StringComparison.OrdinalIgnoreCase))
            {
                return field;
            }
        }

        return -1;
    }

    /// <summary>What a header says, without what only some files put around it.</summary>
    public delegate ReadOnlySpan<char> HeaderReading(ReadOnlySpan<char> field);

    /// <summary>A second walk over the lines after the current one.</summary>
    public DelimitedText FromHere() => new(text, delimiter, next, Line);

    /// <summary>A second walk that begins with the current line.</summary>
    public DelimitedText FromSelf() => new(text, delimiter, lineStart, Line - 1);

    /// <summary>Moves to the next line that is not blank.</summary>
    public bool Next()
    {
        while (next < text.Length)
        {
            lineStart = next;
            int feed = text.AsSpan(next).IndexOf('\n');
            lineEnd = feed < 0 ? text.Length : next + feed;
            next = feed < 0 ? text.Length : lineEnd + 1;
            Line++;
            if (lineEnd > lineStart && text[lineEnd - 1] == '\r')
            {
                lineEnd--;
            }

            if (!Whole.IsWhiteSpace())
            {
                Part();
                return true;
            }
        }

        Count = 0;
        return false;
    }

    /// <summary>The delimiter a header line uses: the commonest of comma, semicolon and tab.</summary>
    public static char DelimiterOf(ReadOnlySpan<char> header)
    {
        int commas = header.Count(',');
        int semicolons = header.Count(';');
        int tabs = header.Count('\t');
        return semicolons > commas && semicolons >= tabs ? ';' : tabs > commas ? '\t' : ',';
    }

    private void Part()
    {
        Count = 0;
        QuoteLeftOpen = false;
        if (delimiter == Blanks)
        {
            PartAtBlanks();
            return;
        }

        int at = lineStart;
        while (true)
        {
            int end = at < lineEnd && text[at] == '"' ? PartQuoted(at) : PartPlain(at);
            if (end >= lineEnd)
            {
                return;
            }

            at = end + 1;
            if (at >= lineEnd)
            {
                Add(lineEnd, lineEnd);
                return;
            }
        }
    }

    private int PartPlain(int at)
    {
        int length = text.AsSpan(at, lineEnd - at).IndexOf(delimiter);
        int end = length < 0 ? lineEnd : at + length;
        Add(at, end);
        return end;
    }

    private int PartQuoted(int at)
    {
        int close = at + 1;
        while (true)
        {
            int length = close >= lineEnd ? -1 : text.AsSpan(close, lineEnd - close).IndexOf('"');
            if (length < 0)
            {
                QuoteLeftOpen = true;
                Add(at + 1, lineEnd);
                return lineEnd;
            }

            close += length;
            if (close + 1 < lineEnd && text[close + 1] == '"')
            {
                close += 2;
                continue;
            }

            Add(at + 1, close);
            int after = text.AsSpan(close, lineEnd - close).IndexOf(delimiter);
            return after < 0 ? lineEnd : close + after;
        }
    }

    private void PartAtBlanks()
    {
        int at = lineStart;
        while (true)
        {
            while (at < lineEnd && char.IsWhiteSpace(text[at]))
            {
                at++;
            }

            if (at >= lineEnd)
            {
                return;
            }

            int start = at;
            while (at < lineEnd && !char.IsWhiteSpace(text[at]))
            {
                at++;
            }

            Add(start, at);
        }
    }

    private void Add(int start, int end)
    {
        if (Count == starts.Length)
        {
            Array.Resize(ref starts, Count * 2);
            Array.Resize(ref ends, Count * 2);
        }

        starts[Count] = start;
        ends[Count] = end;
        Count++;
    }
}
