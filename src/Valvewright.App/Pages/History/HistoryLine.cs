using System.Text.Json;
using Valvewright.App.Pages.Own;
using Valvewright.App.Texts;
using Valvewright.Files.Texts;
using Valvewright.Records;
using Valvewright.Records.Views;

namespace Valvewright.App.Pages.History;

/// <summary>What was done to a record.</summary>
public enum Deed
{
    /// <summary>It was made.</summary>
    Made,

    /// <summary>It was changed.</summary>
    Changed,

    /// <summary>It was removed.</summary>
    Removed,

    /// <summary>It was brought back.</summary>
    Returned,
}

/// <summary>An entry of a site's history as a person reads it.</summary>
/// <param name="Entry">The entry.</param>
/// <param name="Deed">What was done.</param>
/// <param name="Members">Members that differ, each with what it was and what it became; without those that are long texts.</param>
/// <param name="Lines">Lines that differ, of a survey or a plan.</param>
public sealed record HistoryLine(
    EntryView Entry, Deed Deed, ListOf<(string Member, string From, string To)> Members, ListOf<LineChange> Lines)
{
    private static readonly JsonElement Nothing = JsonSerializer.Deserialize<JsonElement>("{}");

    /// <summary>Words an entry.</summary>
    public static HistoryLine Of(EntryView entry)
    {
        Deed deed = (entry.Before, entry.After) switch
        {
            (_, null) => Deed.Removed,
            (null, _) => entry.UndoOf is null ? Deed.Made : Deed.Returned,
            _ => Deed.Changed,
        };
        string? text = entry.Kind switch { RecordKind.Site => "survey", RecordKind.Plan => "plan", _ => null };
        ListOf<LineChange> lines = text is null || deed != Deed.Changed ? []
            : Difference.OfLines(TextOf(entry.Before, text), TextOf(entry.After, text));
        ListOf<(string, string, string)> members = Difference.OfMembers(entry.Before ?? Nothing, entry.After ?? Nothing)
            .Where(m => m.Member is not ("survey" or "plan" or "proof" or "digest" or "blob" or "trace"))
            .Select(m => (m.Member, Plain(m.From), Plain(m.To))).Where(m => m.Item2 != m.Item3).ToListOf();
        return new HistoryLine(entry, deed, members, lines);
    }

    /// <summary>What was done to what.</summary>
    public string Title(PageWords words)
    {
        string what = words[$"history.kind.{Entry.Kind}"];
        JsonElement? value = Entry.After ?? Entry.Before;
        string about = value is { } v && v.TryGetProperty("controller", out JsonElement controller)
            && controller.ValueKind == JsonValueKind.String ? $" – {controller.GetString()}" : "";
        return words.Fill($"history.deed.{Deed}", ("what", what)) + about;
    }

    /// <summary>What a member is called.</summary>
    public static string Name(string member, PageWords words) => UnsentWords.Name(member, words);

    /// <summary>A member's value as a person reads it.</summary>
    public static string Shown(string member, string value, PageWords words, SiteWords say)
    {
        string shown = member == "season" && SeasonSaid.Of(value, words) is { } season ? season
            : UnsentWords.Shown(member, value, words, say);
        return shown.Length == 0 ? words["history.nothing"] : shown;
    }

    private static string TextOf(JsonElement? value, string member) =>
        value is { } v && v.TryGetProperty(member, out JsonElement text) && text.ValueKind == JsonValueKind.String ? text.GetString()! : "";

    private static string Plain(JsonElement? value) => value switch
    {
        null or { ValueKind: JsonValueKind.Null } => "",
        { ValueKind: JsonValueKind.Array } list when list.GetArrayLength() == 0 => "",
        { ValueKind: JsonValueKind.String } text => text.GetString()!,
        { } other => other.GetRawText(),
    };
}
