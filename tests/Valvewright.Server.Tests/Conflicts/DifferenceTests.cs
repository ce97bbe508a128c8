using System.Text.Json;
using CsCheck;
using Valvewright.Engine.Values;
using Valvewright.Records.Views;
using Valvewright.Records;
using Valvewright.Tests;

namespace Valvewright.Server.Tests.Conflicts;

public sealed class DifferenceTests
{
    [Fact]
    public void Lines_are_told_apart_where_they_differ() =>
        Assert.Equal(
            [new LineChange(2, 2, ["b"], ["B", "B2"]), new LineChange(5, 6, ["e"], [])],
            Difference.OfLines("a\nb\nc\nd\ne\nf", "a\r\nB\r\nB2\r\nc\r\nd\r\nf"));

    [Fact]
    public void The_same_text_has_no_difference() => Assert.Empty(Difference.OfLines("a\nb", "a\r\nb"));

    [Fact]
    public void A_difference_leads_from_one_text_to_the_other() =>
        Gen.Char['a', 'd'].Array[0, 12].Select(Gen.Char['a', 'd'].Array[0, 12]).ForEvery((from, to) =>
        {
            string a = string.Join('\n', from), b = string.Join('\n', to);
            ListOf<LineChange> changes = Difference.OfLines(a, b);
            List<string> lines = [.. a.Split('\n')];
            foreach (LineChange change in changes.Reverse())
            {
                Assert.Equal(change.Removed, lines.Skip(change.FromLine - 1).Take(change.Removed.Count));
                lines.RemoveRange(change.FromLine - 1, change.Removed.Count);
                lines.InsertRange(change.FromLine - 1, change.Added);
                Assert.Equal(change.Added, b.Split('\n').Skip(change.ToLine - 1).Take(change.Added.Count));
            }

            Assert.Equal(b, string.Join('\n', lines));
        }, iter: 2000);

    [Fact]
    public void Very_long_texts_are_told_apart_without_delay()
    {
        string a = string.Join('\n', Enumerable.Range(0, 40_000)), b = string.Join('\n', Enumerable.Range(0, 40_000).Select(i => i * 2));
        Assert.Equal(39_999, Assert.Single(Difference.OfLines(a, b)).Removed.Count);
    }

    [Fact]
    public void Members_are_told_apart_by_name()
    {
        ListOf<MemberChange> changes = Difference
            .OfMembers(Element("""{"a":1,"b":[1,2],"c":3}"""), Element("""{"a":1.0,"b":[1,3],"d":4}"""));
        Assert.Equal(["b", "c", "d"], changes.Select(c => c.Member));
        Assert.Null(changes[1].To);
        Assert.Null(changes[2].From);
    }

    private static JsonElement Element(string json) => JsonSerializer.Deserialize<JsonElement>(json);
}
