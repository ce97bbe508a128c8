using System.Text.RegularExpressions;
using Microsoft.Playwright;
using NodaTime;
using UglyToad.PdfPig;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Files.Tests.Cards;
using Valvewright.Files.Texts;
using Valvewright.Page.Tests.Hosting;
using Valvewright.Tests;
using KeyedProgram = Valvewright.Engine.Controllers.Program;

namespace Valvewright.Page.Tests;

/// <summary>The whole way, by somebody who has nothing yet: from an empty survey to a card on paper.</summary>
[Collection(AtWork.Name)]
public sealed partial class SurveyToCardTests(Stage stage)
{
    private const int Visits = 4;
    private const int LongestPlanningMs = 300_000;

    [Fact]
    public async Task From_a_survey_typed_from_nothing_to_a_printed_card()
    {
        await using Served served = await Served.Start();
        await using Visitor visitor = await stage.Visit(served);
        IPage page = visitor.Page;
        await Survey(visitor);
        await Needs(visitor);
        await Plan(visitor);

        await page.GetByRole(AriaRole.Link, new() { Name = "See the proof" }).ClickAsync();
        await page.WaitForURLAsync("**/proof*");
        await page.GetByRole(AriaRole.Heading, new() { Name = "Lawn" })
            .Or(page.GetByRole(AriaRole.Rowheader, new() { Name = "Lawn" })).First.WaitForAsync();
        await visitor.Settle();

        await page.Locator("nav.way").GetByRole(AriaRole.Link, new() { Name = "Cards", Exact = true }).ClickAsync();
        await page.Locator("article.card h1", new() { HasText = "Gate" }).WaitForAsync();
        // In summer everything is watered: at other times a visit may have emptied a program.
        string summer = $"{DateTime.UtcNow.Year + 1}-07-15";
        await page.Locator("#card-from").FillAsync(summer);
        await page.WaitForURLAsync($"**from={summer}*");
        await page.GetByText("VW1/").WaitForAsync();
        await visitor.Settle();
        CardOnScreen screen = await CardOnScreen.Read(page);

        string pdf = (await page.GetByRole(AriaRole.Link, new() { NameRegex = A4InEnglish() }).GetAttributeAsync("href"))!;
        IAPIResponse answer = await page.APIRequest.GetAsync(new Uri(served.Address, pdf).ToString());
        Assert.Equal((200, "application/pdf"), (answer.Status, answer.Headers["content-type"]));
        using PdfDocument document = PdfDocument.Open(await answer.BodyAsync());
        CardPage paper = new(Assert.Single(document.GetPages()), Language.English, ClockStyle.Hours24);
        MustAgree(screen, paper);
        visitor.MustNotComplain();
    }

    /// <summary>Every step of the survey, with units as people say them, and a weather file that does not say where it was
    /// measured.</summary>
    private static async Task Survey(Visitor visitor)
    {
        IPage page = visitor.Page;
        await visitor.Open("");
        await page.GetByRole(AriaRole.Link, new() { Name = "New site" }).ClickAsync();
        await Type(page, "Site name", "Heron Bank");
        await Type(page, "Latitude", "38.298");
        await Type(page, "Longitude", "48.847");
        await Type(page, "Elevation", "720 m");
        await Type(page, "Time zone", "Asia/Baku");
        await page.GetByLabel("Metric").CheckAsync();
        await page.GetByLabel("Times", new() { Exact = true }).SelectOptionAsync(new SelectOptionValue { Label = "16:30" });
        await Next(page, "Water");
        await Type(page, "Name", "Tank");
        await Type(page, "Flow limit", "30 l/min");
        await Type(page, "Static pressure", "40 psi");
        await Next(page, "Controllers");
        await Type(page, "Name", "Gate");
        Profile small = GenericProfiles.All.First(p => p is { Stations: 4, Programs: 2 });
        await page.GetByLabel("Profile").SelectOptionAsync(small.Name);
        await Next(page, "Zones");
        await Zone(page, "Lawn", "1", "50 m2", "Cool-season turf", "30 mm/h");
        await Zone(page, "Hedge", "2", "400 sq ft", "Shrubs", "20 mm/h");
        await Next(page, "Weather");
        await page.GetByText("From a nearby station, or downloaded.").ClickAsync();
        await page.Locator("main input[type=file][accept*='.csv']").SetInputFilesAsync(
            Path.Combine(Checkout.Root, "reference", "weather", "nasapower_lankaran-hills.csv"));
        await page.GetByText("is sent with the survey.").WaitForAsync();
        // The file does not say how high its wind was measured: that is asked for before anything is sent.
        await Next(page, "Check and save");
        await page.GetByText("The weather file cannot be used yet.").WaitForAsync();
        await page.GetByRole(AriaRole.Alert).GetByRole(AriaRole.Button, new() { Name = "Weather" }).ClickAsync();
        await Type(page, "Wind gauge height", "2 m");
        await Next(page, "Check and save");
        await page.GetByText("Ready to save.").WaitForAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).ClickAsync();
        await page.WaitForURLAsync("**/needs");
        await visitor.Settle();
    }

    private static async Task Zone(IPage page, string name, string station, string area, string plants, string rate)
    {
        await page.GetByRole(AriaRole.Button, new() { Name = "Add zone" }).ClickAsync();
        ILocator zone = page.Locator("#zone");
        await Expect(zone.GetByLabel("Station", new() { Exact = true }), station);
        await Type(zone, "Name", name);
        await Type(zone, "Irrigated area", area);
        await zone.GetByRole(AriaRole.Combobox, new() { Name = "Kind", Exact = true }).SelectOptionAsync(
            new SelectOptionValue { Label = plants });
        await zone.GetByLabel("Texture").SelectOptionAsync(new SelectOptionValue { Label = "Loam" });
        await zone.GetByText("Fixed fans of fine drops.").ClickAsync();
        await zone.GetByLabel("The rate itself").CheckAsync();
        await Type(zone, "Precipitation rate", rate);
    }

    private static async Task Needs(Visitor visitor)
    {
        await visitor.Sees("the weather file does not give the station's place or elevation");
        foreach (string zone in (string[])["Lawn", "Hedge"])
        {
            ILocator row = visitor.Page
                .Locator("main table tr", new() { Has = visitor.Page.GetByRole(AriaRole.Rowheader, new() { Name = zone }) });
            Assert.Matches(@"\d mm.*every \d+ days", await row.First.InnerTextAsync());
        }
    }

    private static async Task Plan(Visitor visitor)
    {
        IPage page = visitor.Page;
        await page.Locator("nav.way").GetByRole(AriaRole.Link, new() { Name = "Plan", Exact = true }).ClickAsync();
        await page.GetByText("No plan for this site yet.").WaitForAsync();
        await Expect(page.GetByLabel("Visits per year"), $"{Visits}");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make plan" }).ClickAsync();
        // Made, or why not: whatever it comes to is said in the part about a new plan.
        await page.Locator("section .note.good, section .note.wrong").First.WaitForAsync(new() { Timeout = LongestPlanningMs });
        await visitor.Settle();
        string made = await page.Locator("main").InnerTextAsync();
        Assert.True(made.Contains($"Plan saved. It has {Visits} visits per year.", StringComparison.Ordinal), made);
    }

    /// <summary>What the paper says, read from the paper alone, is what the screen says.</summary>
    private static void MustAgree(CardOnScreen screen, CardPage paper)
    {
        List<KeyedProgram> programs = paper.ReadPrograms(screen.From).Programs;
        Assert.Equal(screen.Programs.Select(p => p.Letter), programs.Select(p => p.Letter));
        Assert.Equal([1, 2], screen.Programs.SelectMany(p => p.RunSeconds.Keys).Distinct().Order());
        foreach ((ProgramOnScreen shown, KeyedProgram printed) in screen.Programs.Zip(programs))
        {
            Assert.NotEmpty(shown.Starts);
            Assert.Equal(shown.Starts, printed.StartTimes.Select(s => $"{s.Hour:00}:{s.Minute:00}"));
            Assert.Equal(shown.RunSeconds.Select(r => (r.Key, r.Value)),
                printed.RunTimes.Where(r => r.Seconds > 0).Select(r => (r.Station, r.Seconds)));
            Assert.Equal(shown.Days, Days(printed.Days));
        }

        Assert.Equal(Visits, screen.Percents.Count);
        Assert.True(screen.Percents.Select(p => p.Percent).Distinct().Count() > 1, "Every visit sets the same percent.");
        string all = Regex.Replace(paper.AllText, @"\s+", " ");
        // The dates stand above their percents.
        Assert.Contains(
            $"{string.Join(' ', screen.Percents.Select(p => p.Date))} {string.Join(' ', screen.Percents.Select(p => p.Percent))}", all,
                StringComparison.Ordinal);
        Assert.Contains($"Percent adjust: {screen.PercentNow}", all, StringComparison.Ordinal);
        Assert.Contains(screen.Check, all, StringComparison.Ordinal);
    }

    private static string Days(DayRule? rule) => rule switch
    {
        OddDays => "Odd dates",
        EvenDays => "Even dates",
        EveryNDays { Days: 1 } => "Every day (interval 1)",
        EveryNDays every => $"Every {every.Days} days",
        DaysOfWeek { Days.Count: 7 } => "Every day",
        DaysOfWeek week => string.Join(' ', week.Days.Order().Select(d => $"{d}"[..3])),
        _ => "No day",
    };

    private static async Task Expect(ILocator field, string value) => Assert.Equal(value, await field.InputValueAsync());

    private static Task Type(IPage page, string label, string text) => Type(page.Locator("main"), label, text);

    private static async Task Type(ILocator within, string label, string text)
    {
        ILocator field = within.GetByLabel(label, new() { Exact = true });
        await field.FillAsync(text);
        await field.PressAsync("Tab");
    }

    private static Task Next(IPage page, string step) => page.GetByRole(AriaRole.Button, new() { Name = $"Next: {step}" }).ClickAsync();

    [GeneratedRegex("A4.*English")]
    private static partial Regex A4InEnglish();
}
