using System.Text.Json;
using System.Text.RegularExpressions;

namespace Valvewright.House.Tests;

/// <summary>A Spanish page has no English word: none in its catalogs, and none in markup, where no catalog could replace it.</summary>
public sealed partial class LanguagesStayApart
{
    public static TheoryData<string> SpanishCatalogs() =>
        [.. Tree.Files.Where(f => f.StartsWith("src/", StringComparison.Ordinal) && f.Contains("/Texts/", StringComparison.Ordinal)
            && f.EndsWith("es.json", StringComparison.Ordinal))];

    public static TheoryData<string> Markup() =>
        [.. Tree.Files.Where(f => f.StartsWith("src/", StringComparison.Ordinal) && f.EndsWith(".razor", StringComparison.Ordinal))];

    [Theory]
    [MemberData(nameof(SpanishCatalogs))]
    public void No_Spanish_text_has_an_English_word(string catalog) =>
        Assert.Empty(JsonSerializer.Deserialize<Dictionary<string, string>>(Tree.Read(catalog))!.Values
            .Where(t => English().IsMatch(Typed().Replace(t, " "))));

    /// <summary>The Spanish of the fault model, which has both languages in one file.</summary>
    [Fact]
    public void No_Spanish_of_the_fault_model_has_an_English_word()
    {
        string[] texts = [.. SpanishLine().Matches(Tree.Read("src/Valvewright.Files/Faults/faults.yaml")).Select(m => m.Groups[1].Value)];
        Assert.True(texts.Length > 100, $"{texts.Length} texts");
        Assert.Empty(texts.Where(t => English().IsMatch(Typed().Replace(t, " "))));
    }

    [Theory]
    [MemberData(nameof(Markup))]
    public void No_words_are_written_into_markup(string page)
    {
        string markup = Comment().Replace(Tree.Read(page).Split("\n@code")[0], "");
        Assert.Empty(TextOfMarkup().Matches(markup).Select(m => m.Groups[1].Value.Trim())
            .Concat(WordedAttribute().Matches(markup).Select(m => m.Groups[1].Value))
            .Where(t => t is not ("Valvewright" or "English" or "Español" or "ETo")));
    }

    /// <summary>Words that are English and nothing else; a, no, me, sin, once, plan, control are Spanish too.</summary>
    [GeneratedRegex(@"\b(the|of|and|with|from|for|to|is|are|was|were|been|this|that|these|which|when|where|what|not|every|each|by|" +
        @"at|on|in|its?|if|than|only|change|water|zone|years?|weeks?|days?|starts?|runs?|stations?|controllers?|settings?|battery" +
        @"|flow|leak|file|" +
        @"names?|number|read|write|enter|missing|expected|found|supply|weather|wind|rain|site|visits?|cards?|proof|used|must|can|will|" +
        @"open|close|off|low|high|date|time|hours?|soil|plants?|lawn|pipe|valves?|here|there|your?|more|less|all|next|back|done|save|" +
        @"cancel|check|trace|survey|online|offline|backup|email|login|click|link|web)\b", RegexOptions.IgnoreCase)]
    private static partial Regex English();

    /// <summary>What is the same in every language: words to type, places, files, units, columns, titles of publications.</summary>
    [GeneratedRegex(@"'[^']*'|«[^»]*»|""[^""]*""|--[a-z-]+|\{[^}]*\}|https?://\S+|\S+\.(json|yaml|html|pdf|csv|svg|ics|png|md|time)\b" +
        @"|\S*=\S*|\b[A-Z]{2,}\b|[a-z]+-[a-z-]+|valvewright [a-z]+|[A-Z][a-z]*-[A-Z][a-z]+|[\d,y] ?(sq )?in\b|\bsq in\b|o in\." +
        @"|in/ft|10 pm to 6 am" +
        @"|Guide to Texture by Feel|Station Number o Stn Id, y Date|(columna llamada|columna se llama) date|monday a sunday, from y to" +
        @"|columnas site o site_id, y controller|clase found|date; o year y day of year; o year, month y day|o all \(|Palabras: .*")]
    private static partial Regex Typed();

    [GeneratedRegex(@"\bes: *""?([^""\n}]*)")]
    private static partial Regex SpanishLine();

    [GeneratedRegex(@"@\*.*?\*@", RegexOptions.Singleline)]
    private static partial Regex Comment();

    [GeneratedRegex(@">([^<>@{}()=;&|?""]*[A-Za-z]{2,}[^<>@{}()=;&|?""]*)<(?=[/a-zA-Z])")]
    private static partial Regex TextOfMarkup();

    [GeneratedRegex(@"(?:aria-label|title|placeholder|alt)=""([^""@]*[A-Za-z]{2,}[^""@]*)""")]
    private static partial Regex WordedAttribute();
}
