using System.Text.Json;
using Microsoft.Playwright;
using Valvewright.Page.Tests.Hosting;
using Valvewright.Tests.Browsing;

namespace Valvewright.Page.Tests;

/// <summary>Two people, each with a browser of their own, who edit one site.</summary>
[Collection(AtWork.Name)]
public sealed class TwoPeopleTests(Stage stage)
{
    [Fact]
    public async Task Nobodys_work_is_lost_and_the_second_is_shown_the_difference()
    {
        await using Served served = await stage.Serve();
        TourSite site = stage.Sites.Garden;
        await using Visitor ana = await stage.Visit(served), ben = await stage.Visit(served);
        await ana.Open(site.At("sites/{site}/survey"));
        await ben.Open(site.At("sites/{site}/survey"));
        await Name(ana.Page, "Quarry Hill, renamed by Ana");
        await ben.Page.GetByRole(AriaRole.Button, new() { Name = "Water", Exact = true }).ClickAsync();
        await ben.Page.Locator("main").GetByLabel("Flow limit").First.FillAsync("26 L/min");
        await ben.Page.Keyboard.PressAsync("Tab");

        await Save(ana.Page);
        await ana.Page.WaitForURLAsync("**/needs");
        await Save(ben.Page);
        await ben.Page.GetByText("Quarry Hill, renamed by Ana").First.WaitForAsync();
        await ben.Page.GetByText("26 L/min").First.WaitForAsync();
        string survey = JsonSerializer.Deserialize<JsonElement>(await served.Client.GetStringAsync($"api/sites/{site.Id}"))
            .GetProperty("survey").GetString()!;
        Assert.Contains("renamed by Ana", survey, StringComparison.Ordinal);
        Assert.DoesNotContain("26 L/min", survey, StringComparison.Ordinal);
        // Not sent over hers, and not lost: it waits on his device until he decides.
        await ben.Open(site.At("sites/{site}/survey"));
        await ben.Page.GetByRole(AriaRole.Button, new() { Name = "Water", Exact = true }).ClickAsync();
        Assert.Equal("26 L/min", await ben.Page.Locator("main").GetByLabel("Flow limit").First.InputValueAsync());
    }

    private static async Task Name(IPage page, string name)
    {
        await page.Locator("main").GetByLabel("Site name").FillAsync(name);
        await page.Keyboard.PressAsync("Tab");
    }

    private static Task Save(IPage page) => page.GetByRole(AriaRole.Button, new() { Name = "Save", Exact = true }).ClickAsync();
}
