using System.Diagnostics;
using System.Globalization;
using Microsoft.Playwright;
using Valvewright.Server.Hosting;
using Valvewright.Tests;
using Valvewright.Tests.Browsing;

namespace Valvewright.Bench;

/// <summary>The page over the wire, and how soon a card is there without a signal, beside an empty page of the same kind.</summary>
internal static class PageBenchmark
{
    /// <summary>How much slower than this machine a phone's processor is taken to be.</summary>
    private const int Slower = 4;
    private const int LongestMs = 120_000;

    /// <summary>Options: --times 9.</summary>
    public static int Run(string[] arguments) => InFolder(async folder =>
    {
        int times = Array.IndexOf(arguments, "--times") is var at and >= 0 && at + 1 < arguments.Length ? int.Parse(arguments[at + 1], CultureInfo.InvariantCulture) : 9;
        using IPlaywright playwright = await Playwright.CreateAsync();
        await using IBrowser browser = await Chromium.StartAsync(playwright);
        Console.WriteLine($"Chromium {browser.Version}");
        await using Opened empty = await Opened.At(browser, Path.Combine(folder, "empty.db"), EmptyPage(), "", "main h1");
        await using Opened page = await Opened.At(browser, Path.Combine(folder, "sites.db"), BuiltPage.Folder, null, "article.card h1");
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"over the wire  first load {page.FirstBytes / 1e6:0.00} MB (empty page {empty.FirstBytes / 1e6:0.00} MB), of it {page.BeforeUseBytes / 1e6:0.00} MB until it could be used; second load {page.SecondBytes / 1e3:0.0} kB"));
        await empty.GoneOffline();
        await page.GoneOffline();
        List<double> nothing = [], card = [], within = [];
        for (int i = 0; i < times; i++)
        {
            nothing.Add(await empty.Load());
            card.Add(await page.Load());
            within.Add(await page.FromTheSite());
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"offline, processor slowed {Slower} times, median of {times}:"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  a card, from the address to its lines  {Median(card):0.00} s ({card.Min():0.00} to {card.Max():0.00})"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  an empty Blazor WebAssembly page       {Median(nothing):0.00} s ({nothing.Min():0.00} to {nothing.Max():0.00})"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  ratio                                  {Median(card) / Median(nothing):0.00}"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  a card from the site's page, by a link {Median(within):0.00} s ({within.Min():0.00} to {within.Max():0.00})"));
        return page.FirstBytes <= 4_000_000 ? 0 : 1;
    });

    private static double Median(List<double> values) => values.Order().ElementAt(values.Count / 2);

    private static string EmptyPage()
    {
        string to = Path.Combine(Checkout.Root, ".build", "empty-page");
        using Process publish = Process.Start(new ProcessStartInfo("dotnet", ["publish", Path.Combine(Checkout.Root, "bench", "Valvewright.EmptyPage"), "-c", "Release", "-o", to, "--nologo", "-v", "quiet"]))!;
        publish.WaitForExit();
        return publish.ExitCode == 0 ? Path.Combine(to, "wwwroot") : throw new InvalidOperationException("The empty page can't be published.");
    }

    private static int InFolder(Func<string, Task<int>> work)
    {
        string folder = Directory.CreateTempSubdirectory("valvewright-bench-").FullName;
        try
        {
            return work(folder).GetAwaiter().GetResult();
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>A page that has been visited once.</summary>
    private sealed class Opened(SiteServer server, HttpClient client, Wire wire, IBrowserContext context, IPage page, string wanted) : IAsyncDisposable
    {
        private bool isServed = true;
        private string path = "";
        private string site = "";

        public long BeforeUseBytes { get; private set; }

        public long FirstBytes { get; private set; }

        public long SecondBytes { get; private set; }

        /// <summary>Visits a page twice and counts.</summary>
        /// <param name="browser">The browser.</param>
        /// <param name="store">The store's file.</param>
        /// <param name="folder">The published page.</param>
        /// <param name="path">The address that is timed later; null: the card of the main demo.</param>
        /// <param name="wanted">What has to be there.</param>
        public static async Task<Opened> At(IBrowser browser, string store, string folder, string? path, string wanted)
        {
            SiteServer server = await SiteServer.StartAsync(new ServerOptions { Store = store, Port = 0, Page = folder });
            HttpClient client = new() { BaseAddress = server.Address };
            Wire wire = new(server.Address);
            IBrowserContext context = await browser.NewContextAsync();
            context.SetDefaultTimeout(LongestMs);
            IPage tab = await context.NewPageAsync();
            Opened opened = new(server, client, wire, context, tab, wanted);
            if (path is null)
            {
                SiteFiller fill = new(client);
                Guid site = await fill.Bring("quarry-hill");
                await fill.Do(site, new { kind = "plan", visits = 0, from = "2026-04-01" });
                (opened.site, path) = ($"sites/{site}", $"sites/{site}/cards?controller=Gate");
            }

            opened.path = path;
            await opened.Visit("");
            await tab.Locator("main h1").First.WaitForAsync();
            opened.BeforeUseBytes = wire.Down;
            await tab.EvaluateAsync("() => navigator.serviceWorker.ready.then(() => 0)");
            opened.FirstBytes = await wire.UntilQuiet();
            await opened.Visit("");
            opened.SecondBytes = await wire.UntilQuiet() - opened.FirstBytes;
            await opened.Visit(path);
            await tab.Locator(wanted).First.WaitForAsync();
            return opened;
        }

        /// <summary>Nobody answers any more, and the processor is slow.</summary>
        public async Task GoneOffline()
        {
            await wire.DisposeAsync();
            await server.DisposeAsync();
            isServed = false;
            ICDPSession session = await context.NewCDPSessionAsync(page);
            await session.SendAsync("Emulation.setCPUThrottlingRate", new Dictionary<string, object> { ["rate"] = Slower });
            await context.AddInitScriptAsync($$"""
                {
                  const watch = new MutationObserver(() => { if (document.querySelector('{{wanted}}')) { window.thereAt = performance.now(); watch.disconnect(); } });
                  watch.observe(document, { subtree: true, childList: true });
                }
                """);
        }

        /// <summary>Seconds from typing the address until what is wanted is in the page.</summary>
        public async Task<double> Load()
        {
            await page.GotoAsync("about:blank");
            await Visit(path);
            IJSHandle at = await page.WaitForFunctionAsync("() => window.thereAt");
            return await at.JsonValueAsync<double>() / 1000;
        }

        /// <summary>Seconds from touching a link on the site's own page until the card is there.</summary>
        public async Task<double> FromTheSite()
        {
            await Visit(site);
            await page.Locator("main h1").First.WaitForAsync();
            return await page.EvaluateAsync<double>($$"""
                path => new Promise(done => {
                  const begun = performance.now();
                  const watch = new MutationObserver(() => { if (document.querySelector('{{wanted}}')) { watch.disconnect(); done((performance.now() - begun) / 1000); } });
                  watch.observe(document, { subtree: true, childList: true });
                  Blazor.navigateTo(path);
                })
                """, path);
        }

        public async ValueTask DisposeAsync()
        {
            await context.DisposeAsync();
            client.Dispose();
            if (isServed)
            {
                await wire.DisposeAsync();
                await server.DisposeAsync();
            }
        }

        private Task<IResponse?> Visit(string to) => page.GotoAsync(new Uri(wire.Address, to).ToString());
    }
}
