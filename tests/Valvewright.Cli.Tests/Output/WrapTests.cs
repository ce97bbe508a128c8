using CsCheck;
using Valvewright.Cli.Output;
using Valvewright.Tests;

namespace Valvewright.Cli.Tests.Output;

public class WrapTests
{
    [Fact]
    public void NoLineIsWiderThanAskedAndNoLetterIsLost() =>
        Gen.Select(Gen.String["abc  defg hij"].Where(s => s.Length < 300), Gen.Int[8, 90], Gen.Int[0, 6]).ForEvery((text, width, hang) =>
        {
            string[] lines = [.. Wrap.Lines(text, width, hang)];
            Assert.All(lines, l => Assert.True(l.Length <= width, $"'{l}' is {l.Length} wide, not {width}"));
            Assert.Equal(text.Replace(" ", "", StringComparison.Ordinal), string.Concat(lines).Replace(" ", "", StringComparison.Ordinal));
        });

    [Fact]
    public void FollowingLinesHangBelowTheFirst() =>
        Assert.Equal(["  one two", "    three"], Wrap.Lines("  one two three", 10, 2));

    [Fact]
    public void ASpaceThatDoesNotBreakKeepsItsPlaceAndIsPrintedPlainly() =>
        Assert.Equal(["60 % on", "12 Mar"], Wrap.Lines("60\u00a0% on 12\u00a0Mar", 10));
}
