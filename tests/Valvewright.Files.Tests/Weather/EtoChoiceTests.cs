using Valvewright.Engine.Survey;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Tests.Weather;

/// <summary>Every choice of reference ET that the page on it names can be made in words, and is read back as it was written.</summary>
public sealed class EtoChoiceTests
{
    public static TheoryData<string, string> Choices => new()
    {
        { "radiation floor", "0" },
        { "clear sky", "full" },
        { "humidity from", "humidity range, mean humidity" },
        { "albedo", "0.25" },
        { "angstrom a", "0.2" },
        { "angstrom b", "0.55" },
        { "temperature range factor", "0.19" },
        { "dew point below tmin", "2" },
        { "assumed wind", "1.5 m/s" },
        { "least wind", "0.5 m/s" },
        { "temperatures alone", "penman-monteith" },
    };

    [Theory]
    [MemberData(nameof(Choices))]
    public void A_choice_changes_the_options_and_is_read_back(string key, string written)
    {
        EtoChoice choice = EtoChoice.All.Single(c => c.Key == key);
        EtoOptions? options = choice.Apply(EtoOptions.Default, written);
        Assert.NotNull(options);
        Assert.Equal(written, choice.Written(options));
        Assert.Equal($"{key} {written}", EtoChoice.Stated(options));
        Assert.Null(choice.Apply(EtoOptions.Default, "xyzzy"));
    }

    /// <summary>A property of the options without a word for it would be out of reach.</summary>
    [Fact]
    public void Every_option_has_a_choice_but_the_wind_height_which_belongs_to_the_record()
    {
        Assert.Equal(Choices.Select(c => (string)((object[])c)[0]).Order(), EtoChoice.All.Select(c => c.Key).Order());
        Assert.Equal(typeof(EtoOptions).GetProperties().Count(p => p.CanWrite && p.Name != nameof(EtoOptions.WindHeightM)),
            EtoChoice.All.Count);
    }

    [Theory]
    [InlineData("3 mph", 1.34112)]
    [InlineData("2", 2)]
    [InlineData("7.2 km/h", 2)]
    public void A_wind_may_have_its_own_unit(string text, double ms) =>
        Assert.Equal(ms, EtoChoice.All.Single(c => c.Key == "assumed wind").Apply(EtoOptions.Default, text)!.AssumedWindMs!.Value, 1e-9);

    [Theory]
    [InlineData("albedo", "1.5")]
    [InlineData("least wind", "200 m/s")]
    [InlineData("least wind", "3 K")]
    [InlineData("humidity from", "dew point, dew point")]
    [InlineData("humidity from", "")]
    public void What_makes_no_sense_is_not_read(string key, string text) =>
        Assert.Null(EtoChoice.All.Single(c => c.Key == key).Apply(EtoOptions.Default, text));
}
