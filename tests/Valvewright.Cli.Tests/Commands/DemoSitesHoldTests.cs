using Valvewright.Tests;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace Valvewright.Cli.Tests.Commands;

/// <summary>Every demo site that can be done is planned, and the proof finds no broken rule and no zone that goes short.</summary>
public partial class DemoSitesHoldTests
{
    [Theory]
    [InlineData("claybank")]
    [InlineData("gulf-reserve")]
    [InlineData("millrace-trail")]
    [InlineData("polder-green")]
    [InlineData("ridge-allotments")]
    [InlineData("saguaro-lane")]
    public async Task ThePlanHolds(string demo)
    {
        using Scratch scratch = new();
        Command.Outcome outcome = await Command.Run(["plan", Scratch.Demo(demo), "--from", "2026-04-01", "--out", scratch["out"]]);
        Assert.Equal("", outcome.Error);
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains("Rules: none broken on any day", outcome.Output, StringComparison.Ordinal);
        Assert.All(outcome.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
        Assert.True(File.Exists(scratch["out/cards.pdf"]));

        // What is planned and proven is said in the site's own units alone; a weather file keeps its own.
        bool us = (await File.ReadAllTextAsync(Path.Combine(Scratch.Demo(demo), "site.yaml")))
            .Contains("units: us", StringComparison.OrdinalIgnoreCase);
        string result = outcome.Output[outcome.Output.IndexOf("\nPrograms\n", StringComparison.Ordinal)..];
        int weather = result.IndexOf("\nWeather\n", StringComparison.Ordinal);
        int after = result.IndexOf("\nAssumptions", StringComparison.Ordinal);
        Assert.InRange(after, weather, result.Length);
        Assert.DoesNotMatch(us ? MetricUnits() : UsUnits(), result.Remove(weather, after - weather));

        // A practitioner's plan from a monthly table takes more water (tests/Shared/PlansByHand).
        string byHand = Path.Combine(Checkout.Root, "tests", "Shared", "PlansByHand", $"{demo}.json");
        if (File.Exists(byHand))
        {
            Command.Outcome proven = await Command.Run(["prove", Scratch.Demo(demo), "--plan", byHand, "--json"]);
            using JsonDocument hand = JsonDocument.Parse(proven.Output);
            using JsonDocument own = JsonDocument.Parse(await File.ReadAllTextAsync(scratch["out/proof.json"]));
            Assert.InRange(WaterOf(own.RootElement), 1, WaterOf(hand.RootElement.GetProperty("proof")));
        }
    }

    private static double WaterOf(JsonElement proof) =>
        proof.GetProperty("comparison")[0].GetProperty("cubicMetresPerYear").GetDouble();

    [GeneratedRegex(@"\b(mm|m3|L/min)\b")]
    private static partial Regex MetricUnits();

    [GeneratedRegex(@"\b(gpm|gal)\b")]
    private static partial Regex UsUnits();
}
