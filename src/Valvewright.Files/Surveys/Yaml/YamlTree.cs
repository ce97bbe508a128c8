using System.Globalization;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace Valvewright.Files.Surveys.Yaml;

/// <summary>Reads YAML into nodes that know where they stand.</summary>
/// <remarks>
/// Anchors and aliases are refused: a few lines of them can stand for billions of values, and a page that a colleague
/// must read aloud over the telephone is better without. Depth and the number of values are bounded for the same reason.
/// </remarks>
internal sealed class YamlTree
{
    /// <summary>Words and values in a file: several times what the largest site needs.</summary>
    internal const int MostValues = 50_000;

    private const int Deepest = 24;
    private readonly IParser parser;
    private readonly Findings findings;

    private readonly YamlPurpose purpose;

    private int values;

    private YamlTree(IParser parser, Findings findings, YamlPurpose purpose) =>
        (this.parser, this.findings, this.purpose) = (parser, findings, purpose);

    /// <summary>The one mapping that a file is, or null with the reason among the findings.</summary>
    /// <param name="text">The YAML.</param>
    /// <param name="findings">Where problems go.</param>
    /// <param name="purpose">What the file is for; a survey when not given.</param>
    internal static MapNode? Read(string text, Findings findings, YamlPurpose? purpose = null)
    {
        purpose ??= YamlPurpose.Survey;
        if (string.IsNullOrWhiteSpace(text))
        {
            findings.RefuseFile(text.Length == 0 ? "an empty file" : "a blank file", purpose.Expected, "The file holds nothing");
            return null;
        }

        try
        {
            return new YamlTree(new Parser(new StringReader(text)), findings, purpose).Document();
        }
        catch (TooStrange strange)
        {
            findings.Refuse(strange.Line, strange.Column, strange.Found, strange.Expected, null, strange.Told);
            return null;
        }
        catch (YamlException error)
        {
            (int line, int column) = Place(error.Start);
            // A tab is often noticed only while the line before it is still being read.
            int tab = Enumerable.Range(line, 2).FirstOrDefault(number => LineOf(text, number).TrimStart(' ').StartsWith('\t'));
            if (tab > 0) (line, column) = (tab, 1 + LineOf(text, tab).IndexOf('\t', StringComparison.Ordinal));
            string expected = tab > 0 ? "spaces; a tab cannot indent YAML" : "YAML: 'key: value' lines, indented by spaces";
            findings.Refuse(line, column, LineOf(text, line).Trim(), expected, null, $"This is not YAML ({Reason(error)})");
            return null;
        }
        catch (Exception error) when (
            error is InvalidOperationException or ArgumentException or FormatException or OverflowException or IndexOutOfRangeException)
        {
            findings.RefuseFile("text that the YAML parser gives up on", "YAML", $"This is not YAML ({error.Message.TrimEnd('.')})");
            return null;
        }
    }

    private MapNode? Document()
    {
        parser.Consume<StreamStart>();
        if (!parser.Accept<DocumentStart>(out _))
        {
            findings.RefuseFile("comments only", purpose.Expected, "The file holds nothing");
            return null;
        }

        parser.Consume<DocumentStart>();
        SurveyNode root = Node(0, "");
        parser.Consume<DocumentEnd>();
        if (parser.TryConsume<DocumentStart>(out DocumentStart? second))
        {
            (int line, int column) = Place(second.Start);
            throw new TooStrange(line, column, "a second document", "one document", $"A {purpose.Name} is one document");
        }

        if (root is MapNode map) return map;
        findings.Refuse(root, purpose.Keys, $"A {purpose.Name} is a mapping");
        return null;
    }

    private SurveyNode Node(int depth, string path)
    {
        ParsingEvent next = parser.Consume<ParsingEvent>();
        (int line, int column) = Place(next.Start);
        if (depth > Deepest) throw new TooStrange(
            line, column, "values within values", $"at most {Deepest} levels", "The file is nested too deeply");
        if (++values > MostValues) throw new TooStrange(
            line, column, $"{values} values", $"at most {MostValues} values", "The file has too many values");
        if (next is AnchorAlias) throw new TooStrange(line, column, "an alias (*)", "the values themselves",
            "Aliases are not read; write the values out, or name a profile under 'profiles'");
        if (next is NodeEvent { Anchor.IsEmpty: false }) throw new TooStrange(line, column, "an anchor (&)", "plain values",
            "Anchors are not read; write the values out, or name a profile under 'profiles'");
        return next switch
        {
            Scalar scalar => new TextNode(
                line, column, path, scalar.Style == ScalarStyle.Plain && scalar.Value is "~" or "null" ? "" : scalar.Value.Trim())
            {
                Span = ((int)scalar.Start.Index, (int)scalar.End.Index),
            },
            SequenceStart list => Items(new ListNode(line, column, path) { IsOnOneLine = list.Style == SequenceStyle.Flow }, depth),
            MappingStart map => Entries(new MapNode(line, column, path) { IsOnOneLine = map.Style == MappingStyle.Flow }, depth),
            _ => throw new TooStrange(line, column, next.GetType().Name, "a value", "There is no value here"),
        };
    }

    private ListNode Items(ListNode list, int depth)
    {
        while (!parser.TryConsume<SequenceEnd>(out _))
        {
            list.Entries.Add(new NodeEntry(
                Node(depth + 1, SurveyNode.Join(list.Path, list.Entries.Count.ToString(CultureInfo.InvariantCulture)))));
        }

        return list;
    }

    private MapNode Entries(MapNode map, int depth)
    {
        while (!parser.TryConsume<MappingEnd>(out _))
        {
            SurveyNode key = Node(depth + 1, map.Path);
            if (key is not TextNode word) throw new TooStrange(key.Line, key.Column, key.Shown, "a word", "A key is one word or a few");
            string path = SurveyNode.Join(map.Path, word.Text);
            map.Entries.Add(new NodeEntry(new TextNode(word.Line, word.Column, path, word.Text), Node(depth + 1, path)));
        }

        return map;
    }

    private static (int Line, int Column) Place(Mark mark) =>
        ((int)Math.Clamp(mark.Line, 1, int.MaxValue), (int)Math.Clamp(mark.Column, 1, int.MaxValue));

    private static string LineOf(string text, int line) => text.Split('\n').ElementAtOrDefault(line - 1) ?? "";

    /// <summary>The parser's own reason, without the positions that it repeats.</summary>
    private static string Reason(YamlException error)
    {
        string message = error.Message;
        int end = message.IndexOf("): ", StringComparison.Ordinal);
        return (end >= 0 && message.StartsWith('(') ? message[(end + 3)..] : message).TrimEnd('.').ReplaceLineEndings(" ");
    }

    private sealed class TooStrange(int line, int column, string found, Sentence expected, Sentence message) : Exception(message)
    {
        internal int Line { get; } = line;

        internal int Column { get; } = column;

        internal string Found { get; } = found;

        internal Sentence Expected { get; } = expected;

        internal Sentence Told { get; } = message;
    }
}
