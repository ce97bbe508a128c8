using Valvewright.Tests;
using Valvewright.Tests.Words;
using Xunit.Abstractions;

namespace Valvewright.House.Tests;

/// <summary>Pages and screens read as easily as usual prose, by published formulas.</summary>
public sealed class TextsReadEasily(ITestOutputHelper output)
{
    /// <summary>Plain English, and usual Spanish, begin here (Flesch 1948; Szigriszt-Pazos 1993).</summary>
    private const double Plain = 60, Usual = 55;

    [Fact]
    public void Docs_and_screens_are_plain()
    {
        foreach ((string what, bool isSpanish, ReadingEase.Counts counts) in ReadingEase.OfTree(Checkout.Root))
        {
            double ease = isSpanish ? counts.Szigriszt : counts.Flesch;
            output.WriteLine($"{what}: {ease:F1}; {counts.Sentences} sentences of {counts.SentenceWords:F1} words");
            Assert.True(counts.Sentences > 300, what);
            Assert.True(ease >= (isSpanish ? Usual : Plain), $"{what}: {ease:F1}");
        }
    }

    /// <summary>Worked examples: "The cat sat on the mat." is 116, the other 69 (Wikipedia, Flesch-Kincaid readability tests).</summary>
    [Theory]
    [InlineData("The cat sat on the mat.", 116)]
    [InlineData("This sentence, taken as a reading passage unto itself, is being used to prove a point.", 69)]
    public void The_formula_gives_its_worked_examples(string text, double ease) =>
        Assert.Equal(ease, ReadingEase.Of([text], isSpanish: false).Flesch, 0.5);

    /// <summary>Syllables as dictionaries part them.</summary>
    [Theory]
    [InlineData("water", 2)]
    [InlineData("controller", 3)]
    [InlineData("time", 1)]
    [InlineData("valve", 1)]
    [InlineData("valves", 1)]
    [InlineData("changed", 1)]
    [InlineData("needed", 2)]
    [InlineData("table", 2)]
    [InlineData("irrigation", 4)]
    [InlineData("season", 2)]
    [InlineData("before", 2)]
    [InlineData("using", 2)]
    [InlineData("being", 2)]
    [InlineData("radio", 3)]
    [InlineData("through", 1)]
    [InlineData("battery", 3)]
    [InlineData("minutes", 2)]
    [InlineData("station", 2)]
    [InlineData("variable", 4)]
    [InlineData("places", 2)]
    [InlineData("day", 1)]
    public void Syllables_of_English_words(string word, int syllables) => Assert.Equal(syllables, ReadingEase.InEnglish(word));

    [Theory]
    [InlineData("agua", 2)]
    [InlineData("riego", 2)]
    [InlineData("estación", 3)]
    [InlineData("programador", 4)]
    [InlineData("días", 2)]
    [InlineData("caudal", 2)]
    [InlineData("que", 1)]
    [InlineData("siguiente", 3)]
    [InlineData("antigüedad", 4)]
    [InlineData("lea", 2)]
    [InlineData("y", 1)]
    [InlineData("muy", 1)]
    [InlineData("ciudad", 2)]
    [InlineData("válvula", 3)]
    [InlineData("continúa", 4)]
    [InlineData("ahora", 3)]
    [InlineData("suelo", 2)]
    [InlineData("mayo", 2)]
    public void Syllables_of_Spanish_words(string word, int syllables) => Assert.Equal(syllables, ReadingEase.InSpanish(word));
}
