using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;

namespace Valvewright.Cli.Tests.Commands;

public class ProveCommandTests
{
    private static readonly Site Site = SurveyFiles.Read(Scratch.Demo("quarry-hill")).Site!;

    /// <summary>Ten minutes for every station, daily from 13:00: visitors at noon forbid it, and it is far too little.</summary>
    private static SavedPlan Poor => SavedPlan.Of(
        Site,
        new Plan(Site.Name, Site.Controllers.Select(c => new ControllerPlan(
            c.Name,
            new Settings([new Program('A', [new LocalTime(13, 0)], c.Zones.Select(z => new RunTime(z.Station, 60)).ToListOf(),
                new EveryNDays(5, new LocalDate(2026, 4, 1)))]),
            [])).ToListOf()),
        new LocalDate(2026, 4, 1));

    [Fact]
    public async Task APlanThatFailsSaysWhyAndEndsWithOne()
    {
        using Scratch scratch = new();
        await File.WriteAllTextAsync(scratch["plan.json"], PlanFiles.Write(Poor));
        Command.Outcome outcome = await Command.Run(["prove", Scratch.Demo("quarry-hill"), "--plan", scratch["plan.json"]]);
        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains("Plan FAILS.", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("open outside the permitted times of Hillside tank",
            string.Join(' ', outcome.Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        Assert.Contains("of its use; the goal is", outcome.Output, StringComparison.Ordinal);
        Assert.All(outcome.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
    }

    [Fact]
    public async Task AStalePlanIsNoticed()
    {
        using Scratch scratch = new();
        await File.WriteAllTextAsync(scratch["plan.json"], PlanFiles.Write(Poor with { Survey = "0123456789abcdef" }));
        Command.Outcome outcome = await Command.Run(["prove", Scratch.Demo("quarry-hill"), "--plan", scratch["plan.json"]]);
        Assert.Contains("The survey changed after this plan was made.", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task APlanThatIsNotThereIsSaidSo()
    {
        using Scratch scratch = new();
        Command.Outcome outcome = await Command.Run(["prove", Scratch.Demo("quarry-hill"), "--plan", scratch["plan.json"]]);
        Assert.Equal(65, outcome.ExitCode);
        Assert.Contains("no such file", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AMisspeltCommandNamesTheNearest()
    {
        Command.Outcome outcome = await Command.Run(["porve"]);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("Nearest: prove", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AMisspeltOptionOfACommandNamesTheNearest()
    {
        Command.Outcome outcome = await Command.Run(["prove", "demo", "--pln", "x"]);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("Nearest: --plan", outcome.Error, StringComparison.Ordinal);
        Assert.Contains("Try: valvewright prove --help", outcome.Error, StringComparison.Ordinal);
    }
}
