using Valvewright.Engine.Survey;
using Valvewright.Files.Problems;
using Valvewright.Files.Surveys.Yaml;

namespace Valvewright.Files.Surveys.Fields;

/// <summary>A word that a field may hold, with its name on the page.</summary>
public sealed record FieldWord(string Word, Bilingual Name);

/// <summary>One of a list of words, upper or lower case.</summary>
/// <typeparam name="T">What the words mean to the engine.</typeparam>
public sealed record WordList<T> : ValueKind<T>, IWords
    where T : notnull
{
    private readonly (string Word, T Value, Bilingual Name)[] entries;

    internal WordList(params (string Word, T Value, string English, string Spanish)[] entries) =>
        this.entries = [.. entries.Select(entry => (entry.Word, entry.Value, new Bilingual(entry.English, entry.Spanish)))];

    /// <inheritdoc/>
    public IReadOnlyList<FieldWord> Words => [.. entries.Select(entry => new FieldWord(entry.Word, entry.Name))];

    /// <inheritdoc/>
    public IReadOnlyList<string> Spellings => [.. entries.Select(entry => entry.Word), .. Long.Keys];

    /// <inheritdoc/>
    public IReadOnlyList<string> Names => [.. entries.Select(entry => entry.Word).Where(_ => Long.Count > 0), .. Long.Keys];

    /// <summary>The words written out, where they are usually short.</summary>
    internal IReadOnlyDictionary<string, T> Long { get; init; } = new Dictionary<string, T>();

    /// <summary>What is said of a word that is not in the list; a sentence about the field where none is given.</summary>
    internal string? Unknown { get; init; }

    /// <summary>The word for a value.</summary>
    internal string WordOf(T value) => EntryOf(value).Word;

    /// <summary>The name of a value.</summary>
    internal Bilingual NameOf(T value) => EntryOf(value).Name;

    private (string Word, T Value, Bilingual Name) EntryOf(T value) =>
        entries.First(entry => EqualityComparer<T>.Default.Equals(entry.Value, value));

    internal override Sentence Expected(UnitSystem units) => OneOf(Spellings);

    internal static Sentence OneOf(IEnumerable<string> words) => $"one of: {string.Join(", ", words)}";

    private protected override bool TryRead(TextNode text, string key, Sentence expected, ReadingContext context, out T value)
    {
        string word = text.Text.ToLowerInvariant();
        int at = Array.FindIndex(entries, entry => entry.Word == word);
        if (at >= 0)
        {
            value = entries[at].Value;
            return true;
        }

        if (Long.TryGetValue(word, out value!)) return true;
        Sentence message = Unknown is null ? (Sentence)$"Unknown word for '{key}'" : (Sentence)Unknown;
        context.Findings.Refuse(text, OneOf(Spellings), message, NearestWord.To(text.Text, Spellings));
        return false;
    }
}

/// <summary>A list of words, whatever they mean.</summary>
public interface IWords
{
    /// <summary>The words in their usual order.</summary>
    IReadOnlyList<FieldWord> Words { get; }

    /// <summary>Everything that is read as one of them, in lower case.</summary>
    IReadOnlyList<string> Spellings { get; }

    /// <summary>Those that are names, which people begin with a capital letter.</summary>
    IReadOnlyList<string> Names { get; }
}
