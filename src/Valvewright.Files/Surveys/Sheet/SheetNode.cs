namespace Valvewright.Files.Surveys.Sheet;

/// <summary>A piece of a survey as it is written, to be changed and written again.</summary>
internal abstract class SheetNode
{
    /// <summary>Whether it stands within braces or brackets on its parent's line.</summary>
    internal bool IsOnOneLine { get; set; }
}

/// <summary>A value, as typed.</summary>
internal sealed class SheetText(string text) : SheetNode
{
    internal string Text { get; set; } = text;
}

/// <summary>A list.</summary>
internal sealed class SheetList : SheetNode
{
    internal List<SheetEntry> Items { get; } = [];
}

/// <summary>Keys with values, in the order written.</summary>
internal sealed class SheetMap : SheetNode
{
    internal List<SheetEntry> Entries { get; } = [];

    internal SheetEntry? this[string key] => Entries.FirstOrDefault(e => e.Key == key);
}

/// <summary>A key with its value, or an item of a list, with the remarks around it.</summary>
/// <param name="key">The key; empty for an item of a list.</param>
/// <param name="value">Its value.</param>
internal sealed class SheetEntry(string key, SheetNode value)
{
    internal string Key { get; } = key;

    internal SheetNode Value { get; set; } = value;

    /// <summary>Lines that stand above it: remarks with their <c>#</c>, or empty lines.</summary>
    internal List<string> Above { get; } = [];

    /// <summary>The remark behind it, with its <c>#</c>; null where there is none.</summary>
    internal string? Beside { get; set; }
}
