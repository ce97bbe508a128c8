using System.Text.Json;
using Valvewright.Tests;

namespace Valvewright.Cli.Tests.Commands;

public class CheckCommandTests
{
    private const string At = "2026-07-14T15:20";

    private static string Plan(string site) => Path.Combine(Checkout.Root, "tests", "Shared", "Slips", "Plans", site + ".json");

    private static async Task<Command.Outcome> Check(string site, string? reading, params string[] options)
    {
        using Scratch scratch = new();
        List<string> arguments = ["check", Scratch.Demo(site)];
        if (reading is not null)
        {
            await File.WriteAllTextAsync(scratch["reading.txt"], reading);
            arguments.Add(scratch["reading.txt"]);
        }

        return await Command.Run([.. arguments, "--at", At, .. options]);
    }

    /// <summary>A caller reads four starts, ten minutes apart, for four stations of ten minutes.</summary>
    [Fact]
    public async Task TheClassicIsNamedAtOnce()
    {
        Command.Outcome outcome = await Check("claybank", "starts 5:00 5:10 5:20 5:30, daily, stations 1-4=10", "--alone");
        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains("1. Program A has 4 start times for 4 stations", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("Fix: Program A: clear the start time 05:30.", outcome.Output, StringComparison.Ordinal);
        Assert.All(outcome.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
    }

    [Fact]
    public async Task DoubtsComeBeforeFindings()
    {
        Command.Outcome outcome = await Check(
            "saguaro-lane", "A: starts 1:00; evry 12 days; off", "--controller", "East verge", "--plan", Plan("saguaro-lane"));
        int doubts = outcome.Output.IndexOf("Unclear in the reading", StringComparison.Ordinal),
            findings = outcome.Output.IndexOf("problem", StringComparison.Ordinal);
        Assert.InRange(doubts, 0, findings);
        Assert.Contains("every", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatIsAsPlannedEndsWithZeroAndAsksTheNextQuestion()
    {
        Command.Outcome outcome = await Check("polder-green", "on; A: even", "--plan", Plan("polder-green"));
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains("No problems found", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("Which start times does program A show", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatWasSeenIsExplained()
    {
        Command.Outcome outcome = await Check("polder-green", null, "--plan", Plan("polder-green"), "--seen", "station 2 never comes on");
        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains("1. Station 2 is in no program that runs", outcome.Output, StringComparison.Ordinal);
        Assert.All(outcome.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
    }

    [Fact]
    public async Task JsonHoldsTheFindingsAndTheKeys()
    {
        Command.Outcome outcome = await Check("polder-green", "off; A: odd", "--plan", Plan("polder-green"), "--json");
        using JsonDocument answer = JsonDocument.Parse(outcome.Output);
        JsonElement findings = answer.RootElement.GetProperty("check").GetProperty("findings");
        Assert.Contains(findings.EnumerateArray(), f =>
            f.GetProperty("kind").GetString() == "offLeftOn" && f.GetProperty("mend")[0].GetProperty("key").GetString() == "onOrOff");
    }

    [Fact]
    public async Task AYamlReadingWithAMistakeIsRefusedAtItsPlace()
    {
        using Scratch scratch = new();
        await File.WriteAllTextAsync(scratch["reading.yaml"], "off: no\nprograms:\n  - letter: A\n    days: evn\n");
        Command.Outcome outcome = await Command.Run(["check", Scratch.Demo("polder-green"), scratch["reading.yaml"], "--alone"]);
        Assert.Equal(65, outcome.ExitCode);
        Assert.Contains("reading.yaml:4:11", outcome.Error.ReplaceLineEndings("").Replace(" ", "", StringComparison.Ordinal),
            StringComparison.Ordinal);
        Assert.Contains("nearest:  even", outcome.Error, StringComparison.Ordinal);
    }

    /// <summary>All of it: headings, doubts, what is wrong, what was seen; on a site with 12-hour times.</summary>
    [Fact]
    public async Task InSpanish()
    {
        Command.Outcome outcome = await Check(
            "saguaro-lane", "apagado; A: inicio 5:00; xyzzy", "--controller", "East verge", "--plan", Plan("saguaro-lane"), "--language",
                "es", "--seen", "regó a las 3:30 pm el martes");
        foreach (string said in new[] { "hora local", "3:20 pm", "Dudoso en la lectura", "No se entendió", "Entendido", "problema",
            "Está apagado", "Síntomas", "regó a las 3:30 pm el último mar", "Pregunte ahora" })
        {
            Assert.Contains(said, outcome.Output, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("Fix:", outcome.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("Understood", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ALargeClockErrorIsToldInDaysAndHours()
    {
        Command.Outcome outcome = await Check("polder-green", "clock 2026-07-11 09:20", "--plan", Plan("polder-green"));
        Assert.Contains("3 days", outcome.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("min behind", outcome.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Gaet", "Gate")]
    public async Task AMisspeltControllerNamesTheNearest(string typed, string nearest)
    {
        Command.Outcome outcome = await Check("quarry-hill", "off", "--controller", typed, "--alone");
        Assert.Equal(65, outcome.ExitCode);
        Assert.Contains($"nearest:  {nearest}", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WithoutAControllerItAsksWhich()
    {
        Command.Outcome outcome = await Check("quarry-hill", "off", "--alone");
        Assert.Equal(65, outcome.ExitCode);
        Assert.Contains("one of: Gate, Terrace", outcome.Error, StringComparison.Ordinal);
    }
}
