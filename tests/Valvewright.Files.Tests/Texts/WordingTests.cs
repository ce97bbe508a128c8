using System.Text.RegularExpressions;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Tests.Texts;

/// <summary>All languages say the same things.</summary>
public sealed class WordingTests
{
    [Fact]
    public void All_languages_have_the_same_texts_with_the_same_places()
    {
        Wording english = Wording.In(Language.English);
        Wording spanish = Wording.In(Language.Spanish);
        Assert.Equal(english.Names.Order(StringComparer.Ordinal), spanish.Names.Order(StringComparer.Ordinal));
        Assert.All(english.Names, name => Assert.Equal(Places(english[name]), Places(spanish[name])));
    }

    [Fact]
    public void A_place_without_a_value_is_an_error() =>
        Assert.Throws<FormatException>(() => Wording.In(Language.English).Fill("card.page", ("page", 1)));

    private static IEnumerable<string> Places(string text) =>
        Regex.Matches(text, @"\{\w+\}").Select(m => m.Value).Order(StringComparer.Ordinal);
}
