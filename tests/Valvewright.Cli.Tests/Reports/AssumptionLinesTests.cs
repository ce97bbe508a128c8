using Valvewright.Cli.Reports;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys;

namespace Valvewright.Cli.Tests.Reports;

/// <summary>Assumptions are never silent, and never drown the result.</summary>
public class AssumptionLinesTests
{
    public static TheoryData<string> Sites() =>
        new(Directory.GetDirectories(Scratch.Demo("")).Select(d => Path.GetFileName(d)!).Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(Sites))]
    public void TheShortFormNamesEveryRuleOnceAndFitsTwentyLines(string demo)
    {
        Site site = SurveyFiles.Read(Path.Combine(Scratch.Demo(demo), "site.yaml")).Site!;
        string[] lines = [.. AssumptionLines.InShort(site).Lines(80)];
        Assert.True(lines.Length <= 24, $"{lines.Length} lines");
        Assert.All(lines, l => Assert.True(l.Length <= 80, l));
        string[] rules = [.. AssumptionLines.Of(site).Select(l => l[..l.IndexOf(':', StringComparison.Ordinal)]).Distinct()];
        Assert.NotEmpty(rules);
        Assert.All(rules, r => Assert.Single(lines, l => l.StartsWith(r + "  ", StringComparison.Ordinal)));
    }

    [Fact]
    public void ItCountsZonesAndGivesTheCommonestValueFirst()
    {
        Site read = SurveyFiles.Read(Path.Combine(Scratch.Demo("quarry-hill"), "site.yaml")).Site!;
        Site site = read with
        {
            Assumptions = new[] { ("A", "5 mm"), ("B", "7 mm"), ("C", "7 mm") }.Select(
                z => new Assumption($"controllers/Gate/zones/{z.Item1}/soil/intake", z.Item2, "a table")).ToListOf(),
        };
        Assert.Equal(["What          Assumed         For", "soil, intake  7 mm, 5 mm  3 zones"],
            AssumptionLines.InShort(site).Lines(80).Select(l => l.TrimEnd()));
        Site supplied = read with
            { Assumptions = new[] { new Assumption("controllers/Gate/supply", "Tank", "the only one"),
                new Assumption("controllers/Terrace/supply", "Tank", "the only one") }.ToListOf() };
        Assert.Equal(["What  Assumed  For", "supply  Tank  2 controllers"], AssumptionLines.InShort(supplied).Lines(80)
            .Select(l => string.Join("  ", l.Split("  ", StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))));
        Assert.Equal(["soil, intake: 5 mm for A (a table)", "soil, intake: 7 mm for B; C (a table)"], AssumptionLines.Of(site));
    }
}
