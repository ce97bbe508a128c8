using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Valvewright.Page.Tests.Hosting;
using Valvewright.Tests.Browsing;

namespace Valvewright.Page.Tests;

/// <summary>A catch-can test written down on a phone where nothing answers.</summary>
[Collection(AtWork.Name)]
public sealed class CanPadOfflineTests(Stage stage)
{
    private const int Fourth = 3;

    /// <summary>24 cans, one after another. Worked by hand: 18 of 30 mL and 6 of 18 mL average 27 mL; the lowest 6 average 18 mL, so the
    /// low-quarter uniformity is 18 / 27 = 67%; 27 mL over 90 cm2 are 3 mm, in 12.5 min: 14.4 mm/h, which is what the zone's flow over its
    /// area gives. With a run time misread as 10 min the two disagree, and it says so.</summary>
    [Fact]
    public async Task Cans_one_after_another_are_kept_and_worked_out_on_the_device()
    {
        await using Served served = await stage.Serve();
        TourSite site = stage.Sites.Garden;
        await using Visitor visitor = await stage.Visit(served, Seat.Phone with { Worker = true });
        await visitor.Open(site.At("sites/{site}"));
        await visitor.KeepThePage();
        await served.StopAsync();

        await visitor.Open(site.At("sites/{site}/audit"));
        IPage page = visitor.Page;
        await Type(page, "Run time of the test", "10 min");
        await Type(page, "Can opening", "90 cm2");
        for (int can = 0; can < 12; can++)
        {
            await Take(page, can % 4 == Fourth ? "18" : "30", can + 1);
        }

        // A call, an empty battery: the cans are there.
        await visitor.Open(site.At("sites/{site}/audit"));
        await visitor.Sees("12 cans");
        await Take(page, "3o", 12);
        await visitor.Sees("Type a number of mL, such as 28.");
        for (int can = 12; can < 24; can++)
        {
            await Take(page, can switch { 12 => "31", _ => can % 4 == Fourth ? "18" : "30" }, can + 1);
        }

        // A can that was misread is touched and typed again; one too many is taken back.
        await page.GetByRole(AriaRole.Button, new() { Name = "Can 13, 31 mL: change" }).TapAsync();
        await Take(page, "30", 24);
        await Take(page, "44", 25);
        await page.GetByRole(AriaRole.Button, new() { Name = "Take the last can back" }).TapAsync();
        await visitor.Sees("24 cans");

        await page.GetByRole(AriaRole.Cell, new() { Name = "Low-quarter uniformity" }).WaitForAsync();
        Assert.Equal("67%", await Value(page, "Low-quarter uniformity"));
        Assert.Equal("18.0 mm/h", await Value(page, "Net rate"));
        await visitor.Sees("Doubtful: 14.4 and 18.0 mm/h.");
        await Type(page, "Run time of the test", "12.5 min");
        await page.GetByText("Doubtful:").WaitForAsync(new() { State = WaitForSelectorState.Detached });
        await visitor.Sees("Put into the survey and plan again");
        Assert.Equal("14.4 mm/h", await Value(page, "Net rate"));
        Told.None([.. await Looks.Faults(page)]);
        string[] small = await page.EvaluateAsync<string[]>(
            "() => [...document.querySelectorAll('#can, .large-answers button')].filter(e => e.getBoundingClientRect().height < 55.9)" +
            ".map(e => e.outerHTML)");
        Told.None(small);

        // The survey with the cans waits on the device, and reaches the server once it answers.
        await page.GetByRole(AriaRole.Button, new() { Name = "Put into the survey and plan again" }).TapAsync();
        await visitor.Sees("The survey with the cans waits on this device");
        await served.StartAsync();
        await visitor.Open("unsent");
        await page.GetByRole(AriaRole.Button, new() { Name = "Send now" }).ClickAsync();
        await visitor.Sees("Everything recorded on this device is on the server.");
        string survey = JsonSerializer.Deserialize<JsonElement>(await served.Client.GetStringAsync($"api/sites/{site.Id}"))
            .GetProperty("survey").GetString()!;
        string cans = Regex.Match(survey, @"opening: 90 cm2\s+volumes:(?<cans>[\s,\[\-\d]+)").Groups["cans"].Value;
        Assert.Equal(
            string.Join(", ", Enumerable.Range(0, 24).Select(c => c % 4 == Fourth ? "18" : "30")),
            string.Join(", ", Regex.Matches(cans, @"\d+").Select(m => m.Value)));
    }

    private static async Task Type(IPage page, string label, string text)
    {
        await page.GetByLabel(label).FillAsync(text);
        await page.GetByLabel(label).PressAsync("Tab");
    }

    private static async Task Take(IPage page, string ml, int cans)
    {
        await page.Locator("#can").FillAsync(ml);
        await page.Locator("#can").PressAsync("Enter");
        await page.GetByText($"{cans} can", new() { Exact = false }).First.WaitForAsync();
    }

    private static async Task<string> Value(IPage page, string what) =>
        (await page.Locator("tr", new() { HasText = what }).First.Locator("td").Nth(1).InnerTextAsync()).Trim().Replace('\u00a0', ' ');
}
