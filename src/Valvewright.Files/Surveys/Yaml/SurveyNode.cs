namespace Valvewright.Files.Surveys.Yaml;

/// <summary>A piece of YAML with the place where it stands, both counted from 1.</summary>
internal abstract record SurveyNode(int Line, int Column)
{
    /// <summary>What a person sees there.</summary>
    internal abstract string Shown { get; }
}

/// <summary>A single value; all values are text until they are read as something.</summary>
internal sealed record TextNode(int Line, int Column, string Text) : SurveyNode(Line, Column)
{
    internal override string Shown => Text.Length == 0 ? "nothing" : Text;
}

/// <summary>A list.</summary>
internal sealed record ListNode(int Line, int Column, List<SurveyNode> Items) : SurveyNode(Line, Column)
{
    internal override string Shown => Items.Count == 0 ? "an empty list" : $"a list of {Items.Count}";
}

/// <summary>Keys with values, in the order written.</summary>
internal sealed record MapNode(int Line, int Column, List<(TextNode Key, SurveyNode Value)> Entries) : SurveyNode(Line, Column)
{
    internal override string Shown => Entries.Count == 0 ? "an empty mapping" : $"keys ({string.Join(", ", Entries.Take(4).Select(e => e.Key.Text))})";
}
