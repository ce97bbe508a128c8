using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Valvewright.Files.Problems;

namespace Valvewright.Files.Surveys.Yaml;

/// <summary>Reads one mapping key by key; says what is missing, misspelt, twice, or not what it should be.</summary>
internal sealed class MapReader
{
    private readonly Dictionary<string, SurveyNode> values;
    private readonly KeySet keys;

    internal MapReader(MapNode map, KeySet keys, Reading reading, string path)
    {
        (Map, this.keys, Reading, Path, values) = (map, keys, reading, path, new(StringComparer.Ordinal));
        foreach ((TextNode key, SurveyNode value) in map.Entries)
        {
            if (!keys.Keys.Contains(key.Text))
            {
                if (key.Text.Length > 0 && char.IsAsciiDigit(key.Text[0]))
                {
                    Findings.Refuse(key, "quotes around a value that holds a comma", "A comma within braces parts one key from the next");
                    continue;
                }

                string? nearest = NearestWord.To(key.Text.Replace('_', ' ').Replace('-', ' '), keys.Keys);
                Findings.Refuse(key, $"one of: {string.Join(", ", keys.Keys)}", $"There is no such key in {Article(keys.Name)}", nearest);
            }
            else if (!values.TryAdd(key.Text, value))
            {
                Findings.Refuse(key, "each key once", $"The key '{key.Text}' stands here twice");
            }
        }
    }

    internal MapNode Map { get; }

    internal Reading Reading { get; }

    internal Findings Findings => Reading.Findings;

    internal string Path { get; }

    private MapReader(MapReader other, string path) => (Map, keys, Reading, Path, values) = (other.Map, other.keys, other.Reading, path, other.values);

    /// <summary>The same mapping under the path that assumptions about it carry.</summary>
    internal MapReader At(string path) => new(this, path);

    /// <summary>The value of a key, null where it is absent or empty.</summary>
    internal SurveyNode? Get(string key)
    {
        if (!keys.Keys.Contains(key)) throw new InvalidOperationException($"'{key}' is not declared for {keys.Name}.");
        return values.GetValueOrDefault(key) is { } value and not TextNode { Text: "" } ? value : null;
    }

    internal bool Has(string key) => Get(key) is not null;

    /// <summary>The value of a key that must be there.</summary>
    internal SurveyNode? Need(string key, Sentence expected)
    {
        SurveyNode? value = Get(key);
        if (value is not null) return value;
        if (values.TryGetValue(key, out SurveyNode? empty)) Findings.Refuse(empty, expected, $"'{key}' has no value");
        else Findings.Refuse(Map.Line, Map.Column, $"no '{key}'", expected, null, $"{Capital(Article(keys.Name))} needs '{key}'");
        return null;
    }

    internal string? Text(string key, bool needed = false, Sentence? expected = null)
    {
        expected ??= "a name";
        SurveyNode? value = needed ? Need(key, expected) : Get(key);
        return value is null ? null : AsText(value, expected)?.Text;
    }

    internal TextNode? AsText(SurveyNode value, Sentence expected)
    {
        if (value is TextNode text) return text;
        Findings.Refuse(value, expected, "One value belongs here");
        return null;
    }

    internal MapReader? Inner(string key, KeySet inner, string? path = null)
    {
        SurveyNode? value = Get(key);
        return value is null ? null : AsMap(value, inner, path ?? $"{Path}/{key}");
    }

    internal MapReader? AsMap(SurveyNode value, KeySet inner, string path)
    {
        if (value is MapNode map) return new MapReader(map, inner, Reading, path);
        Findings.Refuse(value, $"keys such as '{inner.Keys[0]}:' and '{inner.Keys[1]}:'", $"{Capital(Article(inner.Name))} is written with keys");
        return null;
    }

    /// <summary>The items of a list; a single value stands for a list of one.</summary>
    internal IReadOnlyList<SurveyNode> Items(string key)
    {
        switch (Get(key))
        {
            case null:
                return [];
            case ListNode list:
                if (list.Items.Count == 0) Findings.Refuse(list, "at least one item, or no such key", $"The list '{key}' is empty");
                return list.Items;
            case { } single:
                return [single];
        }
    }

    internal double Quantity(string key, QuantityRule rule, bool needed = false)
    {
        SurveyNode? value = needed ? Need(key, rule.Expected(Reading.Units)) : Get(key);
        return value is null ? double.NaN : rule.Read(value, Reading);
    }

    internal int? Whole(string key, int least, int largest, bool needed = false)
    {
        Sentence expected = $"a whole number from {least} to {largest}";
        SurveyNode? value = needed ? Need(key, expected) : Get(key);
        if (value is null || AsText(value, expected) is not { } text) return null;
        if (int.TryParse(text.Text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int number) && number >= least && number <= largest) return number;
        Findings.Refuse(text, expected, $"'{key}' must be {expected}");
        return null;
    }

    internal bool? YesNo(string key)
    {
        SurveyNode? value = Get(key);
        if (value is null || AsText(value, "yes or no") is not { } text) return null;
        switch (text.Text.ToLowerInvariant())
        {
            case "yes" or "true" or "on": return true;
            case "no" or "false" or "off": return false;
            default:
                Findings.Refuse(text, "yes or no", $"'{key}' is answered with yes or no", NearestWord.To(text.Text, ["yes", "no"]));
                return null;
        }
    }

    /// <summary>One of a list of words; null where absent or wrong.</summary>
    internal T? Word<T>(string key, IReadOnlyDictionary<string, T> words, bool needed = false)
        where T : struct
    {
        SurveyNode? value = needed ? Need(key, Words.OneOf(words.Keys)) : Get(key);
        return value is null ? null : AsWord(value, words, key);
    }

    internal T? AsWord<T>(SurveyNode value, IReadOnlyDictionary<string, T> words, string key)
        where T : struct
    {
        if (AsText(value, Words.OneOf(words.Keys)) is not { } text) return null;
        if (words.TryGetValue(text.Text.ToLowerInvariant(), out T found)) return found;
        Findings.Refuse(text, Words.OneOf(words.Keys), $"This is no word for '{key}'", NearestWord.To(text.Text, words.Keys));
        return null;
    }

    internal LocalDate? Date(string key)
    {
        const string Expected = "a date such as 2026-04-15";
        SurveyNode? value = Get(key);
        if (value is null || AsText(value, Expected) is not { } text) return null;
        ParseResult<LocalDate> date = LocalDatePattern.Iso.Parse(text.Text);
        if (date.Success && date.Value.Year is >= 1800 and <= 2200) return date.Value;
        Findings.Refuse(text, Expected, "This is not a date of the calendar");
        return null;
    }

    internal static Sentence Article(string noun) => noun switch
    {
        "plants" or "sprinklers" or "emitters" or "rules" or "permitted" or "soil" or "weather" or "spacing" or "percent" => (Sentence)$"'{noun}'",
        "audit" => "an audit",
        _ => "a " + noun,
    };

    private static Sentence Capital(Sentence noun) => noun.Places.Count > 0 ? noun : char.ToUpperInvariant(noun.Pattern[0]) + noun.Pattern[1..];
}
