using System.Text.RegularExpressions;
using Valvewright.App.Texts;
using Valvewright.Files.Texts;
using Valvewright.Tests;

namespace Valvewright.App.Tests.Texts;

/// <summary>The page says the same in both languages, and never asks for a text that is not there.</summary>
public sealed partial class PageTexts
{
    private static readonly string Page = Path.Combine(Checkout.Root, "src", "Valvewright.App");

    [Fact]
    public void Both_languages_have_the_same_texts_with_the_same_places()
    {
        Wording english = PageWords.In(Language.English), spanish = PageWords.In(Language.Spanish);
        Assert.Equal(english.Names.Order(StringComparer.Ordinal), spanish.Names.Order(StringComparer.Ordinal));
        Assert.All(english.Names, name => Assert.Equal(Places(english[name]), Places(spanish[name])));
    }

    [Fact]
    public void Every_text_that_the_page_names_is_there()
    {
        HashSet<string> names = [.. PageWords.In(Language.English).Names];
        (string File, string Name)[] missing = [.. Sources()
            .SelectMany(file => Asked().Matches(File.ReadAllText(file)).Select(m => (File: Path.GetFileName(file), Name: Named(m))))
            .Where(asked => !names.Contains(asked.Name))];
        Assert.Empty(missing);
    }

    [Fact]
    public void Every_beginning_of_a_name_that_is_put_together_is_the_beginning_of_a_text()
    {
        string[] names = [.. PageWords.In(Language.English).Names];
        (string File, string Start)[] missing = [.. Sources()
            .SelectMany(file => PutTogether().Matches(File.ReadAllText(file))
                .Select(m => (File: Path.GetFileName(file), Start: m.Groups["start"].Value)))
            .Where(asked => asked.Start.Length > 0 && !names.Any(n => n.StartsWith(asked.Start, StringComparison.Ordinal)))];
        Assert.Empty(missing);
    }

    private static string Named(Match match) =>
        match.Groups["count"].Success ? match.Groups["name"].Value + ".other" : match.Groups["name"].Value;

    private static IEnumerable<string> Sources() => Directory.EnumerateFiles(Page, "*", SearchOption.AllDirectories)
        .Where(f => (f.EndsWith(".razor", StringComparison.Ordinal) || f.EndsWith(".cs", StringComparison.Ordinal))
            && !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal));

    private static IEnumerable<string> Places(string text) => Place().Matches(text).Select(m => m.Value).Order(StringComparer.Ordinal);

    /// <summary><c>T["name"]</c>, <c>T.Fill("name"</c>, <c>T.Count("name"</c>, and the same of fields called words or texts.</summary>
    [GeneratedRegex("""\b(?:T|words|texts)(?:\[|\.Fill\(|(?<count>\.Count\())"(?<name>[^"{}]+)"(?=[\],)])""")]
    private static partial Regex Asked();

    [GeneratedRegex("""\b(?:T|words|texts)(?:\[|\.Fill\(|\.Count\()\$"(?<start>[^"{}]*)\{""")]
    private static partial Regex PutTogether();

    [GeneratedRegex(@"\{\w+\}")]
    private static partial Regex Place();
}
