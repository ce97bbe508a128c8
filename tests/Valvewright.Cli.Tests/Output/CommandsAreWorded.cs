using System.Text.RegularExpressions;
using Valvewright.Files.Texts;
using Valvewright.Tests.Words;

namespace Valvewright.Cli.Tests.Output;

/// <summary>What the commands of measurements, weather and profiles print has words in Spanish, whether a test reaches it or
/// not.</summary>
public sealed partial class CommandsAreWorded
{
    [Theory]
    [InlineData("src/Valvewright.Cli/Commands/Measured", "Driest cans: {0}.")]
    [InlineData("src/Valvewright.Cli/Commands/Et", "Nothing: every day was measured.")]
    [InlineData("src/Valvewright.Cli/Commands/EtCommand.cs", "Computing ETo")]
    [InlineData("src/Valvewright.Cli/Commands/ProfilesCommand.cs", "is lost")]
    [InlineData("src/Valvewright.Cli/Reports/GapWords.cs", "outside what can be measured")]
    public void What_is_said_has_words_in_Spanish(string source, string among)
    {
        IReadOnlyCollection<string> said = SaidInSource.Patterns([source], NoOption(), IsName);
        Assert.Contains(among, said);
        Assert.Equal([], said.Where(s =>
            !Sentences.InSpanish.ContainsKey(s) && !Sentences.InSpanish.ContainsKey(char.ToLowerInvariant(s[0]) + s[1..])));
    }

    /// <summary>Options and jobs describe themselves in English: they are the words to type.</summary>
    [GeneratedRegex(@"\A(?![\s\S]*(Description|Job job|new\(""--|SiteArguments|AcceptOnly))")]
    private static partial Regex NoOption();

    private static bool IsName(string text) => text.StartsWith("--", StringComparison.Ordinal) || Unit().IsMatch(text)
        || text is "flow test" or "uuuu-MM-dd" or "metric" or "us" or "et" or "residential" or "0.0##"
            or "File" or "month.{0}" or "F" or "h" or "°C";

    /// <summary>Amounts with their units, places of a file, names of files.</summary>
    [GeneratedRegex(@"^(\{0\} ?)?(mm|in|ft|m|psi|kPa|gpm|L/min|gal|m3|mAh|ETo|d|MJ/m²|" +
        @"in/h|mm/h|ft/s|m/s)$|\.svg$|^\{0\} \{1\}/places$|^\{0\}$|^\{0\}-\{1:00\}$")]
    private static partial Regex Unit();
}
