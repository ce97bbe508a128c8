using Valvewright.Engine.Quantities;
using Valvewright.Files.Surveys.Yaml;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Surveys.Fields;

/// <summary>One field of a survey, described once: reader, schema, page and documentation follow this row.</summary>
/// <param name="Key">The set the file.</param>
/// <param name="Kind">What the field holds, with its limits and its unit.</param>
public sealed record SurveyField(string Key, FieldKind Kind)
{
    /// <summary>Whether the survey must give it.</summary>
    public bool IsNeeded { get; init; }

    /// <summary>A short name for headings and for the page.</summary>
    public Bilingual Label { get; init; } = Bilingual.None;

    /// <summary>What it means and how to find it, in a sentence or two.</summary>
    public Bilingual Help { get; init; } = Bilingual.None;

    /// <summary>What is used where the survey leaves it out; none where nothing is.</summary>
    public Bilingual LeftOut { get; init; } = Bilingual.None;

    /// <summary>Values as a person would write them.</summary>
    public IReadOnlyList<string> Examples { get; init; } = [];

    /// <summary>Those of the examples that are not in the units of the other system.</summary>
    public IEnumerable<string> ExamplesIn(UnitSystem units) => Kind is QuantityRule rule && rule.Metric != rule.Us
        ? Examples.Where(example => QuantityText.Read(example, rule.Dimension, rule.Usual(units)).Unit == rule.Usual(units))
        : Examples;

    /// <summary>The fields of the mapping, or of the mappings in the list, that it holds; null where it holds values.</summary>
    public FieldGroup? Group => ((Kind as ListKind)?.Item ?? Kind) is KeysKind keys ? keys.Group : null;

    /// <summary>The default that the reader lists as assumed, and its source; null where the reader has to work it out.</summary>
    internal (Sentence Value, Sentence Why)? Assumed { get; init; }

    /// <summary>Puts the value into the record that the mapping describes; null where a reader of its own does.</summary>
    internal Func<MapReader, object, object>? Into { get; init; }

    /// <summary>A field whose value goes into one property as it is read.</summary>
    internal static SurveyField Of<TOwner, TValue>(string key, ValueKind<TValue> kind, Func<TOwner, TValue, TOwner> into)
        where TOwner : class
        where TValue : notnull => new(key, kind)
    {
        Into = (map, owner) => map.TryValue<TValue>(key, out TValue? value) ? into((TOwner)owner, value) : owner,
    };
}

/// <summary>A text in both languages of the product.</summary>
public sealed record Bilingual(string English, string Spanish)
{
    /// <summary>No text.</summary>
    public static Bilingual None { get; } = new("", "");

    /// <summary>Whether there is no text.</summary>
    public bool IsEmpty => English.Length == 0;

    /// <summary>A text with a capital letter at its head.</summary>
    internal static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    /// <summary>The text in one language.</summary>
    public string In(Language language) => language == Language.Spanish ? Spanish : English;
}

/// <summary>The fields of one kind of mapping, in the order in which they are written and documented.</summary>
public sealed class FieldGroup
{
    private readonly SurveyField[] fields;

    /// <summary>A group; <paramref name="called"/> is how problems name the mapping ("a supply"), its key where null.</summary>
    internal FieldGroup(string name, string? called, params SurveyField[] fields) =>
        (Name, Called, this.fields) = (name, called is null ? (Sentence)$"'{name}'" : (Sentence)called, fields);

    /// <summary>Its name in the schema.</summary>
    public string Name { get; }

    /// <summary>Its fields.</summary>
    public IReadOnlyList<SurveyField> Fields => fields;

    /// <summary>Whether it is usually written on one line, within braces.</summary>
    public bool IsOnOneLine { get; init; }

    /// <summary>Fields of which exactly one is given; empty where there is no such rule.</summary>
    public IReadOnlyList<string> OneOf { get; init; } = [];

    internal Sentence Called { get; }

    /// <summary>The keys of its fields.</summary>
    public IEnumerable<string> Keys => Fields.Select(f => f.Key);

    /// <summary>The field of a key; null where there is none.</summary>
    public SurveyField? this[string key] => Array.Find(fields, f => f.Key == key);

    /// <summary>Where a field comes in the usual order; -1 for a key that is not one of them.</summary>
    internal int OrderOf(string key) => Array.FindIndex(fields, f => f.Key == key);
}
