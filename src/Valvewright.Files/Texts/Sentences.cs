using System.Collections.Frozen;
using System.Text.Json;
using Valvewright.Engine.Quantities;

namespace Valvewright.Files.Texts;

/// <summary>Words the sentences of the engine and of the readers in a person's language and a site's units.</summary>
/// <remarks>
/// English is the sentences' own language; every other one is a set of embedded files <c>Texts/Sentences/*&lt;code&gt;.json</c> of
/// patterns in English and in that language. A noun at the head of a sentence is found under its small letter too. A test holds the files
/// to what the readers say.
/// </remarks>
public static class Sentences
{
    private static readonly Lazy<FrozenDictionary<string, string>> Spanish = new(() => Read("es.json"));

    /// <summary>All patterns that have words in Spanish.</summary>
    public static IReadOnlyDictionary<string, string> InSpanish => Spanish.Value;

    /// <summary>The sentence in a language.</summary>
    /// <param name="sentence">The sentence.</param>
    /// <param name="language">The language; a sentence that has no words in it is said in English.</param>
    /// <param name="units">The units that amounts are said in.</param>
    public static string Say(Sentence sentence, Language language, UnitSystem units = UnitSystem.Metric)
    {
        ArgumentNullException.ThrowIfNull(sentence);
        string pattern = sentence.Pattern;
        return sentence.Fill(language == Language.Spanish ? Worded(pattern) ?? pattern : pattern, place => place switch
        {
            Sentence inner => Say(inner, language, units),
            Amount amount => Say(amount, units),
            _ => place.ToString() ?? "",
        });
    }

    /// <summary>Whether a sentence has words in Spanish, or needs none.</summary>
    /// <param name="sentence">The sentence.</param>
    /// <param name="deep">Whether the sentences in its places count as well.</param>
    public static bool IsWorded(Sentence sentence, bool deep = true)
    {
        ArgumentNullException.ThrowIfNull(sentence);
        return (Worded(sentence.Pattern) is not null || !sentence.Pattern.Any(char.IsLetter))
            && (!deep || sentence.Places.OfType<Sentence>().All(s => IsWorded(s)));
    }

    /// <summary>An amount with its unit.</summary>
    public static string Say(Amount amount, UnitSystem units) => units == UnitSystem.Metric ? amount.ToString() : amount.Measure switch
    {
        Measure.Depth => $"{SiteWords.Number(amount.Value / UsUnits.MmPerInch, 2)} in",
        Measure.WaterPerDepth => $"{SiteWords.Number(amount.Value * 12 / 1000, 2)} in/ft",
        Measure.Roots => $"{SiteWords.Number(amount.Value / UsUnits.MPerFoot, 2)} ft",
        Measure.Rate => $"{SiteWords.Number(amount.Value / UsUnits.MmPerInch, 2)} in/h",
        _ => throw new NotSupportedException($"Amounts of {amount.Measure}."),
    };

    private static string? Worded(string pattern)
    {
        if (Spanish.Value.GetValueOrDefault(pattern) is { } words)
        {
            return words;
        }

        return pattern.Length > 0 && char.IsUpper(pattern[0])
            && Spanish.Value.GetValueOrDefault(char.ToLowerInvariant(pattern[0]) + pattern[1..]) is { } small
            ? char.ToUpperInvariant(small[0]) + small[1..]
            : null;
    }

    private static FrozenDictionary<string, string> Read(string end)
    {
        System.Reflection.Assembly assembly = typeof(Sentences).Assembly;
        Dictionary<string, string> all = new(StringComparer.Ordinal);
        foreach (string file in assembly.GetManifestResourceNames().Where(
            n => n.StartsWith("Valvewright.Files.Sentences.", StringComparison.Ordinal) && n.EndsWith(end, StringComparison.Ordinal)))
        {
            using Stream stream = assembly.GetManifestResourceStream(file)!;
            foreach ((string pattern, string words) in JsonSerializer.Deserialize(stream, TextsJson.Default.DictionaryStringString)!)
            {
                all.Add(pattern, words);
            }
        }

        return all.ToFrozenDictionary(StringComparer.Ordinal);
    }
}
