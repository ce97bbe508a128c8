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

    /// <summary>Options: --times 9; --what-if times only settings changed by hand, --early only what is
    /// there before the engine.</summary>
    public static int Run(string[] arguments) => InFolder(async folder =>
    {
        int times = Array.IndexOf(arguments, "--times") is var at and >= 0 && at + 1 < arguments.Length
            ? int.Parse(arguments[at + 1], CultureInfo.InvariantCulture) : 9;
        using IPlaywright playwright = await Playwright.CreateAsync();
        await using IBrowser browser = await Chromium.StartAsync(playwright);
        Console.WriteLine($"Chromium {browser.Version}");
        if (arguments.Contains("--what-if"))
        {
            await using Opened byHand = await Opened
                .At(browser, Path.Combine(folder, "sites.db"), BuiltPage.Folder, null, "#app article.card h1");
            await TellTouches(byHand, times);
            return 0;
        }

        await using Opened empty = await Opened.At(browser, Path.Combine(folder, "empty.db"), EmptyPage(), "", "#app main h1");
        await using Opened page = await Opened
            .At(browser, Path.Combine(folder, "sites.db"), BuiltPage.Folder, null, "#app article.card h1");
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
                $"over the wire  first load {page.FirstBytes / 1e6:0.00} MB (empty page {empty.FirstBytes / 1e6:0.00} MB), of it {page.BeforeUseBytes / 1e6:0.00} MB until it could be used; second load {page.SecondBytes / 1e3:0.0} kB"));
        await empty.GoneOffline();
        await page.GoneOffline();
        List<double> nothing = [], card = [], live = [], within = [], work = [];
        if (arguments.Contains("--early"))
        {
            for (int i = 0; i < times; i++)
            {
                nothing.Add((await empty.Load()).Live);
                card.Add(await page.CardAlone());
                work.Add(await page.WorkAtController());
            }

            Tell("a card, from the address to its lines", card);
            Tell("the work at a controller, to its rows", work);
            Tell("an empty Blazor WebAssembly page", nothing);
            return 0;
        }

        for (int i = 0; i < times; i++)
        {
            nothing.Add((await empty.Load()).Live);
            (double seen, double taken) = await page.Load();
            card.Add(seen);
            live.Add(taken);
            within.Add(await page.FromTheSite());
            work.Add(await page.WorkAtController());
        }

        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"offline, processor slowed {Slower} times, median of {times} (least to most), until drawn:"));
        Tell("a card, from the address to its lines", card);
        Tell("the work at a controller, to its rows", work);
        Tell("the live card in its place", live);
        Tell("an empty Blazor WebAssembly page", nothing);
        Tell("a card from the site's page, by a link", within);
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
                $"  a card to the empty page {Median(card) / Median(nothing):0.00}, the live card to it {Median(live) / Median(nothing):0.00}, the work at a controller {Median(work) / Median(nothing):0.00}"));
        return page.FirstBytes <= 4_000_000 ? 0 : 1;
    });

    private static async Task TellTouches(Opened page, int times)
    {
        foreach (int slower in (int[])[1, Slower])
        {
            Tell($"a run time changed by hand, slowed {slower} times", await page.Touches(slower, times));
        }
    }

    private static void Tell(string what, List<double> seconds) =>
        Console.WriteLine(string
            .Create(CultureInfo.InvariantCulture, $"  {what,-40} {Median(seconds):0.00} s ({seconds.Min():0.00} to {seconds.Max():0.00})"));

    private static double Median(List<double> values) => values.Order().ElementAt(values.Count / 2);

    private static string EmptyPage()
    {
        string to = Path.Combine(Checkout.Root, ".build", "empty-page");
        using Process publish = Process.Start(
            new ProcessStartInfo(
                "dotnet", ["publish", Path.Combine(Checkout.Root, "bench", "Valvewright.EmptyPage"), "-c", "Release", "-o", to, "--nologo",
                    "-v", "quiet"]))!;
        publish.WaitForExit();
        return publish.ExitCode == 0 ? Path.Combine(to, "wwwroot") : throw new InvalidOperationException(
            "The empty page can't be published.");
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

    private const string CardsLieReady = """
        () => new Promise(done => {
          const opening = indexedDB.open('valvewright');
          opening.onsuccess = () => {
            const keys = opening.result.transaction('ready').objectStore('ready').getAllKeys();
            keys.onsuccess = () => { opening.result.close(); done(keys.result.some(k => k[2] === 'Gate')); };
          };
        })
        """;

    /// <summary>A page that has been visited once.</summary>
    private sealed class Opened(SiteServer server, HttpClient client, Wire wire, IBrowserContext context, IPage page, string wanted)
        : IAsyncDisposable
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
            opened.FirstBytes = wire.Down;
            await opened.Visit("");
            await tab.Locator("main h1").First.WaitForAsync();
            await tab.EvaluateAsync("async () => { await (await navigator.serviceWorker.ready).update(); }");
            opened.SecondBytes = wire.Down - opened.FirstBytes;
            // The site is opened once, its cards never.
            await opened.Visit(opened.site);
            await tab.Locator("#app main h1").First.WaitForAsync();
            if (opened.site.Length > 0)
            {
                while (!await tab.EvaluateAsync<bool>(CardsLieReady))
                {
                    await Task.Delay(100);
                }
            }

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
            // What is in the page counts when it has been drawn.
            await context.AddInitScriptAsync($$"""
                {
                  const drawn = name => { if (window[name] === undefined) { window[name] = null; requestAnimationFrame(() => setTimeout(() => { window[name] = performance.now(); })); } };
                  const watch = new MutationObserver(() => {
                    if (document.querySelector('#at .row')) drawn('workAt');
                    if (document.querySelector('{{wanted}}')) { drawn('liveAt'); drawn('seenAt'); watch.disconnect(); }
                    else if (document.querySelector('#ready article.card h1')) drawn('seenAt');
                  });
                  watch.observe(document, { subtree: true, childList: true });
                }
                """);
        }

        /// <summary>Seconds from typing the address until what is wanted is seen, and until the page itself shows it.</summary>
        public async Task<(double Seen, double Live)> Load()
        {
            await page.GotoAsync("about:blank");
            await Visit(path);
            await page.WaitForFunctionAsync("() => window.liveAt");
            double[] at = await page.EvaluateAsync<double[]>("() => [window.seenAt, window.liveAt]");
            return (at[0] / 1000, at[1] / 1000);
        }

        /// <summary>Seconds from typing the card's address until its lines are there.</summary>
        public async Task<double> CardAlone()
        {
            await page.GotoAsync("about:blank");
            await Visit(path);
            return await (await page.WaitForFunctionAsync("() => window.seenAt")).JsonValueAsync<double>() / 1000;
        }

        /// <summary>Seconds from the address in the card's code until the rows of the work at the controller are there.</summary>
        public async Task<double> WorkAtController()
        {
            await page.GotoAsync("about:blank");
            await Visit($"{site}/at?controller=Gate");
            return await (await page.WaitForFunctionAsync("() => window.workAt")).JsonValueAsync<double>() / 1000;
        }

        /// <summary>Seconds from touching a run time on the page of settings changed by hand until its answer is drawn.</summary>
        public async Task<List<double>> Touches(int slower, int times)
        {
            ICDPSession session = await context.NewCDPSessionAsync(page);
            await session.SendAsync("Emulation.setCPUThrottlingRate", new Dictionary<string, object> { ["rate"] = slower });
            await Visit($"{site}/what-if");
            await page.Locator("table.whatIf").First.WaitForAsync();
            List<double> seconds = [];
            for (int i = 0; i <= times; i++)
            {
                double took = await page.EvaluateAsync<double>("""
                    () => new Promise(done => {
                      const keys = [...document.querySelectorAll('.whatIfSettings .between .stepper')].at(-1).querySelectorAll('button');
                      const begun = performance.now();
                      keys[1].click();
                      requestAnimationFrame(() => setTimeout(() => done((performance.now() - begun) / 1000)));
                    })
                    """);
                if (i > 0)
                {
                    seconds.Add(took);
                }
            }

            return seconds;
        }

        /// <summary>Seconds from touching a link on the site's own page until the card is there.</summary>
        public async Task<double> FromTheSite()
        {
            await Visit(site);
            await page.Locator("#app main h1").First.WaitForAsync();
            return await page.EvaluateAsync<double>($$"""
                path => new Promise(done => {
                  const begun = performance.now();
                  const watch = new MutationObserver(() => { if (document.querySelector('{{wanted}}')) { watch.disconnect(); requestAnimationFrame(() => setTimeout(() => done((performance.now() - begun) / 1000))); } });
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
