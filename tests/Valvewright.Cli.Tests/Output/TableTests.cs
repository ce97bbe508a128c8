using CsCheck;
using Valvewright.Cli.Output;
using Valvewright.Tests;

namespace Valvewright.Cli.Tests.Output;

public class TableTests
{
    [Fact]
    public void NumbersStandToTheRightAndWordsToTheLeft() =>
        Assert.Equal(
            ["zone    min", "Lawn      5", "Shrubs  120"],
            new Table("zone", ">min").Row("Lawn", "5").Row("Shrubs", "120").Lines(80));

    [Fact]
    public void AWideTableStillFitsThePage() =>
        Gen.Select(Gen.String["ab c"].Where(s => s.Length < 120), Gen.String["xyz "].Where(s => s.Length < 120), Gen.Int[0, 99999])
            .ForEvery((a, b, n) =>
            Assert.All(new Table("first", "second", ">n").Row(a, b, $"{n}").Lines(80), l => Assert.True(l.Length <= 80)));
}
