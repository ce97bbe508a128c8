using System.Text.Json;
using System.Text.RegularExpressions;

namespace Valvewright.House.Tests;

/// <summary>What people read is in the voice of docs/voice.md: plain words, short sentences, one term per concept, in both
/// languages.</summary>
public sealed partial class WordsArePlain
{
    private const int MostWords = 30;
    private const string Voice = "docs/voice.md";

    public static TheoryData<string> Catalogs() =>
        [.. Tree.Files.Where(f => f.StartsWith("src/", StringComparison.Ordinal) && f.Contains("/Texts/", StringComparison.Ordinal)
            && f.EndsWith(".json", StringComparison.Ordinal))];

    public static TheoryData<string> Pages() => [.. Tree.Pages.Where(p => p is not (Voice or "NOTICE.md" or "THIRD-PARTY.md"))];

    [Theory]
    [MemberData(nameof(Catalogs))]
    public void Every_text_is_in_both_languages_with_the_same_places(string catalog)
    {
        if (IsSentences(catalog)) return;
        Dictionary<string, string> own = Read(catalog),
            other = Read(catalog.EndsWith("en.json", StringComparison.Ordinal) ? catalog[..^7] + "es.json" : catalog[..^7] + "en.json");
        Assert.Equal(own.Keys.Order(StringComparer.Ordinal), other.Keys.Order(StringComparer.Ordinal));
        Assert.Empty(own.Keys.Where(k => !Places(own[k]).SetEquals(Places(other[k]))));
    }

    [Theory]
    [MemberData(nameof(Catalogs))]
    public void No_sentence_is_long(string catalog) =>
        Assert.Empty(Texts(catalog).SelectMany(t => SentenceEnd().Split(t)).Where(s => Word().Count(s) > MostWords));

    [Theory]
    [MemberData(nameof(Catalogs))]
    public void No_text_has_a_word_of_the_never_list(string catalog) =>
        Assert.Empty((IsSentences(catalog) ? Read(catalog).Keys : IsSpanish(catalog) ? []
            : Read(catalog).Values.AsEnumerable()).Where(t => Never().IsMatch(t)));

    [Theory]
    [MemberData(nameof(Catalogs))]
    public void A_percent_is_written_as_its_language_does(string catalog)
    {
        IEnumerable<string> spanish = IsSpanish(catalog) ? Read(catalog).Values : [];
        IEnumerable<string> english = IsSentences(catalog) ? Read(catalog).Keys : IsSpanish(catalog) ? [] : Read(catalog).Values;
        Assert.Empty(spanish.Where(t => ClosePercent().IsMatch(t)));
        Assert.Empty(english.Where(t => OpenPercent().IsMatch(t)));
    }

    [Theory]
    [MemberData(nameof(Catalogs))]
    public void A_concept_has_one_term(string catalog)
    {
        if (!IsSpanish(catalog)) return;
        string words = string.Join('|', LeftOut().Select(w => $@"\b{Regex.Escape(w)}\w*"));
        Regex left = new(words, RegexOptions.IgnoreCase | RegexOptions.CultureInvariant);
        Assert.Empty(Read(catalog).Values.Where(t => left.IsMatch(t)));
    }

    [Fact]
    public void The_glossary_has_sixty_terms_in_both_languages()
    {
        string[][] rows = [.. Glossary()];
        Assert.True(rows.Length >= 60, $"{rows.Length} terms");
        Assert.All(rows, r => Assert.True(r[0].Length > 0 && r[1].Length > 0, r[0]));
    }

    [Theory]
    [MemberData(nameof(Pages))]
    public void No_page_has_a_word_of_the_never_list(string page) =>
        Assert.Empty(Tree.Read(page).Split('\n').Where(l => !l.StartsWith("    ", StringComparison.Ordinal)).Select(Quoted).Where(l =>
            Never().IsMatch(l)));

    public static TheoryData<string> Sources() =>
        [.. Tree.Files.Where(f => (f.StartsWith("src/", StringComparison.Ordinal) && (f.EndsWith(".cs", StringComparison.Ordinal)
            || f.EndsWith(".yaml", StringComparison.Ordinal))) || f.StartsWith("schema/", StringComparison.Ordinal))];

    /// <summary>Sentences that are in no catalog: patterns in code, the fault model, a schema. A word alone is a name.</summary>
    [Theory]
    [MemberData(nameof(Sources))]
    public void No_sentence_of_the_code_has_a_word_of_the_never_list(string source) =>
        Assert.Empty(Tree.Read(source).Split('\n').SelectMany(l => Literal().Matches(Remark().Replace(l, ""))
            .Select(m => m.Groups[1].Value))
            .Select(t => Hole().Replace(t, "{}")).Where(t => t.Contains(' ', StringComparison.Ordinal) && !SurveyWords.Contains(t)
                && Never().IsMatch(t)));

    /// <summary>Words of survey files, which are typed as they are.</summary>
    private static readonly string[] SurveyWords =
        ["runs beside", "largest rain hold", "4 stations, 3 programs, 4 starts, beside each other"];

    private static string Quoted(string line) => Code().Replace(line, "");

    private static bool IsSentences(string catalog) => catalog.Contains("/Sentences/", StringComparison.Ordinal);

    private static bool IsSpanish(string catalog) => catalog.EndsWith("es.json", StringComparison.Ordinal);

    private static Dictionary<string, string> Read(string catalog) => JsonSerializer.Deserialize<Dictionary<string,
        string>>(Tree.Read(catalog))!;

    private static IEnumerable<string> Texts(string catalog) => IsSentences(catalog)
        ? Read(catalog).SelectMany(t => new[] { t.Key, t.Value }) : Read(catalog).Values;

    private static HashSet<string> Places(string text) => [.. Place().Matches(text).Select(m => m.Value)];

    /// <summary>The Spanish words of the glossary's last column.</summary>
    private static IEnumerable<string> LeftOut() =>
        Glossary().SelectMany(r => r[3].Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries));

    private static IEnumerable<string[]> Glossary() => Tree.Read(Voice).Split("## Glossary")[1].Split('\n')
        .Where(l => l.StartsWith("| ", StringComparison.Ordinal)).Skip(1).Select(l => l.Split('|', StringSplitOptions.TrimEntries)[1..^1]);

    private const string NeverWords = @"(?<!\{)\b(somebody|whoever|nobody|anybody|anew|mends?|mended|wanting|for want of|besides?|"
        + @"key(ed|ing)? in(?! \{)|borne|from memory|water days?|rain hold|stands|there is no such|this is no|people live by)"
        + @"\b(?!\})";

    [GeneratedRegex(NeverWords, RegexOptions.IgnoreCase)]
    private static partial Regex Never();

    [GeneratedRegex(@"(?<!es: )""((?:[^""\\]|\\.)*)""")]
    private static partial Regex Literal();

    [GeneratedRegex(@"(^|\s)(//|#).*$")]
    private static partial Regex Remark();

    [GeneratedRegex(@"\{[^}]*\}?")]
    private static partial Regex Hole();

    [GeneratedRegex(@"(?<=[.!?:;])\s+|\n")]
    private static partial Regex SentenceEnd();

    [GeneratedRegex(@"[\p{L}\p{N}'’{}_.%-]+")]
    private static partial Regex Word();

    [GeneratedRegex(@"[\d}] %")]
    private static partial Regex OpenPercent();

    [GeneratedRegex(@"[\d}]%")]
    private static partial Regex ClosePercent();

    [GeneratedRegex(@"\{\w+\}")]
    private static partial Regex Place();

    [GeneratedRegex("`[^`]*`|\\[[^\\]]*\\]\\([^)]*\\)")]
    private static partial Regex Code();
}
