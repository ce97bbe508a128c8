using System.Text.Json;
using Valvewright.Tests;

namespace Valvewright.Cli.Tests.Commands;

public class TraceCommandTests
{
    private const string At = "2026-07-14T15:20";

    private static string Plan => Path.Combine(Checkout.Root, "tests", "Shared", "Slips", "Plans", "quarry-hill.json");

    private static Task<Command.Outcome> Trace(params string[] options) =>
        Command.Run(["trace", Scratch.Demo("quarry-hill"), "--controller", "Gate", "--at", At, .. options]);

    [Fact]
    public async Task Answers_as_arguments_lead_to_the_cause_with_its_caution_and_what_to_verify()
    {
        Command.Outcome outcome = await Trace(
            "--complaint", "station 2 never comes on", "--plan", Plan, "--answer", "by hand: nothing", "--answer", "click: none",
                "--answer", "lately: storm",
            "--answer", "loop ohms: OL", "--answer", "coil ohms: 9 M");
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains("Found: The coil is open", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("Close the isolation valve", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("station 2 should run", outcome.Output, StringComparison.Ordinal);
        Assert.All(outcome.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
    }

    [Fact]
    public async Task A_trace_is_put_aside_and_taken_up_again_by_another_person()
    {
        using Scratch scratch = new();
        Command.Outcome first = await Trace(
            "--complaint", "nothing comes on", "--state", scratch["call.json"], "--by", "Ana", "--answer", "by hand: nothing");
        Command.Outcome second = await Command.Run(
            ["trace", Scratch.Demo("quarry-hill"), "--state", scratch["call.json"], "--at", At, "--answer", "settings: as on the card",
                "--by", "Ben", "--json"]);
        Assert.Equal("", first.Error);
        using JsonDocument answer = JsonDocument.Parse(second.Output);
        string?[] by = [.. answer.RootElement.GetProperty("trace").GetProperty("answers").EnumerateArray()
            .Select(a => a.GetProperty("by").GetString())];
        Assert.Contains("Ana", by);
        Assert.Contains("Ben", by);
    }

    [Fact]
    public async Task On_the_phone_only_what_a_caller_can_do_is_asked_and_the_visit_is_told_what_to_bring()
    {
        using Scratch scratch = new();
        await File.WriteAllTextAsync(scratch["answers.txt"], "by hand: nothing\nother stations: runs\nsettings: as on the card\nclick: " +
            "none\nbox: tidy\nhousing: dry\nlately: nothing\nshut-offs: open\nbattery age: this season\n");
        Command.Outcome outcome = await Trace(
            "--complaint", "never on", "--station", "2", "--phone", "--answers", scratch["answers.txt"], "--json");
        using JsonDocument answer = JsonDocument.Parse(outcome.Output);
        JsonElement view = answer.RootElement.GetProperty("view");
        string? next = view.GetProperty("next") is { ValueKind: JsonValueKind.Object } asked ? asked.GetProperty("step").GetString() : null;
        Assert.False(next is "loop ohms" or "coil ohms" or "pulse" or "dig", next);
        Assert.True(next is not null || view.GetProperty("onSite").GetArrayLength() > 0);
    }

    [Theory]
    [InlineData("clack: none", "click")]
    [InlineData("click: nune", "none")]
    public async Task A_wrong_answer_is_told_with_the_nearest_word(string answer, string nearest)
    {
        Command.Outcome outcome = await Trace("--complaint", "never on", "--station", "2", "--answer", answer);
        Assert.Equal(65, outcome.ExitCode);
        Assert.Contains(nearest, outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task It_speaks_Spanish()
    {
        Command.Outcome outcome = await Trace("--complaint", "no riega nada", "--language", "es", "--answer", "by hand: nothing");
        Assert.Contains("Siguiente", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("No riega ninguna estación", outcome.Output, StringComparison.Ordinal);
    }
}
