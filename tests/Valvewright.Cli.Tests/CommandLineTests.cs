using System.CommandLine.Parsing;
using System.Text.RegularExpressions;
using Valvewright.Cli.Commands;
using Valvewright.Tests;

namespace Valvewright.Cli.Tests;

public partial class CommandLineTests
{
    [Fact]
    public async Task WithoutACommandItShowsHelp()
    {
        Command.Outcome outcome = await Command.Run([]);
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains("Exit codes:", outcome.Output, StringComparison.Ordinal);
        Assert.Empty(outcome.Error);
    }

    [Fact]
    public async Task AMisspeltOptionIsAUsageErrorThatNamesTheNearest()
    {
        Command.Outcome outcome = await Command.Run(["--hlep"]);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Empty(outcome.Output);
        Assert.Contains("Nearest: --help", outcome.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("'--visits abc': expected a whole number.", "plan", "anywhere", "--visits", "abc")]
    [InlineData("'--visits 99999999999': expected a whole number.", "plan", "anywhere", "--visits", "99999999999")]
    [InlineData("'--visits 40': expected 0 to 12", "plan", "anywhere", "--visits", "40")]
    [InlineData("'--next-station x': expected a whole number.", "timeline", "anywhere", "--next-station", "x")]
    [InlineData("'a5' is not known here; expected a4 or letter.", "card", "anywhere", "--paper", "a5")]
    public async Task AValueOfTheWrongKindIsAUsageErrorInPlainWords(string expected, params string[] arguments)
    {
        Command.Outcome outcome = await Command.Run(arguments);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Empty(outcome.Output);
        Assert.Contains(expected, outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("System.", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void EveryCommandHasAnExampleAndASentence() =>
        Assert.All(Jobs.All(), job =>
        {
            Assert.NotEmpty(job.Examples);
            Assert.All(job.Examples, e => Assert.StartsWith($"valvewright {job.Name}", e, StringComparison.Ordinal));
            Assert.EndsWith(".", job.Description, StringComparison.Ordinal);
            Assert.All(job.Options, o => Assert.False(string.IsNullOrEmpty(o.Description), o.Name));
        });

    /// <summary>What a machine starts by itself, and what the page on running it says to type.</summary>
    [Theory]
    [InlineData("install/valvewright.service", 1)]
    [InlineData("install/valvewright-backup.service", 1)]
    [InlineData("docs/running.md", 3)]
    public void CommandsOfAnInstalledServerAreUnderstood(string file, int count)
    {
        string text = File.ReadAllText(Path.Combine(Checkout.Root, file)).Replace("\\\n", "", StringComparison.Ordinal);
        string[] lines = [.. Installed().Matches(text).Select(m => m.Groups[1].Value)];
        Assert.Equal(count, lines.Length);
        Assert.All(lines, line =>
        {
            string[] words = [.. CommandLineParser.SplitCommandLine(line)];
            Assert.Empty(Jobs.All().Single(j => j.Name == words[0]).Parse(words[1..]).Errors);
        });
    }

    [GeneratedRegex("/current/cli/valvewright ([^&'\n]+)")]
    private static partial Regex Installed();

    [Fact]
    public async Task HelpOfEveryCommandFitsEightyColumns()
    {
        foreach (string[] arguments in Jobs.All().Select(j => new[] { j.Name, "--help" }).Prepend(["--help"]))
        {
            Command.Outcome outcome = await Command.Run(arguments);
            Assert.Equal(0, outcome.ExitCode);
            Assert.All(outcome.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
        }
    }
}
