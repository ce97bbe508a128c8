using Valvewright.Files.Problems;

namespace Valvewright.Files.Tests.Problems;

public sealed class ProblemReadsWell
{
    [Fact]
    public void Says_where_what_was_found_what_was_expected_and_the_nearest_word() =>
        Assert.Equal(
            "park.csv:1:6: no such column: found \"tmaxx\", expected tmax or tmin; nearest is \"tmax\"",
            new Problem("park.csv", 1, 6, "tmaxx", "tmax or tmin", "tmax", "no such column").ToString());

    [Theory]
    [InlineData(0, 0, "a.csv")]
    [InlineData(3, 0, "a.csv:3")]
    [InlineData(3, 9, "a.csv:3:9")]
    public void Place_is_as_exact_as_known(int line, int column, string where) =>
        Assert.Equal(where, new Problem("a.csv", line, column, "", "", null, "x").Where);

    [Fact]
    public void Control_characters_and_long_texts_do_not_reach_the_terminal()
    {
        string text = new Problem("a.csv", 1, 1, "\u001b[31m" + new string('x', 500), "a number", null, "bad").ToString();
        Assert.DoesNotContain('\u001b', text);
        Assert.True(text.Length < 160, text);
    }

    [Theory]
    [InlineData("tmaxx", "tmax")]
    [InlineData("TMXA", "tmax")]
    [InlineData("rian", "rain")]
    [InlineData("slpoe", "slope")]
    [InlineData("zebra", null)]
    [InlineData("", null)]
    public void Nearest_word_is_found_by_edits(string found, string? expected) =>
        Assert.Equal(expected, NearestWord.To(found, ["tmax", "tmin", "rain", "slope"]));

    /// <summary>Textbook distances: kitten-sitting 3 (Levenshtein); one swap of neighbours is one edit (Damerau).</summary>
    [Theory]
    [InlineData("kitten", "sitting", 3)]
    [InlineData("ca", "ac", 1)]
    [InlineData("", "abc", 3)]
    [InlineData("same", "same", 0)]
    public void Edits_are_counted_as_the_textbooks_do(string one, string other, int edits) =>
        Assert.Equal(edits, NearestWord.Edits(one, other));
}
