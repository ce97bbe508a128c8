namespace Valvewright.Files.Surveys.Yaml;

/// <summary>A piece of YAML: where it is in the text, and which value it is. It can be changed and written again.</summary>
/// <param name="line">Line, from 1; 0 for what was not read from a text.</param>
/// <param name="column">Character in the line, from 1.</param>
/// <param name="path">Keys and numbers of items (from 0) from the root, with strokes between.</param>
internal abstract class SurveyNode(int line, int column, string path)
{
    internal int Line { get; } = line;

    internal int Column { get; } = column;

    internal string Path { get; } = path;

    /// <summary>Whether it is within braces or brackets.</summary>
    internal bool IsOnOneLine { get; init; }

    /// <summary>What a person sees there.</summary>
    internal abstract string Shown { get; }

    /// <summary>A path one step longer.</summary>
    internal static string Join(string path, string step) => path.Length == 0 ? step : $"{path}/{step}";
}

/// <summary>A single value; all values are text until they are read as something.</summary>
internal sealed class TextNode(int line, int column, string path, string text) : SurveyNode(line, column, path)
{
    internal TextNode(string text)
        : this(0, 0, "", text)
    {
    }

    internal string Text { get; } = text;

    /// <summary>Where it begins and ends in the whole text, in characters, with its quotes.</summary>
    internal (int Start, int End) Span { get; init; }

    internal override string Shown => Text.Length == 0 ? "nothing" : Text;
}

/// <summary>A list.</summary>
internal sealed class ListNode(int line, int column, string path) : SurveyNode(line, column, path)
{
    internal ListNode()
        : this(0, 0, "")
    {
    }

    internal List<NodeEntry> Entries { get; } = [];

    internal IEnumerable<SurveyNode> Items => Entries.Select(entry => entry.Value);

    internal override string Shown => Entries.Count == 0 ? "an empty list" : $"a list of {Entries.Count}";
}

/// <summary>Keys with values, in the order written.</summary>
internal sealed class MapNode(int line, int column, string path) : SurveyNode(line, column, path)
{
    internal MapNode()
        : this(0, 0, "")
    {
    }

    internal List<NodeEntry> Entries { get; } = [];

    internal override string Shown =>
        Entries.Count == 0 ? "an empty mapping" : $"keys ({string.Join(", ", Entries.Take(4).Select(e => e.Key.Text))})";

    internal NodeEntry? this[string key] => Entries.Find(entry => entry.Key.Text == key);
}

/// <summary>A key with its value, or an item of a list, with the remarks around it.</summary>
/// <param name="key">The key; an empty text for an item of a list.</param>
/// <param name="value">Its value.</param>
internal sealed class NodeEntry(TextNode key, SurveyNode value)
{
    /// <summary>An item of a list.</summary>
    internal NodeEntry(SurveyNode item)
        : this(new TextNode(item.Line, 0, "", ""), item)
    {
    }

    internal TextNode Key { get; } = key;

    internal SurveyNode Value { get; set; } = value;

    internal void Deconstruct(out TextNode key, out SurveyNode value) => (key, value) = (Key, Value);

    /// <summary>Lines above it: remarks with their <c>#</c>, or empty lines.</summary>
    internal List<string> Above { get; } = [];

    /// <summary>The remark behind it, with its <c>#</c>; null where there is none.</summary>
    internal string? Behind { get; set; }
}
