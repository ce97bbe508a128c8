using System.Text.Json;
using System.Text.RegularExpressions;

namespace Valvewright.Tests.Words;

/// <summary>How easily a text reads, by published formulas.</summary>
/// <remarks>
/// English: Flesch 1948, "A new readability yardstick", Journal of Applied Psychology 32: 206.835 - 1.015 words/sentences - 84.6
/// syllables/words; plain English is 60 to 70. Spanish: Szigriszt-Pazos 1993, "Sistemas predictivos de legibilidad del mensaje escrito",
/// Universidad Complutense: 206.835 - words/sentences - 62.3 syllables/words; usual reading is 55 to 65. Syllables are counted by rule;
/// numbers are left out.
/// </remarks>
internal static partial class ReadingEase
{
    /// <summary>What a text is made of.</summary>
    public readonly record struct Counts(int Texts, int Sentences, int Words, int Syllables)
    {
        /// <summary>Words in a sentence, on average.</summary>
        public double SentenceWords => (double)Words / Sentences;

        /// <summary>Flesch's figure for English.</summary>
        public double Flesch => 206.835 - (1.015 * SentenceWords) - (84.6 * Syllables / Words);

        /// <summary>Szigriszt-Pazos' figure for Spanish.</summary>
        public double Szigriszt => 206.835 - SentenceWords - (62.3 * Syllables / Words);
    }

    /// <summary>Counts whole sentences: what does not end as one (a label, a heading) is left out.</summary>
    public static Counts Of(IEnumerable<string> texts, bool isSpanish)
    {
        Counts all = default;
        foreach (string text in texts)
        {
            string[] sentences = [.. SentenceEnd().Split(Plain(text)).Where(s => s.Length > 0 && ".!?".Contains(s[^1]))];
            string[] words = [.. sentences.SelectMany(s => Word().Matches(s).Select(m => m.Value))];
            all = new Counts(all.Texts + (words.Length > 0 ? 1 : 0), all.Sentences + sentences.Count(s => Word().IsMatch(s)),
                all.Words + words.Length, all.Syllables + words.Sum(w => isSpanish ? InSpanish(w) : InEnglish(w)));
        }

        return all;
    }

    /// <summary>The prose of a page: paragraphs and items of lists, without headings, tables and samples.</summary>
    public static IEnumerable<string> Prose(string page)
    {
        List<string> paragraph = [];
        foreach (string line in page.Split('\n').Append(""))
        {
            bool isOther = line.Length == 0 || line.StartsWith("    ", StringComparison.Ordinal) || line[0] is '#' or '|' or '`';
            if ((isOther || Item().IsMatch(line)) && paragraph.Count > 0)
            {
                yield return string.Join(' ', paragraph);
                paragraph.Clear();
            }

            if (!isOther)
            {
                paragraph.Add(Item().Replace(line, ""));
            }
        }
    }

    /// <summary>Pages for people and sentences on screens below a folder, in both languages.</summary>
    public static IEnumerable<(string What, bool IsSpanish, Counts Counts)> OfTree(string root)
    {
        string[] pages = [.. Directory.GetFiles(root, "*.md").Concat(Directory.GetFiles(Path.Combine(root, "docs"), "*.md"))
            .Where(p => Path.GetFileName(p) is not ("NOTICE.md" or "THIRD-PARTY.md")).Order(StringComparer.Ordinal)];
        yield return ("docs, README and CONTRIBUTING, English", false, Of(pages.SelectMany(p => Prose(File.ReadAllText(p))), false));
        (string Name, Dictionary<string, string> Texts)[] catalogs = [.. Directory.GetFiles(Path.Combine(root, "src"), "*.json",
                SearchOption.AllDirectories)
            .Select(f => f.Replace('\\', '/')).Where(f => f.Contains("/Texts/", StringComparison.Ordinal)
                && !f.Contains("/obj/", StringComparison.Ordinal) && !f.Contains("/bin/", StringComparison.Ordinal))
            .Order(StringComparer.Ordinal)
            .Select(f => (f, JsonSerializer.Deserialize<Dictionary<string, string>>(File.ReadAllText(f))!))];
        yield return ("sentences on screens, English", false, Of(catalogs.SelectMany(c => IsPatterns(c.Name) ? c.Texts.Keys
            : c.Name.EndsWith("en.json", StringComparison.Ordinal) ? c.Texts.Values : Enumerable.Empty<string>()), false));
        yield return ("sentences on screens, Spanish", true, Of(catalogs.Where(c => c.Name.EndsWith("es.json", StringComparison.Ordinal))
            .SelectMany(c => c.Texts.Values), true));
    }

    /// <summary>Syllables of an English word: groups of vowels, without the silent e.</summary>
    public static int InEnglish(string word)
    {
        string plain = word.ToLowerInvariant();
        if (plain.All(c => !char.IsLetter(c)))
        {
            return 1;
        }

        string bare = SilentEnd().Replace(plain, "");
        return Math.Max(1, EnglishVowels().Count(bare) + Hiatus().Count(bare));
    }

    /// <summary>Syllables of a Spanish word: each strong or accented vowel is one; weak vowels join their neighbor.</summary>
    public static int InSpanish(string word)
    {
        string plain = FinalY().Replace(MuteU().Replace(word.ToLowerInvariant(), "$1"), "i");
        return Math.Max(1, SpanishNucleus().Count(plain));
    }

    private static bool IsPatterns(string name) => name.Contains("/Sentences/", StringComparison.Ordinal);

    private static string Plain(string text) => Link().Replace(Code().Replace(Abbreviation().Replace(text, "$1$2"), "this"), "$1").Trim();

    [GeneratedRegex(@"(?<=[.!?])\s+")]
    private static partial Regex SentenceEnd();

    [GeneratedRegex(@"\p{L}[\p{L}\p{N}'’-]*")]
    private static partial Regex Word();

    [GeneratedRegex(@"^\s*([-*]|\d+\.)\s+")]
    private static partial Regex Item();

    [GeneratedRegex("`[^`]*`|\\{[^}]*\\}")]
    private static partial Regex Code();

    [GeneratedRegex(@"\[([^\]]*)\]\([^)]*\)")]
    private static partial Regex Link();

    /// <summary>Points that end no sentence.</summary>
    [GeneratedRegex(@"\b(eq|ec|e\.g|i\.e|vs|EE|UU)\.( \d)?")]
    private static partial Regex Abbreviation();

    [GeneratedRegex("(?<=[a-z]{2})(?<!l|[td])(ed)$|(?<=[^aeiouylsxzcgh][aeiouy]?|[aeiouy][a-z]+)(?<!l)e$|(?<=[aeiouy]l)e$|" +
        "(?<=[aeiouy][lr]?[^aeiouysxzcghl])es$|(?<=[aeiouy]l)es$")]
    private static partial Regex SilentEnd();

    [GeneratedRegex("[aeiouy]+")]
    private static partial Regex EnglishVowels();

    [GeneratedRegex("(?<![tscxg])i[ao](?!u)|[aeiou]ing|eo|ua(?!l?i)|[^q]uo|ia[lt]")]
    private static partial Regex Hiatus();

    [GeneratedRegex("(q|g(?=u[eiéí]))u(?=[eiéí])")]
    private static partial Regex MuteU();

    [GeneratedRegex("(?<=[aeiou])y$")]
    private static partial Regex FinalY();

    [GeneratedRegex("[iuü]?[aeoáéó]([iuüy](?![aeoáéóíú]))?|[íú]|[iuü]+|y(?![aeiouáéíóú])")]
    private static partial Regex SpanishNucleus();
}
