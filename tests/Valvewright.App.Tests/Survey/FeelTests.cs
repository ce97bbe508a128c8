using Valvewright.App.Pages.Survey.ZoneParts;
using Valvewright.Engine.Ground;
using Valvewright.Tests;

namespace Valvewright.App.Tests.Survey;

/// <summary>Texture by feel, against the flow diagram of the USDA Natural Resources Conservation Service (after Thien 1979; from
/// memory).</summary>
public sealed class FeelTests
{
    [Theory]
    [InlineData(Ribbon.NoBall, null, "sand")]
    [InlineData(Ribbon.NoRibbon, null, "loamy sand")]
    [InlineData(Ribbon.BreaksSoon, Feel.Gritty, "sandy loam")]
    [InlineData(Ribbon.BreaksSoon, Feel.Smooth, "silt loam")]
    [InlineData(Ribbon.BreaksSoon, Feel.Neither, "loam")]
    [InlineData(Ribbon.BreaksLater, Feel.Gritty, "sandy clay loam")]
    [InlineData(Ribbon.BreaksLater, Feel.Smooth, "silty clay loam")]
    [InlineData(Ribbon.BreaksLater, Feel.Neither, "clay loam")]
    [InlineData(Ribbon.HangsOn, Feel.Gritty, "sandy clay")]
    [InlineData(Ribbon.HangsOn, Feel.Smooth, "silty clay")]
    [InlineData(Ribbon.HangsOn, Feel.Neither, "clay")]
    public void The_texture_is_that_of_the_diagram(Ribbon ribbon, Feel? feel, string texture) =>
        Assert.Equal(texture, FeelTest.Texture(ribbon, feel));

    [Fact]
    public void Every_texture_that_is_felt_is_one_that_a_survey_knows_and_silt_alone_is_left_out()
    {
        string[] felt = [.. Enum.GetValues<Ribbon>().SelectMany(r => Enum.GetValues<Feel>().Select(f => FeelTest.Texture(r, f)!)).Distinct()
            .Order(StringComparer.Ordinal)];
        Assert.Equal(SoilTextures.Classes.Concat(SoilTextures.TakenAs.Keys).Except(["silt"]).Order(StringComparer.Ordinal), felt);
    }

    [Theory]
    [InlineData(Ribbon.NoBall, false)]
    [InlineData(Ribbon.BreaksSoon, true)]
    public void The_feel_is_asked_only_where_it_tells_something(Ribbon ribbon, bool asks)
    {
        Assert.Equal(asks, FeelTest.AsksFeel(ribbon));
        Assert.Equal(asks, FeelTest.Texture(ribbon, null) is null);
    }

    [Fact]
    public void Every_answer_has_its_picture()
    {
        string pictures = Path.Combine(Checkout.Root, "src", "Valvewright.App", "wwwroot", "pictures", "soil");
        Assert.All(Enum.GetNames<Ribbon>().Concat(Enum.GetNames<Feel>()), name =>
            Assert.True(File.Exists(Path.Combine(pictures, $"{name.ToLowerInvariant()}.svg")), name));
    }
}
