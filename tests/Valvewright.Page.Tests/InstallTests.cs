using System.Text.Json;
using Microsoft.Playwright;
using Valvewright.Page.Tests.Hosting;
using Valvewright.Tests.Browsing;
using Xunit.Abstractions;

namespace Valvewright.Page.Tests;

/// <summary>The page as something that stays on a device.</summary>
[Collection(AtWork.Name)]
public sealed class InstallTests(Stage stage, ITestOutputHelper said)
{
    private const long FirstLoadBytes = 4_000_000;

    [Fact]
    public async Task It_can_be_installed()
    {
        await using Served served = await Served.Start();
        await using Visitor visitor = await stage.Visit(served, new Seat { Worker = true });
        await visitor.Open("");
        await visitor.KeepThePage();
        ICDPSession browser = await visitor.Page.Context.NewCDPSessionAsync(visitor.Page);
        JsonElement manifest = (await browser.SendAsync("Page.getAppManifest"))!.Value;
        Assert.EndsWith("manifest.webmanifest", manifest.GetProperty("url").GetString(), StringComparison.Ordinal);
        Assert.Empty(manifest.GetProperty("errors").EnumerateArray());
        JsonElement errors = (await browser.SendAsync("Page.getInstallabilityErrors"))!.Value.GetProperty("installabilityErrors");
        // Browsers of tests leave no traces, and such browsers install nothing; it is the only obstacle.
        Assert.Equal(["in-incognito"], errors.EnumerateArray().Select(e => e.GetProperty("errorId").GetString()));
        visitor.MustNotComplain();
    }

    /// <summary>Each page loaded afresh; in another language, which comes with the same files, one afresh and the rest within it.</summary>
    [Theory]
    [InlineData("en", 1280, 900, true)]
    [InlineData("es", 390, 844, false)]
    public async Task After_one_visit_every_page_opens_with_the_server_gone(string language, int width, int height, bool isFresh)
    {
        await using Served served = await stage.Serve();
        await using Visitor visitor = await stage
            .Visit(served, new Seat { Worker = true, Language = language, Width = width, Height = height });
        await visitor.Open(stage.Sites.Garden.At("sites/{site}"));
        await visitor.KeepThePage();
        visitor.MustNotComplain();
        await served.StopAsync();

        string nowhere = "";
        await visitor.Open("");
        foreach (string path in Tour.All.OrderBy(p => p != Tour.NoSuchPage))
        {
            await (isFresh ? visitor.Open(stage.Sites.Garden.At(path)) : visitor.Go(stage.Sites.Garden.At(path)));
            string head = await visitor.Page.Locator("main h1").InnerTextAsync();
            Assert.False(await visitor.Page.Locator("#blazor-error-ui").IsVisibleAsync(), path);
            if (path == Tour.NoSuchPage)
            {
                nowhere = head;
            }
            else
            {
                Assert.NotEqual(nowhere, head);
            }
        }

        // Asking for what only a server has is refused by the net; nothing else may go wrong.
        Told.None([.. visitor.Complaints.Where(c => !c.Contains("net::ERR_CONNECTION_REFUSED", StringComparison.Ordinal))]);
    }

    [Fact]
    public async Task The_first_load_is_at_most_4_MB_and_the_second_comes_from_the_device()
    {
        await using Served served = await stage.Serve();
        await using Wire wire = new(served.Address);
        await using Visitor visitor = await Visitor.Come(stage.Browser, wire.Address, new Seat { Worker = true });
        await visitor.Open("");
        // The worker is active only when it has kept every file.
        await visitor.KeepThePage();
        long first = wire.Down;
        said.WriteLine($"The first load takes {first} bytes.");
        Assert.InRange(first, 1_000_000, FirstLoadBytes);

        await visitor.Open("");
        await visitor.Page.EvaluateAsync("async () => { await (await navigator.serviceWorker.ready).update(); }");
        long second = wire.Down - first;
        said.WriteLine($"The second takes {second}.");
        Assert.InRange(second, 1, 60_000);
    }
}
