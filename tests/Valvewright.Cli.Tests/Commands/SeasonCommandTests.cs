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

    private static string Plan(Scratch scratch)
    {
        Site site = QuarryHill.Value;
        ControllerPlan[] controllers =
        [
            .. site.Controllers.Select(c => new ControllerPlan(
                c.Name,
                new Settings(
                    [new Program('A', [new LocalTime(3, 0)], [.. c.Zones.Select(z => new RunTime(z.Station, 1800))], new DaysOfWeek(
                        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday, IsoDayOfWeek.Saturday]))]),
                [])),
        ];
        string file = scratch["plan.json"];
        File.WriteAllText(file, PlanFiles.Write(SavedPlan.Of(site, new Plan(site.Name, [.. controllers]), new LocalDate(2026, 4, 1))));
        return file;
    }

    [Fact]
    public async Task DatesAreFoundToldAndSavedWithThePlan()
    {
        using Scratch scratch = new();
        string plan = Plan(scratch);
        string[] arguments = ["season", Scratch.Demo("quarry-hill"), "--plan", plan, "--visits", "2", "--only-on", "mon,wed",
            "--first-week", "--agreed", "5-12", "--curve", "--out", scratch["out"]];
        Command.Outcome told = await Command.Run(arguments);
        Assert.Equal("", told.Error);
        Assert.Contains(told.ExitCode, new[] { 0, 1 });
        Assert.All(told.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
        Assert.Contains("How many visits?", told.Output, StringComparison.Ordinal);
        Assert.Contains("<- best value", told.Output, StringComparison.Ordinal);
        Assert.Contains("this plan, 2 visits", told.Output, StringComparison.Ordinal);
        Assert.Contains("this plan, one percent all season", told.Output, StringComparison.Ordinal);
        Assert.Contains("Cost (water plus weighted unmet use)", told.Output, StringComparison.Ordinal);

        foreach (string name in new[] { "proof.json", "cards.pdf", "season.json", "season.pdf", "season.svg", "season.png", "season.csv",
            "season-weeks.csv", "visits.ics" })
        {
            Assert.True(new FileInfo(scratch[$"out/{name}"]).Length > 0, name);
        }

        Plan saved = PlanFiles.Read(scratch["out/plan.json"]).Saved!.Plan;
        Visit[] visits = [.. saved.For("Terrace").Visits];
        Assert.Equal(2, visits.Length);
        Assert.Contains(visits, v => v.Date == new AnnualDate(5, 12));
        Assert.All(visits.Where(v => v.Date != new AnnualDate(5, 12)), v =>
            Assert.Contains(v.Date.InYear(2026).DayOfWeek, new[] { IsoDayOfWeek.Monday, IsoDayOfWeek.Wednesday }));
        Command.Outcome card = await Command
            .Run(["card", Scratch.Demo("quarry-hill"), "--plan", scratch["out/plan.json"], "--text", "--from", "2026-04-01"]);
        Assert.Contains("12 May", card.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AWinterShutdownOnFixedDatesIsKept()
    {
        using Scratch scratch = new();
        string plan = Plan(scratch);
        Command.Outcome told = await Command.Run(
            ["season", Scratch.Demo("quarry-hill"), "--plan", plan, "--visits", "2", "--winter-off", "11-15..3-1", "--out",
                scratch["out"]]);
        Assert.Equal("", told.Error);
        Visit[] visits = [.. PlanFiles.Read(scratch["out/plan.json"]).Saved!.Plan.For("Terrace").Visits];
        Assert.Equal(0, visits.Single(v => v.Date == new AnnualDate(11, 15)).Percent);
        Assert.Contains(visits, v => v.Date == new AnnualDate(3, 1) && v.Percent > 0);
        Assert.All(visits, v => Assert.True(v.Date >= new AnnualDate(3, 1) && v.Date <= new AnnualDate(11, 15)));

        Command.Outcome wrong = await Command
            .Run(["season", Scratch.Demo("quarry-hill"), "--plan", plan, "--winter-off", "november", "--most-water", "two"]);
        Assert.NotEqual(0, wrong.ExitCode);
        Assert.Contains("11-15..3-1", wrong.Error, StringComparison.Ordinal);
        Assert.Contains("500L", wrong.Error, StringComparison.Ordinal);
        Command.Outcome tooFew = await Command
            .Run(["season", Scratch.Demo("quarry-hill"), "--plan", plan, "--visits", "1", "--winter-off", "11-15..3-1"]);
        Assert.Contains("only 1 is to be made", tooFew.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TheAnswerAsJsonIsTheSameEveryTime()
    {
        using Scratch scratch = new();
        string plan = Plan(scratch);
        string[] arguments =
            ["season", Scratch.Demo("quarry-hill"), "--plan", plan, "--visits", "1", "--most-unmet", "8", "--out", "out", "--json"];
        Command.Outcome first = await Command.Run(arguments, scratch.Folder);
        Command.Outcome second = await Command.Run(arguments, scratch.Folder);
        Assert.Equal(first.Output, second.Output);
        using JsonDocument document = JsonDocument.Parse(first.Output);
        JsonElement season = document.RootElement.GetProperty("season");
        Assert.Equal(1, season.GetProperty("dates").GetArrayLength());

        // Under a limit of one's own there is no bound.
        Assert.Equal(JsonValueKind.Null, season.GetProperty("boundLitres").ValueKind);
        Assert.Equal("this plan, 1 visit", document.RootElement.GetProperty("proof").GetProperty("comparison")[0]
            .GetProperty("name").GetString());
    }

    [Fact]
    public async Task WithoutASavedPlanProgramsAndSeasonArePlannedTogether()
    {
        using Scratch scratch = new();
        Command.Outcome told = await Command
            .Run(["season", Scratch.Demo("polder-green"), "--together", "--from", "2026-04-01", "--visits", "3", "--out", scratch["out"]]);
        Assert.Equal("", told.Error);
        Assert.Contains(told.ExitCode, new[] { 0, 1 });
        Assert.All(told.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
        Assert.Equal(3, PlanFiles.Read(scratch["out/plan.json"]).Saved!.Plan.Controllers[0].Visits.Count);

        Command.Outcome advice = await Command
            .Run(["season", Scratch.Demo("polder-green"), "--together", "--today", "2026-06-14", "--so-far", "none.csv"]);
        Assert.Equal(65, advice.ExitCode);
        Assert.Contains("advice rests on a saved plan", advice.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(2, "--visits", "13", "expected 1 to 12")]
    [InlineData(2, "--most-unmet", "120", "below 100")]
    [InlineData(65, "--only-on", "mun", "nearest:  mon")]
    [InlineData(65, "--not-in", "8-1", "8-1..8-31")]
    [InlineData(65, "--agreed", "2-30", "month-day")]
    [InlineData(65, "--most-water", "40psi", "a volume of water")]
    [InlineData(65, "--agreed", "1-5,2-5,3-5,4-5,5-5", "5 visits are agreed")]
    public async Task AWishThatCannotBeMetIsSaidPlainlyAndNothingIsWritten(int code, string option, string value, string said)
    {
        using Scratch scratch = new();
        Command.Outcome told = await Command
            .Run(["season", Scratch.Demo("quarry-hill"), "--plan", Plan(scratch), option, value, "--out", scratch["out"]]);
        Assert.Equal(code, told.ExitCode);
        Assert.Contains(said, told.Error, StringComparison.Ordinal);
        Assert.Empty(told.Output);
        Assert.False(Directory.Exists(scratch["out"]));
    }

    [Fact]
    public async Task AdviceWithinTheYearIsGivenFromItsWeatherSoFar()
    {
        using Scratch scratch = new();
        string plan = WithVisits(scratch);
        string weather = ThisYear(scratch, 164);
        string[] ask = ["season", Scratch.Demo("quarry-hill"), "--plan", plan, "--today", "2026-06-14", "--so-far", weather];
        Command.Outcome told = await Command.Run([.. ask, "--percent", "Terrace=60"]);
        Assert.Equal("", told.Error);
        Assert.Equal(0, told.ExitCode);
        Assert.All(told.Output.Split('\n'), l => Assert.True(l.Length <= 80, l));
        Assert.Contains("60%", told.Output, StringComparison.Ordinal);
        Assert.Contains("Days left", told.Output, StringComparison.Ordinal);

        Command.Outcome json = await Command.Run([.. ask, "--json"]);
        using JsonDocument document = JsonDocument.Parse(json.Output);
        JsonElement advice = document.RootElement.GetProperty("advice");
        Assert.Equal(QuarryHill.Value.Controllers.Count, advice.GetArrayLength());
        Assert.Equal(50, advice[0].GetProperty("percentNow").GetInt32());
        Assert.Equal("2026-09-01", advice[0].GetProperty("nextVisit").GetString());
        Assert.Equal(164 * 2, document.RootElement.GetProperty("rainMm").GetDouble(), 6);
    }

    [Theory]
    [InlineData("--percent", "Terase=60", "nearest:  Terrace")]
    [InlineData("--percent", "Terrace=61", "can't be set to that")]
    [InlineData("--today", "2026-06-15", "days of this year are missing")]
    public async Task AdviceThatCannotBeGivenIsSaidPlainly(string option, string value, string said)
    {
        using Scratch scratch = new();
        string plan = WithVisits(scratch);
        string[] today = option == "--today" ? [] : ["--today", "2026-06-14"];
        Command.Outcome told = await Command
            .Run(["season", Scratch.Demo("quarry-hill"), "--plan", plan, .. today, "--so-far", ThisYear(scratch, 164), option, value]);
        Assert.Equal(65, told.ExitCode);
        Assert.Contains(said, told.Error, StringComparison.Ordinal);
    }

    private static string WithVisits(Scratch scratch)
    {
        SavedPlan saved = PlanFiles.Read(Plan(scratch)).Saved!;
        Visit[] visits = [new(new AnnualDate(3, 1), 50), new(new AnnualDate(9, 1), 0)];
        string file = scratch["visited.json"];
        File.WriteAllText(file,
            PlanFiles.Write(saved with
                { Plan = saved.Plan with { Controllers = [.. saved.Plan.Controllers.Select(c => c with { Visits = [.. visits] })] } }));
        return file;
    }

    /// <summary>Days from 1 January 2026 with 2 mm of rain each.</summary>
    private static string ThisYear(Scratch scratch, int days)
    {
        string file = scratch["this-year.csv"];
        File.WriteAllLines(file,
            ["date,eto_mm,rain_mm", .. Enumerable.Range(0, days).Select(d => $"{new LocalDate(2026, 1, 1).PlusDays(d):uuuu-MM-dd},3,2")]);
        return file;
    }
}
