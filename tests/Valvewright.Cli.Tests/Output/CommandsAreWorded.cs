using System.Text.RegularExpressions;
using Valvewright.Cli.Commands;
using Valvewright.Cli.Output;
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
        Assert.Equal([], said.Where(s => !IsWorded(s)));
    }

    /// <summary>What is refused: the sentence, what was found in the whole, what would be right.</summary>
    [Fact]
    public void What_is_refused_has_words_in_Spanish()
    {
        IReadOnlyCollection<string> said = SaidInSource.Patterns(
            ["src/Valvewright.Cli/Commands", "src/Valvewright.Cli/Inputs"], Refusal(), IsName);
        Assert.Contains("not a span of dates", said);
        Assert.Equal([], said.Where(s => !IsWorded(s) && !Sample().IsMatch(s)));
    }

    /// <summary>What a store refuses.</summary>
    [Fact]
    public void What_a_store_refuses_has_words_in_Spanish()
    {
        IReadOnlyCollection<string> said = SaidInSource.Patterns(
            ["src/Valvewright.Store/Files"], StoreRefusal(), t => t is "POSTGRESQL" or "POSTGRES");
        Assert.Contains("{0}: a store can't be moved to itself.", said);
        Assert.Equal([], said.Where(s => !IsWorded(s)));
    }

    public static TheoryData<string> Commands() => [.. Jobs.All().Select(j => j.Name)];

    [Theory]
    [MemberData(nameof(Commands))]
    public void Every_command_and_option_explains_itself_in_Spanish(string command)
    {
        Job job = Jobs.All().Single(j => j.Name == command);
        Assert.True(job.Options.Count >= 3);
        Assert.Equal([], HelpPage.WordsOf(job).Where(w => !IsWorded(w) && !IsSign(w)).Distinct());
    }

    private static bool IsWorded(string pattern) => Sentences.InSpanish.ContainsKey(pattern)
        || Sentences.InSpanish.ContainsKey(char.ToLowerInvariant(pattern[0]) + pattern[1..]);

    /// <summary>Names of values that are typed as they are in every language.</summary>
    private static bool IsSign(string name) => name is "en|es" or "a4|letter" or "n" or "m" or "ohms" or "mon,tue,...";

    /// <summary>What is typed in the same way in every language.</summary>
    [GeneratedRegex(@"^(\d[\w:,-]+( shows \d\d:\d\d)?|A=2|VALVEWRIGHT_PAGE|index\.html)$")]
    private static partial Regex Sample();

    [GeneratedRegex(@"new Problem\(|Must\(|Usage\.Add\(|Whole\(|Parts\(|\bMany\(|Sentence")]
    private static partial Regex Refusal();

    [GeneratedRegex(@"new StoreException\(|=> \(Sentence\)")]
    private static partial Regex StoreRefusal();

    /// <summary>Options and jobs describe themselves in English: they are the words to type.</summary>
    [GeneratedRegex(@"\A(?![\s\S]*(Description|Job job|new\(""--|SiteArguments|AcceptOnly))")]
    private static partial Regex NoOption();

    private static bool IsName(string text) => OptionNames().IsMatch(text) || Unit().IsMatch(text)
        || text is "flow test" or "uuuu-MM-dd" or "metric" or "us" or "et" or "residential" or "0.0##"
            or "File" or "month.{0}" or "F" or "h" or "°C";

    [GeneratedRegex(@"^--[^ ]*(, --[a-z-]+)*$")]
    private static partial Regex OptionNames();

    /// <summary>Amounts with their units, places of a file, names of files.</summary>
    [GeneratedRegex(@"^(\{0\} ?)?(mm|in|ft|m|psi|kPa|gpm|L/min|gal|m3|mAh|ETo|d|MJ/m²|" +
        @"in/h|mm/h|ft/s|m/s)$|\.svg$|^\{0\} \{1\}/places$|^\{0\}$|^\{0\}-\{1:00\}$")]
    private static partial Regex Unit();
}
