using System.Text.RegularExpressions;

namespace Valvewright.Cli.Tests.Whole;

public sealed partial class CommandOutputTests
{
    private const int LinesOfAScreen = 24;

    [Fact]
    public void The_first_screen_of_a_plan_fits()
    {
        string[] lines = demo.Plan.Output.Split('\n');
        int rest = Array.FindIndex(lines, 2, l => l.Length > 0 && l.All(c => c == '-')) - 1;
        Assert.Equal("Programs", lines[rest]);
        Assert.InRange(rest, 8, LinesOfAScreen);
        string screen = string.Join('\n', lines[..rest]);
        Assert.All(new[] { "Plan passes.", "Programs", "Water", "Use met", "Visits", "Next: print" }, word =>
            Assert.Contains(word, screen, StringComparison.Ordinal));
    }

    [Fact]
    public void Visits_are_counted_in_one_way()
    {
        Match visits = Yearly().Match(demo.Plan.Output.ReplaceLineEndings(" ").Replace("  ", "", StringComparison.Ordinal));
        Assert.True(visits.Success);
        int counted = int.Parse(visits.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture);
        Assert.Equal(counted, visits.Groups[2].Value.Split(',').Length);
        Assert.Contains($"this plan, {counted} visits", demo.Plan.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_rule_is_broken_on_no_day_or_on_some() =>
        Assert.Contains("none broken on any day from", demo.Plan.Output.ReplaceLineEndings(" "), StringComparison.Ordinal);

    [Theory]
    [InlineData("prove demo/quarry-hill")]
    [InlineData("timeline demo/quarry-hill --from 2026-04-01 --to 2026-04-03")]
    [InlineData("timeline demo/quarry-hill --from 2026-04-01 --next-station 3")]
    [InlineData("timeline demo/quarry-hill --water-in 2026-07")]
    [InlineData("season demo/quarry-hill --today 2019-06-14 --so-far reference/weather/nasapower_lankaran-hills.csv --percent Gate=80")]
    [InlineData("prove demo/quarry-hill --plan missing.json")]
    public async Task No_English_line_is_left_in_Spanish(string line)
    {
        Command.Outcome spanish = await demo.Run(line + " --language es");
        string[] lines = $"{spanish.Output}\n{spanish.Error}".Split('\n');
        Assert.True(lines.Length > 2);
        Assert.Empty(lines.Where(l => English().IsMatch(l)));
        Assert.DoesNotMatch(@"\d%", string.Join('\n', lines));
    }

    [GeneratedRegex(@"Visits\s*(\d+) per year \(([^)]*)\)")]
    private static partial Regex Yearly();

    /// <summary>Words that are never part of a name and never Spanish.</summary>
    [GeneratedRegex(@"\b(the(?! gate)|of|and|with|from|per|is|are|was|every|on|to|year|water|zone|plan's)\b")]
    private static partial Regex English();
}
