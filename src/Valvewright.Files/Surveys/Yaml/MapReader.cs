using System.Diagnostics.CodeAnalysis;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Fields;

namespace Valvewright.Files.Surveys.Yaml;

/// <summary>Reads one mapping by the table of its fields; says what is missing, misspelt, twice, or not what it should be.</summary>
internal sealed class MapReader
{
    private readonly Dictionary<string, SurveyNode> values;
    private readonly FieldGroup group;

    internal MapReader(MapNode map, FieldGroup group, ReadingContext context, string path)
    {
        (Map, this.group, Context, Path, values) = (map, group, context, path, new(StringComparer.Ordinal));
        foreach (NodeEntry entry in map.Entries)
        {
            string key = entry.Key.Text;
            if (group[key] is null) RefuseKey(entry.Key);
            else if (!values.TryAdd(key, entry.Value)) Findings.Refuse(entry.Key, "each key once", $"The key '{key}' is here twice");
        }
    }

    private MapReader(MapReader other, string path) =>
        (Map, group, Context, Path, values) = (other.Map, other.group, other.Context, path, other.values);

    internal MapNode Map { get; }

    internal ReadingContext Context { get; }

    internal Findings Findings => Context.Findings;

    internal string Path { get; }

    /// <summary>The same mapping under the path that assumptions about it carry.</summary>
    internal MapReader At(string path) => new(this, path);

    /// <summary>The value of a key, null where it is absent or empty.</summary>
    internal SurveyNode? Get(string key) => values.GetValueOrDefault(FieldOf(key).Key) is { } value and not TextNode { Text: "" }
        ? value : null;

    internal bool Has(string key) => Get(key) is not null;

    /// <summary>The value of a key; where it must be there and is not, that is said.</summary>
    /// <param name="key">The key.</param>
    /// <param name="needed">Whether it must be there; as the table says when not given.</param>
    /// <param name="expected">What is expected; as the table says when not given.</param>
    internal SurveyNode? Find(string key, bool? needed = null, Sentence? expected = null)
    {
        SurveyField field = FieldOf(key);
        if (Get(key) is { } value) return value;
        if (!(needed ?? field.IsNeeded)) return null;
        expected ??= field.Kind.Expected(Context.Units);
        if (values.TryGetValue(key, out SurveyNode? empty)) Findings.Refuse(empty, expected, $"'{key}' has no value");
        else Findings.RefuseAbsence(Map, key, expected, $"{Capital(group.Called)} needs '{key}'");
        return null;
    }

    /// <summary>The value of a key as the table describes it; false where it is absent or wrong.</summary>
    internal bool TryValue<T>(string key, [MaybeNullWhen(false)] out T value, bool? needed = null)
        where T : notnull
    {
        value = default;
        return Find(key, needed) is { } node && ((ValueKind<T>)FieldOf(key).Kind).TryRead(node, key, Context, out value);
    }

    /// <summary>The value of a key; something else where it is absent or wrong. An absent one is listed as assumed if the table says
    /// so.</summary>
    internal T ValueOr<T>(string key, T otherwise, bool? needed = null)
        where T : notnull
    {
        if (TryValue<T>(key, out T? value, needed)) return value;
        Assume(key);
        return otherwise;
    }

    /// <summary>The value of a key, null where it is absent or wrong.</summary>
    internal T? Value<T>(string key)
        where T : struct => TryValue(key, out T value) ? value : null;

    internal string? Text(string key) => TryValue<string>(key, out string? text) ? text : null;

    /// <summary>An amount in the engine's unit, NaN where it is absent or wrong.</summary>
    internal double Amount(string key, bool? needed = null) => ValueOr(key, double.NaN, needed);

    internal TextNode? AsText(SurveyNode value, Sentence expected)
    {
        if (value is TextNode text) return text;
        Findings.Refuse(value, expected, "One value belongs here");
        return null;
    }

    /// <summary>The mapping of a key, null where it is absent or something else.</summary>
    internal MapReader? Inner(string key, string? path = null) =>
        Find(key) is { } value ? AsMap(value, key, path ?? $"{Path}/{key}") : null;

    /// <summary>A value of a key as its mapping; one word may stand for the mapping where the table says so.</summary>
    internal MapReader? AsMap(SurveyNode value, string key, string path)
    {
        FieldKind kind = FieldOf(key).Kind;
        KeysKind keys = (KeysKind)(kind is ListKind list ? list.Item : kind);
        if (value is TextNode word && keys.ShortKey is { } of)
        {
            value = new MapNode(word.Line, word.Column, word.Path)
                { Entries = { new NodeEntry(new TextNode(word.Line, word.Column, word.Path, of), word) } };
        }

        if (value is MapNode map) return new MapReader(map, keys.Group, Context, path);
        IReadOnlyList<SurveyField> fields = keys.Group.Fields;
        Findings.Refuse(value, $"keys such as '{fields[0].Key}:' and '{fields[1].Key}:'",
            $"{Capital(keys.Group.Called)} is written with keys");
        return null;
    }

    /// <summary>The mappings of a list.</summary>
    internal IEnumerable<MapReader> Maps(string key, string? path = null) =>
        Items(key).Select(item => AsMap(item, key, path ?? key)).OfType<MapReader>();

    /// <summary>The items of a list; a single value stands for a list of one.</summary>
    internal IReadOnlyList<SurveyNode> Items(string key)
    {
        switch (Find(key))
        {
            case null:
                return [];
            case ListNode list:
                if (list.Entries.Count == 0) Findings.Refuse(list, "at least one item, or no such key", $"The list '{key}' is empty");
                return [.. list.Items];
            case { } single:
                return [single];
        }
    }

    /// <summary>The items of a list that can be read, each with the node it was read from.</summary>
    internal IEnumerable<(SurveyNode Node, T Value)> Values<T>(string key)
        where T : notnull
    {
        ValueKind<T> kind = (ValueKind<T>)((ListKind)FieldOf(key).Kind).Item;
        foreach (SurveyNode item in Items(key))
        {
            if (kind.TryRead(item, key, Context, out T? value)) yield return (item, value);
        }
    }

    /// <summary>The record with every value that goes straight into it.</summary>
    internal T Fill<T>(T record)
        where T : class
    {
        foreach (SurveyField field in group.Fields)
        {
            if (field.Into is not { } into) continue;
            record = (T)into(this, record);
            Assume(field.Key);
        }

        return record;
    }

    /// <summary>Lists the table's default of an absent key as assumed.</summary>
    internal void Assume(string key)
    {
        if (FieldOf(key).Assumed is var (value, why) && !Has(key)) Findings.Assume(Path.Length == 0 ? key : $"{Path}/{key}", value, why);
    }

    private SurveyField FieldOf(string key) =>
        group[key] ?? throw new InvalidOperationException($"'{key}' is not a field of {group.Name}.");

    private void RefuseKey(TextNode key)
    {
        if (key.Text.Length > 0 && char.IsAsciiDigit(key.Text[0]))
        {
            Findings.Refuse(key, "quotes around a value that holds a comma", "A comma within braces parts one key from the next");
            return;
        }

        string? nearest = NearestWord.To(key.Text.Replace('_', ' ').Replace('-', ' '), group.Keys);
        Findings.Refuse(key, WordList<string>.OneOf(group.Keys), $"Unknown key in {group.Called}", nearest);
    }

    private static Sentence Capital(Sentence noun) =>
        noun.Places.Count > 0 ? noun : char.ToUpperInvariant(noun.Pattern[0]) + noun.Pattern[1..];
}
