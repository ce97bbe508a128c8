using System.Text.Json;
using Microsoft.Playwright;
using Valvewright.Page.Tests.Hosting;
using Valvewright.Tests.Browsing;
using Valvewright.Tests.Serving;

namespace Valvewright.Page.Tests;

/// <summary>A visit written down where nothing answers is kept on the device, and reaches the server once.</summary>
[Collection(AtWork.Name)]
public sealed class VisitOfflineTests(Stage stage)
{
    private const string AsFound = "A: starts 5:00 12:00; days daily; stations 1=10 2=15";

    [Fact]
    public async Task Recorded_with_the_server_stopped_then_sent_once()
    {
        await using Served served = await stage.Serve();
        TourSite site = stage.Sites.Garden;
        await using Visitor visitor = await stage.Visit(served, Seat.Phone with { Worker = true });
        await visitor.Open(site.At("sites/{site}"));
        await visitor.KeepThePage();
        int before = (await Visits(served.Client, site)).Length;
        await served.StopAsync();

        // The page is loaded afresh without a server, as by somebody who walks up to a controller.
        await visitor.Open(site.At("sites/{site}/visits"));
        await visitor.Page.GetByRole(AriaRole.Link, new() { Name = "Record a visit" }).ClickAsync();
        await visitor.Settle();
        await Write(visitor.Page, "8.4", "Lid cracked.");
        await visitor.Page.Locator("#v-photo").SetInputFilesAsync(
            new FilePayload { Name = "strip.png", MimeType = "image/png", Buffer = FilledSites.Pixel });
        await visitor.Page.Locator(".photos img").WaitForAsync();
        await Finish(visitor);
        await visitor.Page.GetByText("Not sent yet: on this device only.").First.WaitForAsync();
        await visitor.Page.GetByRole(AriaRole.Link, new() { Name = "2 records not sent" }).WaitForAsync();

        // Also after the page was closed, it is there and says that it is not sent.
        await visitor.Open("unsent");
        await visitor.Page.GetByText("These records are safe on this device, and only here.").WaitForAsync();

        await served.StartAsync();
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Send now" }).ClickAsync();
        await visitor.Page.GetByText("Everything recorded on this device is on the server.").WaitForAsync();
        JsonElement[] kept = await Visits(served.Client, site);
        Assert.Equal(before + 1, kept.Length);
        JsonElement mine = Assert.Single(kept, v => v.GetProperty("value").GetProperty("notes").GetString() == "Lid cracked.");
        Assert.Equal("Gate", mine.GetProperty("value").GetProperty("controller").GetString());
        Assert.Equal(AsFound, mine.GetProperty("value").GetProperty("asFound").GetString());
        Assert.Equal(8.4, mine.GetProperty("value").GetProperty("batteryVolts").GetDouble());
        Assert.Equal(1, mine.GetProperty("version").GetInt32());
        Assert.Single(mine.GetProperty("photos").EnumerateArray());

        // Sending again sends nothing.
        await visitor.Open(site.At("sites/{site}/visits"));
        Assert.Equal(before + 1, (await Visits(served.Client, site)).Length);
        Told.None([.. visitor.Complaints.Where(c => !c.Contains("net::ERR_CONNECTION_REFUSED", StringComparison.Ordinal))]);
    }

    /// <summary>The server dies while visits are being sent: after some of the bytes, before or after it has kept them, before its
    /// answer.</summary>
    [Fact]
    public async Task A_server_that_dies_while_visits_are_sent_gets_each_once()
    {
        string folder = Directory.CreateTempSubdirectory("valvewright-dying-").FullName;
        try
        {
            const int Visitors = 6;
            string store = Path.Combine(folder, "sites.db");
            TourSite site = stage.Sites.Garden;
            stage.CopyStore(store);
            await using Visitor visitor = await Away(store, site);
            string[] notes = [.. Enumerable.Range(1, Visitors).Select(n => $"visit {n} of the round")];
            await visitor.Open(site.At("sites/{site}/visits"));
            foreach (string note in notes)
            {
                await visitor.Go(site.At("sites/{site}/visits/new"));
                await Write(visitor.Page, "8.8", note);
                await Finish(visitor);
            }

            await visitor.Open("unsent");
            Random random = new(1);
            for (int kill = 0; kill < 4; kill++)
            {
                using ServerProcess dying = await ServerProcess.Start(store, BuiltPage.Folder, visitor.Port);
                await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Send now" }).ClickAsync();
                await Task.Delay(random.Next(20, 250));
                dying.Kill();
                await visitor.Settle();
                if (await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Send now" }).CountAsync() == 0)
                {
                    break; // All went through before the end.
                }
            }

            using ServerProcess last = await ServerProcess.Start(store, BuiltPage.Folder, visitor.Port);
            if (await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Send now" }).CountAsync() > 0)
            {
                await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Send now" }).ClickAsync();
            }

            await visitor.Page.GetByText("Everything recorded on this device is on the server.").WaitForAsync();
            string[] kept = [.. (await Visits(last.Client!, site)).Select(v => v.GetProperty("value").GetProperty("notes").GetString()!)];
            Assert.Equal(notes, kept.Where(n => n.EndsWith("of the round", StringComparison.Ordinal)).Order());
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Somebody who has visited the site once, from a server that is gone now.</summary>
    private async Task<Visitor> Away(string store, TourSite site)
    {
        using ServerProcess server = await ServerProcess.Start(store, BuiltPage.Folder);
        Visitor visitor = await Visitor.Come(stage.Browser, server.Client!.BaseAddress!, Seat.Phone with { Worker = true });
        await visitor.Open(site.At("sites/{site}"));
        await visitor.KeepThePage();
        server.Kill();
        return visitor;
    }

    private static async Task Write(IPage page, string volts, string notes)
    {
        await page.GetByLabel("Controller", new() { Exact = true }).SelectOptionAsync("Gate");
        await page.GetByLabel("Display before you touch anything").FillAsync(AsFound);
        await page.GetByLabel("Battery under load, volts").FillAsync(volts);
        await page.GetByLabel("Anything else").FillAsync(notes);
        await page.Keyboard.PressAsync("Tab");
    }

    private static async Task Finish(Visitor visitor)
    {
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Finish", Exact = false }).ClickAsync();
        await visitor.Arrives("**/visits");
    }

    private static async Task<JsonElement[]> Visits(HttpClient client, TourSite site) =>
        [.. JsonSerializer.Deserialize<JsonElement>(await client.GetStringAsync($"api/sites/{site.Id}/visits")).EnumerateArray()];
}
