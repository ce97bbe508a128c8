using System.Text.RegularExpressions;
using Microsoft.Playwright;
using UglyToad.PdfPig;
using UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor;
using Valvewright.Engine.Plans;
using Valvewright.Files.Plans;
using Valvewright.Page.Tests.Hosting;
using Valvewright.Tests;

namespace Valvewright.Page.Tests;

/// <summary>The whole way, by somebody who has nothing yet.</summary>
[Collection(OnStage.Name)]
public sealed partial class SurveyToCardTests(Stage stage)
{
    [Fact]
    public async Task From_a_survey_typed_from_nothing_to_a_printed_card()
    {
        await using Served served = await Served.Start();
        await using Visitor visitor = await stage.Visit(served);
        IPage page = visitor.Page;
        await visitor.Open("");
        await page.GetByRole(AriaRole.Link, new() { Name = "Survey a new site" }).ClickAsync();

        await Type(page, "Name of the site", "Heron Bank");
        await Type(page, "Latitude", "38.298");
        await Type(page, "Longitude", "48.847");
        await Type(page, "Elevation", "720 m");
        await Type(page, "Time zone", "Asia/Baku");
        await page.GetByLabel("Metric").CheckAsync();
        await page.GetByLabel("16:30").CheckAsync();
        await Next(page, "Water");
        await Type(page, "Name", "Tank");
        await Type(page, "The most it gives at once", "30 l/min");
        await Type(page, "Pressure with everything shut", "40 psi");
        await Next(page, "Controllers");
        await Type(page, "Name", "Gate");
        await page.GetByLabel("What it can hold").SelectOptionAsync("4 stations, 2 programs, 4 starts");
        await Next(page, "Zones");
        await page.GetByRole(AriaRole.Button, new() { Name = "Another zone" }).ClickAsync();
        await Type(page, "Name", "Lawn");
        await Type(page, "Station", "1");
        await Type(page, "Area that is watered", "50 m2");
        await page.GetByRole(AriaRole.Combobox, new() { Name = "Kind", Exact = true }).SelectOptionAsync(new SelectOptionValue { Label = "Cool-season turf" });
        await page.GetByRole(AriaRole.Combobox, new() { Name = "Texture" }).SelectOptionAsync(new SelectOptionValue { Label = "Loam" });
        await page.GetByText("Fixed fans of fine drops.").ClickAsync();
        await page.GetByLabel("The precipitation rate itself").CheckAsync();
        await Type(page, "Precipitation rate", "30 mm/h");
        await Next(page, "Weather");
        await page.GetByText("Of a station near by, or downloaded.").ClickAsync();
        await page.Locator("main input[type=file][accept*='.csv']").SetInputFilesAsync(Path.Combine(Checkout.Root, "reference", "weather", "nasapower_lankaran-hills.csv"));
        await page.GetByText("goes with the survey.").WaitForAsync();
        await page.Locator("main details", new() { HasText = "Latitude of the station" }).Locator("summary").ClickAsync();
        await Type(page, "Latitude of the station", "38.298");
        await Type(page, "Longitude of the station", "48.847");
        await Type(page, "Elevation of the station", "720 m");
        await Type(page, "Height of the wind gauge", "2 m");
        await Next(page, "Check and save");
        await page.GetByText("The survey can be saved.").WaitForAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).ClickAsync();
        await page.WaitForURLAsync("**/needs");
        await visitor.Settle();

        await page.GetByRole(AriaRole.Link, new() { Name = "Plan", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Make a plan" }).ClickAsync();
        // Made, or why not: whatever it comes to is said in the part about a new plan.
        await page.Locator("section .note.good, section .note.wrong").First.WaitForAsync(new() { Timeout = 240_000 });
        string made = await page.Locator("main").InnerTextAsync();
        Assert.True(made.Contains("The plan is made and kept.", StringComparison.Ordinal), made);
        await visitor.Settle();
        await page.GetByRole(AriaRole.Link, new() { Name = "Cards to key in from" }).ClickAsync();
        await page.Locator("article.card h1").WaitForAsync();
        await page.GetByText("VW1/").WaitForAsync();
        await visitor.Settle();
        string printed = TextOf(await page.PdfAsync(new PagePdfOptions { Format = "A4" }));
        visitor.MustNotComplain();

        // What the paper says is what the plan on the server says, read from the paper alone.
        Guid site = Guid.Parse(SiteId().Match(page.Url).Value);
        string plans = await served.Client.GetStringAsync($"api/sites/{site}/carry.json");
        SavedPlan saved = PlanFiles.Parse(System.Text.Json.JsonDocument.Parse(plans).RootElement.GetProperty("plans")[0].GetProperty("plan").GetRawText(), "plan").Saved!;
        ControllerPlan gate = Assert.Single(saved.Plan.Controllers);
        string bare = Regex.Replace(printed, @"\s+", " ");
        Assert.Contains("Gate", bare, StringComparison.Ordinal);
        foreach (Engine.Controllers.Program program in gate.Settings.Programs)
        {
            Assert.Contains($"Program {program.Letter}", bare, StringComparison.Ordinal);
            Assert.All(program.StartTimes, start => Assert.Contains(start.ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture), bare, StringComparison.Ordinal));
            Assert.All(program.RunTimes, run => Assert.Contains($"{run.Seconds / 3600} h {run.Seconds % 3600 / 60:00} min", bare, StringComparison.Ordinal));
        }
    }

    private static string TextOf(byte[] pdf)
    {
        using PdfDocument document = PdfDocument.Open(pdf);
        return string.Join('\n', document.GetPages().Select(p => ContentOrderTextExtractor.GetText(p)));
    }

    private static async Task Type(IPage page, string label, string text)
    {
        await page.Locator("main").GetByLabel(label, new() { Exact = true }).FillAsync(text);
        await page.Keyboard.PressAsync("Tab");
    }

    private static Task Next(IPage page, string step) => page.GetByRole(AriaRole.Button, new() { Name = $"Next: {step}" }).ClickAsync();

    [GeneratedRegex("(?<=sites/)[0-9a-f-]{36}")]
    private static partial Regex SiteId();
}
