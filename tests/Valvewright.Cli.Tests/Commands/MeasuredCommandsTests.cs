using System.Text.Json;

namespace Valvewright.Cli.Tests.Commands;

public class MeasuredCommandsTests
{
    private static readonly string QuarryHill = Scratch.Demo("quarry-hill");
    private static readonly string Measured = File.ReadAllText(Path.Combine(QuarryHill, "measured.yaml"));

    [Fact]
    public async Task Pressure_says_what_is_left_at_each_zone_and_the_largest_flow()
    {
        Command.Outcome outcome = await Command.Run(["pressure", QuarryHill]);
        Assert.Contains("Largest flow of the supply", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("! Close the isolation valve", outcome.Output, StringComparison.Ordinal);
        Assert.All(outcome.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
    }

    /// <summary>Half the flow test: the limit that the next plan keeps to is what was measured, and only that line of the site file
    /// changes.</summary>
    [Fact]
    public async Task The_largest_flow_becomes_the_limit_that_plans_keep_to()
    {
        using Scratch scratch = new();
        string site = scratch.ChangedDemo("quarry-hill", text => text);
        string before = await File.ReadAllTextAsync(site);
        await File.WriteAllTextAsync(
            scratch["measured.yaml"], Measured.Replace("      - { flow: 24 L/min, pressure: 238 kPa }\n",
                "      - { flow: 21.06 L/min, pressure: 244 kPa }\n", StringComparison.Ordinal));
        Command.Outcome outcome = await Command.Run(["pressure", site, "--apply"]);
        Assert.Contains("is now 21.0 L/min", outcome.Output.ReplaceLineEndings(" ").Replace("   ", " ", StringComparison.Ordinal),
            StringComparison.Ordinal);
        Assert.Equal(before.Replace("flow: 24 L/min", "flow: 21 L/min", StringComparison.Ordinal), await File.ReadAllTextAsync(site));
    }

    [Fact]
    public async Task An_audit_gives_figures_interval_and_picture()
    {
        using Scratch scratch = new();
        Command.Outcome outcome = await Command.Run(["audit", QuarryHill, "--no-plan", "--svg", scratch["pattern"], "--json"]);
        Assert.Equal(0, outcome.ExitCode);
        using JsonDocument answer = JsonDocument.Parse(outcome.Output);
        JsonElement audit = Assert.Single(answer.RootElement.GetProperty("audits").EnumerateArray());
        JsonElement interval = audit.GetProperty("confidence").GetProperty("lowQuarterUniformity");

        // By hand: the lowest six of the 24 cans are 10 11 12 13 16 17, mean 13.17, over 21.75.
        Assert.InRange(13.1667 / 21.75, interval.GetProperty("low").GetDouble(), interval.GetProperty("high").GetDouble());
        Assert.Contains("<svg", await File.ReadAllTextAsync(scratch["pattern-gate-2.svg"]), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("audit", "opening: 90 cm2", "opening: 40 cm2", "More water in the cans than fell")]
    [InlineData("pressure", "flow: 15 L/min, pressure: 262 kPa", "flow: 15 L/min, pressure: 299 kPa", "loses pressure with flow")]
    public async Task Doubtful_readings_stop_until_they_are_confirmed_and_are_marked_then(
        string command, string good, string bad, string why)
    {
        using Scratch scratch = new();
        string file = scratch["measured.yaml"];
        string[] arguments = [command, QuarryHill, "--measured", file, .. command == "audit" ? new[] { "--no-plan" } : []];
        string doubtful = Measured.Replace(good, bad, StringComparison.Ordinal);
        await File.WriteAllTextAsync(file, doubtful);
        Command.Outcome outcome = await Command.Run(arguments);
        Assert.Equal(65, outcome.ExitCode);
        Assert.Empty(outcome.Output);
        Assert.Contains("confirmed: yes", outcome.Error, StringComparison.Ordinal);

        await File.WriteAllTextAsync(file, doubtful
            .Replace("    minutes: 15", "    confirmed: yes\n    minutes: 15", StringComparison.Ordinal)
            .Replace("    flow test:", "    confirmed: yes\n    flow test:", StringComparison.Ordinal));
        outcome = await Command.Run(arguments);
        Assert.Contains("DOUBTFUL, confirmed", outcome.Output, StringComparison.Ordinal);
        Assert.Contains(why, outcome.Output.ReplaceLineEndings(" ").Replace("  ", " ", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Cautions_come_in_Spanish_too()
    {
        Command.Outcome outcome = await Command.Run(["audit", QuarryHill, "--no-plan", "--language", "es"]);
        Assert.Contains("Cerca del tránsito", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_budget_needs_no_plan()
    {
        Command.Outcome outcome = await Command.Run(["budget", Scratch.Demo("saguaro-lane"), "--use", "residential", "--json"]);
        using JsonDocument answer = JsonDocument.Parse(outcome.Output);
        double eto = answer.RootElement.GetProperty("etoMm").GetDouble();
        double area = answer.RootElement.GetProperty("areaM2").GetDouble();

        // MAWA = ETo x 0.62 x ETAF x area in gallons, inches and square feet.
        double gallons = eto / 25.4 * 0.62 * 0.55 * area / (0.3048 * 0.3048);
        Assert.Equal(gallons * 3.785411784, answer.RootElement.GetProperty("mawaL").GetDouble(), gallons * 1e-6);
        Assert.Equal(outcome.ExitCode == 0, answer.RootElement.GetProperty("etwuL").GetDouble() <= answer.RootElement
            .GetProperty("mawaL").GetDouble());
    }
}
