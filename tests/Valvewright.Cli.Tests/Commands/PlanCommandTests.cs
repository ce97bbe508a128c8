using System.Text.Json;

namespace Valvewright.Cli.Tests.Commands;

/// <summary>The main job as a person runs it.</summary>
public class PlanCommandTests
{
    private const string From = "2026-04-01";

    [Fact]
    public async Task PlansProvesAndWritesTheSameEveryTime()
    {
        using Scratch scratch = new();
        Command.Outcome first = await Command.Run(["plan", Scratch.Demo("quarry-hill"), "--from", From, "--out", "out-1"], scratch.Folder);
        Assert.Equal("", first.Error);
        Assert.Equal(0, first.ExitCode);
        Assert.Contains("Plan passes. No rule is broken", first.Output, StringComparison.Ordinal);
        Assert.Contains("Assumptions (not in the survey)", first.Output, StringComparison.Ordinal);
        Assert.All(first.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
        Assert.DoesNotContain('\u001b', first.Output);

        // The verdict comes before everything else.
        Assert.True(first.Output.IndexOf("Plan passes", StringComparison.Ordinal) < first.Output
            .IndexOf("\nPrograms\n", StringComparison.Ordinal));

        Command.Outcome again = await Command.Run(["plan", Scratch.Demo("quarry-hill"), "--from", From, "--out", "out-2"], scratch.Folder);
        Assert.Equal(first.Output.Replace("out-1", "out-2", StringComparison.Ordinal), again.Output);
        string[] names = [.. Directory.GetFiles(scratch["out-1"]).Select(f => Path.GetFileName(f)!).Order(StringComparer.Ordinal)];
        Assert.Contains("plan.json", names);
        Assert.Equal(names, Directory.GetFiles(scratch["out-2"]).Select(f => Path.GetFileName(f)!).Order(StringComparer.Ordinal));
        Assert.All(names, n =>
            Assert.Equal(File.ReadAllBytes(Path.Combine(scratch["out-1"], n)), File.ReadAllBytes(Path.Combine(scratch["out-2"], n))));

        Command.Outcome proof = await Command.Run(["prove", Scratch.Demo("quarry-hill"), "--plan", scratch["out-1/plan.json"], "--json"]);
        Assert.Equal(0, proof.ExitCode);
        using JsonDocument document = JsonDocument.Parse(proof.Output);
        Assert.False(document.RootElement.GetProperty("surveyHasChanged").GetBoolean());
        Assert.True(document.RootElement.GetProperty("proof").GetProperty("verdict").GetProperty("passed").GetBoolean());
        using JsonDocument written = JsonDocument.Parse(await File.ReadAllTextAsync(scratch["out-1/proof.json"]));
        Assert.True(JsonElement.DeepEquals(written.RootElement, document.RootElement.GetProperty("proof")));
    }

    [Fact]
    public async Task ASiteThatCannotBeDoneIsExplainedAndNothingIsWritten()
    {
        using Scratch scratch = new();
        Command.Outcome outcome = await Command.Run(["plan", Scratch.Demo("thin-creek"), "--from", From, "--out", scratch["out"]]);
        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains("No plan exists", outcome.Output, StringComparison.Ordinal);
        Assert.All(outcome.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
        Assert.False(Directory.Exists(scratch["out"]));
    }

    [Fact]
    public async Task WhatIsWrongInTheSurveyIsLocatedAndNothingIsWritten()
    {
        using Scratch scratch = new();
        string site = scratch.ChangedDemo("quarry-hill", t => t.Replace("soil: loam\n", "siol: loam\n", StringComparison.Ordinal));
        Command.Outcome outcome = await Command.Run(["plan", site, "--out", scratch["out"]]);
        Assert.Equal(65, outcome.ExitCode);
        Assert.Empty(outcome.Output);
        Assert.Contains("site.yaml:", outcome.Error, StringComparison.Ordinal);
        Assert.Contains("nearest:  soil", outcome.Error, StringComparison.Ordinal);
        Assert.Contains("Nothing was written.", outcome.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(scratch["out"]));

        Command.Outcome json = await Command.Run(["plan", site, "--out", scratch["out"], "--json"]);
        using JsonDocument document = JsonDocument.Parse(json.Output);
        Assert.Equal(65, document.RootElement.GetProperty("exitCode").GetInt32());
        Assert.Equal("soil", document.RootElement.GetProperty("problems")[0].GetProperty("nearest").GetString());
    }

    [Fact]
    public async Task AResultThatCannotBeWrittenLeavesNothing()
    {
        using Scratch scratch = new();
        await File.WriteAllTextAsync(scratch["taken"], "a file in place of a folder");
        Command.Outcome outcome = await Command.Run(["plan", Scratch.Demo("quarry-hill"), "--from", From, "--out", scratch["taken"]]);
        Assert.Equal(73, outcome.ExitCode);
        Assert.Empty(outcome.Output);
        Assert.Equal([scratch["taken"]], Directory.GetFiles(scratch.Folder));
    }

    [Theory]
    [InlineData("2026-02-30")]
    [InlineData("tomorrow")]
    [InlineData("0001-01-01")]
    public async Task ADateThatIsNoneIsAUsageError(string date)
    {
        Command.Outcome outcome = await Command.Run(["plan", Scratch.Demo("quarry-hill"), "--from", date]);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("2026-04-01", outcome.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("no-such-folder")]
    [InlineData("")]
    public async Task ASiteThatIsNotThereIsSaidSo(string path)
    {
        using Scratch scratch = new();
        Command.Outcome outcome = await Command.Run(["plan", path.Length == 0 ? scratch.Folder : scratch[path]]);
        Assert.Equal(65, outcome.ExitCode);
        Assert.Empty(outcome.Output);
        Assert.DoesNotContain("   at ", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task CtrlCStopsItAndNothingIsWritten()
    {
        using Scratch scratch = new();
        Command.Outcome outcome = await Command
            .Interrupt(["plan", Scratch.Demo("millrace-trail"), "--out", scratch["out"], "--progress"], whenErrorSays: "Planning");
        Assert.Equal(130, outcome.ExitCode);
        Assert.Empty(outcome.Output);
        Assert.False(Directory.Exists(scratch["out"]));
    }
}
