namespace Valvewright.Files.Surveys.Fields;

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
