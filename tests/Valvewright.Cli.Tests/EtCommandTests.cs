using System.Text.Json;
using Valvewright.Tests;

namespace Valvewright.Cli.Tests;

public class EtCommandTests
{
    private static readonly string Maricopa = Path.Combine(Checkout.Root, "reference", "weather", "azmet_06_maricopa.csv");
    private static readonly string[] June =
        ["et", Maricopa, "--place", "33.07,-111.97,361", "--wind-height", "3", "--from", "2020-06-01", "--to", "2020-06-30"];

    [Fact]
    public async Task DaysMonthsAndMethodsFitEightyColumns()
    {
        Command.Outcome outcome = await Command.Run(June);
        Assert.Equal(0, outcome.ExitCode);
        Assert.Empty(outcome.Error);
        Assert.Contains("PM, vap from dew point, Rs measured, wind measured", outcome.Output, StringComparison.Ordinal);
        Assert.All(outcome.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
    }

    /// <summary>June 2020 at Maricopa: the station's own ETo column, summed from the file, within 2 % (published to 0.1 mm a
    /// day).</summary>
    [Fact]
    public async Task TheMonthsSumAgreesWithTheAgencys()
    {
        double published = File.ReadLines(Maricopa).Where(l => l.StartsWith("2020-06", StringComparison.Ordinal))
            .Sum(l => double.Parse(l.Split(',')[11]));
        Command.Outcome outcome = await Command.Run([.. June, "--json"]);
        using JsonDocument answer = JsonDocument.Parse(outcome.Output);
        JsonElement month = Assert.Single(answer.RootElement.GetProperty("months").EnumerateArray());
        Assert.Equal(30, month.GetProperty("days").GetInt32());
        Assert.Equal(30, answer.RootElement.GetProperty("days").GetArrayLength());
        Assert.InRange(month.GetProperty("etoMm").GetDouble(), published * 0.98, published * 1.02);
    }

    [Theory]
    [InlineData(65, "no such file", "nowhere.csv")]
    [InlineData(65, "a folder, not a file", ".")]
    [InlineData(65, "nothing to read")]
    [InlineData(65, "swapped", "nowhere.csv", "--place", "-111.97,33.07,361")]
    [InlineData(65, "nearest:  nasa-power", "--fetch", "nasa-powr", "--place", "33,-111,361")]
    [InlineData(2, "is not a date", "nowhere.csv", "--from", "06/01/2020")]
    public async Task WhatMakesNoSenseIsToldWithAnExitCode(int code, string told, params string[] arguments)
    {
        Command.Outcome outcome = await Command.Run(["et", .. arguments]);
        Assert.Equal(code, outcome.ExitCode);
        Assert.Empty(outcome.Output);
        Assert.Contains(told, outcome.Error, StringComparison.Ordinal);
    }
}
