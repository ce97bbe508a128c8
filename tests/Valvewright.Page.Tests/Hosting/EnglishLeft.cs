using System.Text.RegularExpressions;
using Valvewright.App.Texts;
using Valvewright.Files.Texts;
using Valvewright.Tests;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>English on a page that is shown in Spanish, but what people themselves wrote.</summary>
internal static partial class EnglishLeft
{
    /// <summary>From so many words on a text is looked for within others; a shorter one could be a part of something else.</summary>
    private const int WordsOfSentence = 3;

    /// <summary>English words that no Spanish text holds. Two of them make an English sentence.</summary>
    private static readonly HashSet<string> EnglishWords =
    [
        "the", "of", "and", "with", "from", "for", "is", "are", "was", "that", "which", "than", "when", "by", "be", "not", "it", "this",
            "each", "every", "on", "at", "or", "to", "in",
    ];

    /// <summary>Titles of what others published stay as they are.</summary>
    private static readonly string[] Publishers =
        ["FAO", "ASCE", "NASA POWER", "WUCOLS", "USDA", "ASABE", "EPA", "UC ", "Irrigation and Drainage"];

    private static readonly Lazy<(string Name, Regex Pattern)[]> English = new(EnglishOnly);

    /// <summary>What is left on the page as it is shown now; the site is one of the demo.</summary>
    public static async Task<List<string>> On(Visitor visitor, string site)
    {
        string[] shown = await visitor.Page.EvaluateAsync<string[]>("() => window.words()");
        // What people wrote stays in the language in which they wrote it.
        string written = await File.ReadAllTextAsync(Path.Combine(Checkout.Root, "demo", site, "site.yaml"));
        List<string> faults = [];
        string[] names = [.. Name().Matches(written).Select(m => m.Groups[1].Value).Concat(FilledSites.Words).OrderByDescending(
            n => n.Length)];
        foreach (string text in shown.Where(t => !IsRecord(t) && !written.Contains(t, StringComparison.Ordinal))
            .Select(t => names.Aggregate(t, (left, name) => left.Replace(name, "…", StringComparison.Ordinal))))
        {
            if (English.Value.FirstOrDefault(e => e.Pattern.IsMatch(text)) is { Name: not null } english)
            {
                faults.Add($"{english.Name}: {text}");
            }
            else if (Word().Matches(text).Select(m => m.Value.ToLowerInvariant()).Where(EnglishWords.Contains).Distinct().Count() > 1
                && !Publishers.Any(p => text.Contains(p, StringComparison.Ordinal)))
            {
                faults.Add($"looks English: {text}");
            }
        }

        return faults;
    }

    /// <summary>The history shows records as they are kept.</summary>
    private static bool IsRecord(string text) => text.StartsWith('{') && text.EndsWith('}');

    /// <summary>All English texts that no Spanish text equals, as patterns in which any text fills the places.</summary>
    private static (string Name, Regex Pattern)[] EnglishOnly()
    {
        List<(string, Regex)> patterns = [];
        foreach ((Wording english, Wording spanish) in ((Wording, Wording)[])[(
            PageWords.In(Language.English), PageWords.In(Language.Spanish)), (Wording.In(Language.English), Wording.In(Language.Spanish))])
        {
            HashSet<string> same = [.. spanish.Names.Select(n => spanish[n])];
            foreach (string name in english.Names.Where(n => !same.Contains(english[n])))
            {
                string text = english[name], bare = Place().Replace(text, " ");
                int words = Word().Count(bare);
                if (words > 0 && bare.Count(char.IsLetter) > 2)
                {
                    string pattern = string.Join(".+?", Place().Split(text).Select(Regex.Escape));
                    patterns.Add((name, new Regex(words < WordsOfSentence ? $"^{pattern}$" : pattern, RegexOptions.CultureInvariant)));
                }
            }
        }

        return [.. patterns];
    }

    [GeneratedRegex(@"^\s*(?:- )?(?:name|site|source|profile|supply): +([^\s{#][^#\n]*[^\s#])", RegexOptions.Multiline)]
    private static partial Regex Name();

    [GeneratedRegex(@"\{[^}]+\}")]
    private static partial Regex Place();

    [GeneratedRegex(@"\p{L}+")]
    private static partial Regex Word();
}
