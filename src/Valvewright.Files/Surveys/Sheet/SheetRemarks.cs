using Valvewright.Files.Surveys.Yaml;
using YamlDotNet.Core;
using Comment = YamlDotNet.Core.Tokens.Comment;

namespace Valvewright.Files.Surveys.Sheet;

/// <summary>Gives the remarks of a survey's text to the tree read from it, so that they are where they were when it is written
/// again.</summary>
internal static class SheetRemarks
{
    /// <summary>Where YAML ends a line.</summary>
    private static readonly char[] Breaks = ['\n', '\r', '\u0085', '\u2028', '\u2029'];

    /// <summary>Gives the remarks of a text to its tree; answers those below it all.</summary>
    internal static List<string> Attach(string text, MapNode root)
    {
        List<(int Line, NodeEntry Entry)> entries = [];
        Collect(root, entries);
        return Remarks(text, entries);
    }

    /// <summary>All entries in the order of the text, each with the line it begins on.</summary>
    private static void Collect(SurveyNode node, List<(int Line, NodeEntry Entry)> entries)
    {
        foreach (NodeEntry entry in node switch { MapNode map => map.Entries, ListNode list => list.Entries, _ => [] })
        {
            entries.Add((entry.Key.Line, entry));
            Collect(entry.Value, entries);
        }
    }

    /// <summary>Gives every remark and empty line to the entry that it stands above or behind; answers those below the last one.</summary>
    private static List<string> Remarks(string text, List<(int Line, NodeEntry Entry)> entries)
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
                NodeEntry behind = entries[begins ? first : Math.Max(0, next - 1)].Entry;
                behind.Behind = behind.Behind is null ? remark : $"{behind.Behind} {remark.TrimStart()}";
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
