using System.Buffers;
using System.Globalization;
using System.Text;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys.Sheet;

/// <summary>Writes a survey as YAML that the reader takes for the same.</summary>
internal sealed class SheetWriter
{
    /// <summary>What is longer than this is written below each other.</summary>
    private const int LongestLine = 150;

    /// <summary>What ends or begins something within braces.</summary>
    private static readonly SearchValues<char> InBraces = SearchValues.Create(",[]{}\"'");

    private readonly StringBuilder text = new();

    internal static string Write(MapNode root, IReadOnlyList<string> tail)
    {
        SheetWriter writer = new();
        writer.Entries(root, 0);
        foreach (string line in tail)
        {
            writer.text.Append(line).Append('\n');
        }

        return writer.text.ToString();
    }

    private void Entries(MapNode map, int indent)
    {
        for (int i = 0; i < map.Entries.Count; i++)
        {
            // The first key of a list's item stands behind its dash; what is above it stands above the item.
            bool afterDash = text.Length > 0 && text[^1] == ' ';
            if (!afterDash)
            {
                Above(map.Entries[i], indent);
                text.Append(' ', indent);
            }

            text.Append(Scalar(map.Entries[i].Key.Text, inBraces: false)).Append(':');
            Value(map.Entries[i], indent);
        }
    }

    private void Value(NodeEntry entry, int indent)
    {
        string beside = entry.Behind is null ? "" : entry.Behind.StartsWith(' ') ? entry.Behind : $"  {entry.Behind}";
        int room = LongestLine - indent - entry.Key.Text.Length;
        switch (entry.Value)
        {
            case TextNode value:
                text.Append(value.Text.Length == 0 ? "" : $" {Scalar(value.Text, inBraces: false)}").Append(beside).Append('\n');
                break;
            case { } node when OnOneLine(node, room) is { } line:
                text.Append(' ').Append(line).Append(beside).Append('\n');
                break;
            case MapNode map:
                text.Append(beside).Append('\n');
                Entries(map, indent + 2);
                break;
            case ListNode list:
                text.Append(beside).Append('\n');
                Items(list, indent + 2);
                break;
        }
    }

    private void Items(ListNode list, int indent)
    {
        foreach (NodeEntry item in list.Entries)
        {
            Above(item, indent);
            if (item.Value is MapNode { Entries: [var first, ..] } map && OnOneLine(map, LongestLine - indent) is null)
            {
                Above(first, indent);
                text.Append(' ', indent).Append("- ");
                first.Behind ??= item.Behind;
                item.Behind = null;
                Entries(map, indent + 2);
            }
            else
            {
                text.Append(' ', indent).Append('-');
                Value(item, indent);
            }
        }
    }

    private void Above(NodeEntry entry, int indent)
    {
        foreach (string line in entry.Above)
        {
            text.Append(' ', line.Length == 0 ? 0 : indent).Append(line).Append('\n');
        }
    }

    /// <summary>A list or mapping within brackets or braces; null where it has to stand below its key.</summary>
    private static string? OnOneLine(SurveyNode node, int room)
    {
        bool isEmpty = node is MapNode { Entries.Count: 0 } or ListNode { Entries.Count: 0 };
        if (!(isEmpty || node.IsOnOneLine) || HasRemarks(node))
        {
            return null;
        }

        string line = Braced(node);
        return line.Length <= room || isEmpty ? line : null;
    }

    private static string Braced(SurveyNode node) => node switch
    {
        MapNode { Entries.Count: 0 } => "{}",
        MapNode map => "{ " + string.Join(", ", map.Entries.Select(e => $"{Scalar(e.Key.Text, inBraces: true)}: {Braced(e.Value)}")) + " }",
        ListNode list => "[" + string.Join(", ", list.Items.Select(Braced)) + "]",
        TextNode { Text: "" } => "''",
        TextNode value => Scalar(value.Text, inBraces: true),
        _ => throw new NotSupportedException(node.GetType().Name),
    };

    private static bool HasRemarks(SurveyNode node)
    {
        IEnumerable<NodeEntry> inside = node switch { MapNode map => map.Entries, ListNode list => list.Entries, _ => [] };
        return inside.Any(e => e.Behind is not null || e.Above.Count > 0 || HasRemarks(e.Value));
    }

    /// <summary>Text as it can stand in YAML: bare where that means the same, else in quotes.</summary>
    private static string Scalar(string value, bool inBraces)
    {
        if (value.Any(c => char.IsControl(c) || c is '\u0085' or '\u2028' or '\u2029' or '\uFEFF' || char.IsSurrogate(c)))
        {
            return DoublyQuoted(value);
        }

        bool isBare = value.Length > 0
            && !char.IsWhiteSpace(value[0]) && !char.IsWhiteSpace(value[^1])
            && !"-?:,[]{}#&*!|>'\"%@`=".Contains(value[0], StringComparison.Ordinal)
            && value is not ("~" or "null")
            && !value.StartsWith("---", StringComparison.Ordinal) && !value.StartsWith("...", StringComparison.Ordinal)
            && !value.Contains(": ", StringComparison.Ordinal) && !value.Contains(" #", StringComparison.Ordinal) && value[^1] != ':'
            && !(inBraces && value.AsSpan().ContainsAny(InBraces));
        // A minus before a figure is a number, not an item of a list.
        bool isNegative = value.Length > 1 && value[0] == '-' && char.IsAsciiDigit(value[1])
            && value.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '.' or ' ' or '%' or '/');
        return isBare || isNegative ? value : $"'{value.Replace("'", "''", StringComparison.Ordinal)}'";
    }

    private static string DoublyQuoted(string value)
    {
        StringBuilder quoted = new("\"");
        foreach (Rune rune in value.EnumerateRunes())
        {
            _ = rune.Value switch
            {
                '"' => quoted.Append("\\\""),
                '\\' => quoted.Append("\\\\"),
                '\n' => quoted.Append("\\n"),
                '\t' => quoted.Append("\\t"),
                < 0x20 or (>= 0x7F and < 0xA0) or 0x2028 or 0x2029 or 0xFEFF =>
                    quoted.Append(CultureInfo.InvariantCulture, $"\\u{rune.Value:X4}"),
                _ => quoted.Append(rune),
            };
        }

        return quoted.Append('"').ToString();
    }
}
