using System.Text.Json;

namespace Valvewright.Cli.Tests.Commands;

/// <summary>Questions about a saved plan, as a person asks them.</summary>
public class TimelineCommandTests
{
    [Fact]
    public async Task It_answers_what_runs_when_and_how_much_water_it_takes()
    {
        using Scratch scratch = new();
        string site = Scratch.Demo("quarry-hill");
        Command.Outcome planned = await Command.Run(["plan", site, "--from", "2026-04-01", "--out", scratch["out"]]);
        Assert.Equal(0, planned.ExitCode);
        string[] saved = ["timeline", site, "--plan", scratch["out/plan.json"]];

        Command.Outcome day = await Command.Run([.. saved, "--on", "2026-08-01"]);
        Assert.Equal("", day.Error);
        Assert.Equal(0, day.ExitCode);
        Assert.Contains("Sat 1 Aug 2026", day.Output, StringComparison.Ordinal);
        Assert.All(day.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));

        Command.Outcome json = await Command.Run([.. saved, "--on", "2026-08-01", "--json"]);
        using JsonDocument document = JsonDocument.Parse(json.Output);
        JsonElement[] waterings = [.. document.RootElement.GetProperty("waterings").EnumerateArray()];
        Assert.NotEmpty(waterings);
        Assert.All(waterings, w => Assert.True(w.GetProperty("litres").GetDouble() > 0));

        // The first run of a station in the day's timeline is the answer to "when does it run next".
        JsonElement first = waterings.First(w => !w.GetProperty("carriedIn").GetBoolean());
        Command.Outcome next = await Command.Run(
            [.. saved, "--from", "2026-08-01", "--next-station", first.GetProperty("station").GetRawText(), "--controller",
                first.GetProperty("controller").GetString()!, "--json"]);
        using JsonDocument answer = JsonDocument.Parse(next.Output);
        Assert.Equal(first.GetProperty("opens").GetString(), answer.RootElement[0].GetProperty("opens").GetString());

        Command.Outcome water = await Command.Run([.. saved, "--water-in", "2026-07"]);
        Assert.Contains("Jul 2026", water.Output, StringComparison.Ordinal);

        Command.Outcome files = await Command.Run(
            [.. saved, "--from", "2026-01-01", "--to", "2026-12-31", "--calendar", scratch["a.ics"], "--csv", scratch["a.csv"]]);
        Assert.Equal(0, files.ExitCode);
        Assert.StartsWith("BEGIN:VCALENDAR\r\n", await File.ReadAllTextAsync(scratch["a.ics"]), StringComparison.Ordinal);
        Command.Outcome drawn = await Command.Run([.. saved, "--on", "2026-08-01", "--svg", scratch["a.svg"], "--png", scratch["a.png"]]);
        Assert.Equal(0, drawn.ExitCode);
        Assert.EndsWith("</svg>\n", await File.ReadAllTextAsync(scratch["a.svg"]), StringComparison.Ordinal);
        Assert.Equal([0x89, 0x50, 0x4E, 0x47], (await File.ReadAllBytesAsync(scratch["a.png"]))[..4]);
        Assert.StartsWith("controller,station,", await File.ReadAllTextAsync(scratch["a.csv"]), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--water-in", "July", "not a month")]
    [InlineData("--next-station", "77", "unknown station")]
    [InlineData("--controller", "Nowhere", "the site has no controller of this name")]
    [InlineData("--to", "2020-01-01", "the dates do not follow each other")]
    public async Task What_cannot_be_asked_is_explained(string option, string value, string expected)
    {
        using Scratch scratch = new();
        string plan = scratch["plan.json"];
        await File.WriteAllTextAsync(plan, """{"version":1,"survey":"","from":"2026-04-01","plan":{"site":"x","controllers":[]}}""");
        Command.Outcome outcome = await Command.Run(["timeline", Scratch.Demo("quarry-hill"), "--plan", plan, option, value]);
        Assert.Equal(65, outcome.ExitCode);
        Assert.Contains(expected, outcome.Error, StringComparison.Ordinal);
        Assert.Empty(outcome.Output);
    }
}
