using System.Text.Json;
using Valvewright.Files.Plans;

namespace Valvewright.Cli.Tests.Commands;

/// <summary>Programs that a site has: read, proven, drawn, made better with few keys, taken up again.</summary>
public sealed class FromReadingTests
{
    private const string East =
        "East verge: program A starts 10:00 pm, days Mon Wed Fri Sun, station 1 90 min, station 2 60 min. 100 percent";
    private const string West = "West verge: A start 11:30 pm, every day, station 1 20 min. 150 percent";

    private static string Site => Scratch.Demo("saguaro-lane");

    private static async Task<string[]> Read(Scratch scratch, string east = East)
    {
        await File.WriteAllTextAsync(scratch["east.txt"], east);
        await File.WriteAllTextAsync(scratch["west.txt"], West);
        return ["--from-reading", scratch["east.txt"], "--from-reading", scratch["west.txt"], "--from", "2026-04-01"];
    }

    [Fact]
    public async Task Few_settings_are_named_proven_and_written_and_the_former_plan_can_be_taken_up_again()
    {
        using Scratch scratch = new();
        string[] read = await Read(scratch);
        Command.Outcome made = await Command.Run(["plan", Site, .. read, "--changes", "2", "--out", scratch["out"]]);
        Assert.Equal(0, made.ExitCode);
        Assert.Contains("Programs as found", made.Output, StringComparison.Ordinal);
        Assert.Contains("Change 2 settings", made.Output, StringComparison.Ordinal);
        Assert.All(made.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
        SavedPlan now = PlanFiles.Read(scratch["out/plan.json"]).Saved!, former = PlanFiles.Read(scratch["out/former-plan.json"]).Saved!;
        Assert.Equal(150, former.Plan.For("West verge").Settings.PercentAdjust);
        Assert.NotEqual(former.Plan, now.Plan);

        Command.Outcome compared = await Command.Run(["prove", Site, "--plan", scratch["out/plan.json"], "--compare",
            scratch["out/former-plan.json"]]);
        Assert.Equal(0, compared.ExitCode);
        Assert.Contains("From the other plan to this one", compared.Output, StringComparison.Ordinal);
        Assert.Contains("the other plan", compared.Output, StringComparison.Ordinal);

        Command.Outcome again = await Command.Run(
            ["plan", Site, "--from-plan", scratch["out/former-plan.json"], "--changes", "0", "--from", "2026-04-01", "--out",
                scratch["out"]]);
        Assert.Equal(0, again.ExitCode);
        Assert.Equal(former.Plan, PlanFiles.Read(scratch["out/plan.json"]).Saved!.Plan);
        Assert.Equal(now.Plan, PlanFiles.Read(scratch["out/former-plan.json"]).Saved!.Plan);
    }

    [Fact]
    public async Task They_are_drawn_and_what_befalls_the_controller_is_followed()
    {
        using Scratch scratch = new();
        string[] read = await Read(scratch);
        string[] dates = [.. read[..4], "--from", "2026-07-01", "--to", "2026-07-05", "--controller", "East verge", "--json"];
        Command.Outcome drawn = await Command.Run(
            ["timeline", Site, .. dates, "--off", "2026-07-02..2026-07-03", "--percent", "2026-07-04,50", "--manual",
                "2026-07-04T10:00,1,10"]);
        Assert.Equal(0, drawn.ExitCode);
        using JsonDocument document = JsonDocument.Parse(drawn.Output);
        (string, int, long)[] runs = [.. document.RootElement.GetProperty("waterings").EnumerateArray().Select(w => (
            w.GetProperty("shown").GetString()!, w.GetProperty("station").GetInt32(), w.GetProperty("seconds").GetInt64()))];
        Assert.Equal(
            [
                ("2026-07-01T22:00:00", 1, 5400), ("2026-07-01T23:30:00", 2, 1800), ("2026-07-04T10:00:00", 1, 600),
                ("2026-07-05T22:00:00", 1, 2700), ("2026-07-05T22:45:00", 2, 1800),
            ], runs);
    }

    [Theory]
    [InlineData("East verge: A starts 10:00 pm, station 1 90 min", "the watering days of program A of East verge were not read")]
    [InlineData("East verge: A starts 10:00 pm, every 3 days, station 1 90 min", "on which dates the interval falls was not read")]
    [InlineData("A starts 10:00 pm, Mon, station 1 90 min", "it does not say which controller was read")]
    [InlineData("East verge: A starts 10:00 pm, Mon, station 1 90 min, quux", "quux")]
    public async Task What_was_not_read_or_is_doubtful_is_told_and_nothing_is_written(string east, string expected)
    {
        using Scratch scratch = new();
        Command.Outcome outcome = await Command.Run(["plan", Site, .. await Read(scratch, east), "--out", scratch["out"]]);
        Assert.Equal(65, outcome.ExitCode);
        Assert.Contains(expected, string.Join(' ', outcome.Error.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)),
            StringComparison.Ordinal);
        Assert.False(Directory.Exists(scratch["out"]));
    }

    [Fact]
    public async Task One_minute_a_week_in_July_is_not_nothing_wrong()
    {
        using Scratch scratch = new();
        await File.WriteAllTextAsync(scratch["west.txt"], "West verge: A start 11:30 pm, Mon, station 1 1 min; B none. 100 percent");
        Command.Outcome outcome = await Command.Run(["check", Site, scratch["west.txt"], "--alone", "--at", "2026-07-14T15:20"]);
        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains("of its use met; the goal is", outcome.Output.Replace("\n", " ", StringComparison.Ordinal),
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--hold", "2026-07-01,99", "no rain delay of this length")]
    [InlineData("--off", "2026-07-05..2026-07-01", "the end is not after the start")]
    [InlineData("--clock", "2026-07-05T10:00", "what the clock shows is missing")]
    [InlineData("--manual", "2026-07-05T10:00,77,5", "this number cannot be used")]
    [InlineData("--rain", "2026-07-05,5mm", "a rain sensor cannot be wired")]
    public async Task What_cannot_befall_a_controller_is_told(string option, string value, string expected)
    {
        using Scratch scratch = new();
        Command.Outcome outcome = await Command.Run(["timeline", Site, .. await Read(scratch), option, value]);
        Assert.Equal(65, outcome.ExitCode);
        Assert.Contains(expected, outcome.Error.Replace("\n    ", " ", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_plan_that_no_controller_can_hold_is_refused_by_every_command_that_follows_it()
    {
        using Scratch scratch = new();
        string[] read = await Read(scratch);
        Command.Outcome made = await Command.Run(["plan", Site, .. read, "--changes", "0", "--out", scratch["out"]]);
        Assert.Equal(0, made.ExitCode);
        string text = await File.ReadAllTextAsync(scratch["out/plan.json"]);
        string weekdays = text[text.IndexOf("\"days\": {", StringComparison.Ordinal)..];
        weekdays = weekdays[..(weekdays.IndexOf('}', StringComparison.Ordinal) + 1)];
        await File.WriteAllTextAsync(
            scratch["bad.json"], text.Replace(weekdays, "\"days\": { \"kind\": \"interval\", \"days\": 0, \"anchor\": \"2026-04-01\" }",
                StringComparison.Ordinal));
        foreach (string[] line in new[] { new[] { "timeline" }, ["check", scratch["west.txt"]], ["season"], ["card", "--text"] })
        {
            Command.Outcome outcome = await Command.Run([line[0], Site, .. line[1..], "--plan", scratch["bad.json"]]);
            Assert.True(outcome.ExitCode is 1 or 65, $"{line[0]}: {outcome.ExitCode} {outcome.Error}");
            Assert.DoesNotContain("defect", outcome.Error, StringComparison.Ordinal);
        }
    }
}
