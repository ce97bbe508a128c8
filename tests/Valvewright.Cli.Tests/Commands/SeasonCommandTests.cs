using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;

namespace Valvewright.Cli.Tests.Commands;

/// <summary>The season command, run as a person runs it, on a saved plan with programs of round numbers.</summary>
public class SeasonCommandTests
{
    private static readonly Lazy<Site> QuarryHill = new(() => SurveyFiles.Read(Scratch.Demo("quarry-hill")).Site!);

    private static string SavedPlan(Scratch scratch)
    {
        Site site = QuarryHill.Value;
        ControllerPlan[] controllers =
        [
            .. site.Controllers.Select(c => new ControllerPlan(
                c.Name,
                new Settings([new Program('A', [new LocalTime(3, 0)], [.. c.Zones.Select(z => new RunTime(z.Station, 1800))], new DaysOfWeek([IsoDayOfWeek.Monday, IsoDayOfWeek.Thursday]))]),
                [])),
        ];
        string file = scratch["plan.json"];
        File.WriteAllText(file, PlanFiles.Write(Files.Plans.SavedPlan.Of(site, new Plan(site.Name, [.. controllers]), new LocalDate(2026, 4, 1))));
        return file;
    }

    [Fact]
    public async Task DatesAreFoundToldAndSavedWithThePlan()
    {
        using Scratch scratch = new();
        string plan = SavedPlan(scratch);
        string[] arguments = ["season", Scratch.Demo("quarry-hill"), "--plan", plan, "--visits", "2", "--only-on", "mon,wed", "--first-week", "--agreed", "5-12", "--curve", "--out", scratch["out"]];
        Command.Outcome told = await Command.Run(arguments);
        Assert.Equal("", told.Error);
        Assert.Contains(told.ExitCode, new[] { 0, 1 });
        Assert.All(told.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
        Assert.Contains("What a visit is worth", told.Output, StringComparison.Ordinal);
        Assert.Contains("<- the knee", told.Output, StringComparison.Ordinal);
        Assert.Contains("this plan, 2 visits", told.Output, StringComparison.Ordinal);
        Assert.Contains("this plan, one percent all season", told.Output, StringComparison.Ordinal);
        Assert.Contains("No season of as many visits", told.Output, StringComparison.Ordinal);

        Plan saved = PlanFiles.Read(scratch["out/plan.json"]).Saved!.Plan;
        Visit[] visits = [.. saved.For("Terrace").Visits];
        Assert.Equal(2, visits.Length);
        Assert.Contains(visits, v => v.Date == new AnnualDate(5, 12));
        Assert.All(visits.Where(v => v.Date != new AnnualDate(5, 12)), v => Assert.Contains(v.Date.InYear(2026).DayOfWeek, new[] { IsoDayOfWeek.Monday, IsoDayOfWeek.Wednesday }));
        Command.Outcome card = await Command.Run(["card", Scratch.Demo("quarry-hill"), "--plan", scratch["out/plan.json"], "--text", "--from", "2026-04-01"]);
        Assert.Contains("12 May", card.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TheAnswerAsJsonIsTheSameEveryTime()
    {
        using Scratch scratch = new();
        string plan = SavedPlan(scratch);
        string[] arguments = ["season", Scratch.Demo("quarry-hill"), "--plan", plan, "--visits", "1", "--most-stress", "3", "--out", "out", "--json"];
        Command.Outcome first = await Command.Run(arguments, scratch.Folder);
        Command.Outcome second = await Command.Run(arguments, scratch.Folder);
        Assert.Equal(first.Output, second.Output);
        using JsonDocument document = JsonDocument.Parse(first.Output);
        JsonElement season = document.RootElement.GetProperty("season");
        Assert.Equal(1, season.GetProperty("dates").GetArrayLength());
        Assert.True(season.GetProperty("boundLitres").GetDouble() <= season.GetProperty("costLitres").GetDouble() * (1 + 1e-9));
        Assert.Equal("this plan, 1 visit", document.RootElement.GetProperty("proof").GetProperty("comparison")[0].GetProperty("name").GetString());
    }

    [Theory]
    [InlineData(2, "--visits", "13", "expected 1 to 12")]
    [InlineData(2, "--aim", "best", "worst")]
    [InlineData(65, "--only-on", "mun", "nearest:  mon")]
    [InlineData(65, "--not-in", "8-1", "8-1..8-31")]
    [InlineData(65, "--agreed", "2-30", "month-day")]
    [InlineData(65, "--stress-weight", "40psi", "a depth above 0")]
    [InlineData(65, "--agreed", "1-5,2-5,3-5,4-5,5-5", "5 visits are agreed")]
    public async Task AWishThatCannotBeMetIsSaidPlainlyAndNothingIsWritten(int code, string option, string value, string said)
    {
        using Scratch scratch = new();
        Command.Outcome told = await Command.Run(["season", Scratch.Demo("quarry-hill"), "--plan", SavedPlan(scratch), option, value, "--out", scratch["out"]]);
        Assert.Equal(code, told.ExitCode);
        Assert.Contains(said, told.Error, StringComparison.Ordinal);
        Assert.Empty(told.Output);
        Assert.False(Directory.Exists(scratch["out"]));
    }
}
