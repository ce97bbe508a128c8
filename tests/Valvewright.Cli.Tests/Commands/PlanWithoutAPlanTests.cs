using System.Text.Json;

namespace Valvewright.Cli.Tests.Commands;

/// <summary>A site that cannot be done: said why, and what would free it.</summary>
public class PlanWithoutAPlanTests
{
    [Fact]
    public async Task ItSaysWhatStandsInTheWayAndWritesNothing()
    {
        using Scratch scratch = new();
        Command.Outcome outcome = await Command.Run(["plan", Scratch.Demo("thin-creek"), "--from", "2026-04-01", "--out", scratch["out"]]);
        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains("No plan exists", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("short by at least", outcome.Output.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Contains("more permitted hours on Well: from", outcome.Output, StringComparison.Ordinal);
        Assert.Matches(@"from \d+:\d\d am instead of 3:00 am",
            outcome.Output.ReplaceLineEndings(" ").Replace("   ", "", StringComparison.Ordinal));
        Assert.DoesNotContain("L/min", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("Nothing was written.", outcome.Output, StringComparison.Ordinal);
        Assert.All(outcome.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
        Assert.False(Directory.Exists(scratch["out"]));
    }

    [Fact]
    public async Task TheAnswerInJsonCarriesTheAdvice()
    {
        using Scratch scratch = new();
        Command.Outcome outcome = await Command
            .Run(["plan", Scratch.Demo("thin-creek"), "--from", "2026-04-01", "--out", scratch["out"], "--json"]);
        Assert.Equal(1, outcome.ExitCode);
        using JsonDocument answer = JsonDocument.Parse(outcome.Output);
        JsonElement obstacle = Assert.Single(answer.RootElement.GetProperty("obstacles").EnumerateArray());
        Assert.Equal("Well", obstacle.GetProperty("where").GetString());
        Assert.Contains(obstacle.GetProperty("advice").EnumerateArray(), a =>
            a.GetProperty("kind").GetString() == "moreHours" && a.GetProperty("minutes").GetInt32() > 0);
        Assert.Equal(JsonValueKind.Null, answer.RootElement.GetProperty("plan").ValueKind);
        Assert.False(Directory.Exists(scratch["out"]));
    }
}
