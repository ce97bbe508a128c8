using Valvewright.Files.Surveys.Yaml;
using YamlDotNet.Core;
using Comment = YamlDotNet.Core.Tokens.Comment;

namespace Valvewright.Files.Surveys.Sheet;

/// <summary>Takes a survey's text apart so that it can be written again with its remarks where they were.</summary>
internal static class SheetReader
{
    /// <summary>Where YAML ends a line.</summary>
    private static readonly char[] Breaks = ['\n', '\r', '\u0085', '\u2028', '\u2029'];

    /// <summary>The whole, and the remarks that stand below it all.</summary>
    internal static (SheetMap Root, List<string> Tail) Read(string text, MapNode root)
    {
        List<(int Line, SheetEntry Entry)> entries = [];
        SheetMap whole = (SheetMap)Node(root, entries, isOnOneLine: false);
        List<string> tail = Remarks(text, entries);
        return (whole, tail);
    }

    private static SheetNode Node(SurveyNode node, List<(int Line, SheetEntry Entry)> entries, bool isOnOneLine)
    {
        switch (node)
        {
            case TextNode text:
                return new SheetText(text.Text);
            case ListNode list:
                SheetList items = new() { IsOnOneLine = isOnOneLine };
                foreach (SurveyNode item in list.Items)
                {
                    Add(items.Items, "", item, item.Line, entries, item is MapNode { Entries: [(var first, _), ..] } map && (map.Line, map.Column) != (first.Line, first.Column));
                }

                return items;
            case MapNode map:
                SheetMap keys = new() { IsOnOneLine = isOnOneLine };
                foreach ((TextNode key, SurveyNode value) in map.Entries)
                {
                    // A block begins below its key; what begins on the key's line stands within braces or brackets.
                    Add(keys.Entries, key.Text, value, key.Line, entries, value.Line == key.Line);
                }

                return keys;
            default:
                throw new NotSupportedException($"A survey does not hold a {node.GetType().Name}.");
        }
    }

    private static void Add(List<SheetEntry> to, string key, SurveyNode value, int line, List<(int Line, SheetEntry Entry)> entries, bool isOnOneLine)
    {
        SheetEntry entry = new(key, new SheetText(""));
        to.Add(entry);
        entries.Add((line, entry));
        entry.Value = Node(value, entries, isOnOneLine);
    }

    /// <summary>Gives every remark and empty line to the entry that it stands above or behind; answers those below the last one.</summary>
    private static List<string> Remarks(string text, List<(int Line, SheetEntry Entry)> entries)
    {
        string[] lines = text.Replace("\r\n", "\n", StringComparison.Ordinal).Split(Breaks);
        Dictionary<int, Comment> remarks = [];
        Scanner scanner = new(new StringReader(text), skipComments: false);
        while (scanner.MoveNext())
        {
            if (scanner.Current is Comment comment)
            {
                remarks[(int)comment.Start.Line] = comment;
            }
        }

        List<string> waiting = [];
        int next = 0;
        for (int line = 1; line <= lines.Length; line++)
        {
            int first = next;
            while (next < entries.Count && entries[next].Line <= line)
            {
                next++;
            }

            bool begins = next > first;
            if (begins)
            {
                entries[first].Entry.Above.AddRange(waiting);
                waiting.Clear();
            }

            string? remark = remarks.TryGetValue(line, out Comment? comment) ? RemarkOf(comment, lines[line - 1]) : null;
            if (remark is not null && lines[line - 1].AsSpan().TrimStart() is not ['#', ..])
            {
                SheetEntry behind = entries[begins ? first : Math.Max(0, next - 1)].Entry;
                behind.Beside = behind.Beside is null ? remark : $"{behind.Beside} {remark.TrimStart()}";
            }
            else if (remark is not null || string.IsNullOrWhiteSpace(lines[line - 1]))
            {
                waiting.Add(remark?.TrimStart() ?? "");
            }
        }

        while (waiting is [.., ""])
        {
            waiting.RemoveAt(waiting.Count - 1);
        }

        return waiting;
    }

    /// <summary>A remark as written, with the blanks before it, so that remarks below each other stay so.</summary>
    private static string RemarkOf(Comment comment, string line)
    {
        int at = (int)comment.Start.Column - 1;
        if (at >= line.Length || line[at] != '#')
        {
            return $"  # {comment.Value.Trim()}".TrimEnd();
        }

        int from = at;
        while (from > 0 && line[from - 1] == ' ')
        {
            from--;
        }

        return line[from..].TrimEnd();
    }
}
