using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Tests;

namespace Valvewright.Cli.Tests;

/// <summary>The card command, run as a person runs it.</summary>
public sealed class CardCommandTests : IDisposable
{
    private static readonly string Demo = Path.Combine(Checkout.Root, "demo", "quarry-hill");
    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-card-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Cards_are_written_and_told()
    {
        Site site = SurveyFiles.Read(Demo).Site!;
        string plan = Save(site, p => p);
        Command.Outcome told = await Command.Run(["card", Demo, "--plan", plan, "--out", folder, "--from", "2026-07-01"]);
        Assert.True(told.ExitCode == 0, told.Error);
        Assert.Equal("%PDF-"u8.ToArray(), (await File.ReadAllBytesAsync(Path.Combine(folder, "cards.pdf")))[..5]);
        Assert.Contains(site.Controllers[0].Name, told.Output, StringComparison.Ordinal);

        Command.Outcome json = await Command.Run(["card", Demo, "--plan", plan, "--text", "--json"]);
        using JsonDocument document = JsonDocument.Parse(json.Output);
        Assert.Equal(site.Controllers.Count, document.RootElement.GetProperty("cards").GetArrayLength());
        Assert.Equal(JsonValueKind.Null, document.RootElement.GetProperty("file").ValueKind);

        Command.Outcome text = await Command
            .Run(["card", Demo, "--plan", plan, "--text", "--language", "es", "--controller", site.Controllers[0].Name]);
        Assert.Contains("Programa A", text.Output, StringComparison.Ordinal);
        Assert.All(text.Output.Split('\n'), line => Assert.True(line.Length <= 80, line));
    }

    [Fact]
    public async Task What_cannot_be_keyed_in_gets_no_card()
    {
        Site site = SurveyFiles.Read(Demo).Site!;
        string plan = Save(site, p => p with { RunTimes = [new RunTime(1, 7)] });
        Command.Outcome told = await Command.Run(["card", Demo, "--plan", plan, "--out", Path.Combine(folder, "none")]);
        Assert.Equal(65, told.ExitCode);
        Assert.Contains("run time of 7 s", told.Error, StringComparison.Ordinal);
        Assert.Empty(told.Output);
        Assert.False(Directory.Exists(Path.Combine(folder, "none")));
    }

    [Fact]
    public async Task A_misspelt_controller_is_told_the_nearest()
    {
        Site site = SurveyFiles.Read(Demo).Site!;
        string name = site.Controllers[0].Name;
        Command.Outcome told = await Command.Run(["card", Demo, "--plan", Save(site, p => p), "--controller", name + "x"]);
        Assert.Equal(65, told.ExitCode);
        Assert.Contains($"nearest:  {name}", told.Error, StringComparison.Ordinal);
    }

    private string Save(Site site, Func<Program, Program> change)
    {
        Plan plan = new(site.Name, [.. site.Controllers.Select(c => new ControllerPlan(c.Name, new Settings([change(Simple(c))]), []))]);
        string file = Path.Combine(folder, "plan.json");
        File.WriteAllText(file, PlanFiles.Write(SavedPlan.Of(site, plan, new LocalDate(2026, 7, 1))));
        return file;
    }

    private static Program Simple(SiteController controller)
    {
        DayRule days = controller.Profile.DayRules[0] switch
        {
            DayRuleKind.Odd => new OddDays(),
            DayRuleKind.Even => new EvenDays(),
            DayRuleKind.Interval => new EveryNDays(2, new LocalDate(2026, 7, 2)),
            _ => new DaysOfWeek([IsoDayOfWeek.Monday, IsoDayOfWeek.Thursday]),
        };
        return new Program('A', [new LocalTime(4, 0)], [.. controller.Zones.Select(z => new RunTime(z.Station, 600))], days);
    }
}
