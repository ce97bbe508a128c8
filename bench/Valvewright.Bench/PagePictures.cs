using Microsoft.Playwright;
using NodaTime;
using NodaTime.Testing;
using Valvewright.Records;
using Valvewright.Server.Hosting;
using Valvewright.Tests.Browsing;

namespace Valvewright.Bench;

/// <summary>Pictures of every page for docs/page.md, from the main demo: on a phone and on a desk, some in Spanish and dark.</summary>
internal static class PagePictures
{
    private const int LongestMs = 120_000;

    /// <summary>The day of the pictures: early in the season, four days after a visit.</summary>
    private static readonly Instant Morning = Instant.FromUtc(2026, 5, 14, 4, 42);

    /// <summary>A long page is shown down to here, CSS pixels.</summary>
    private const int LowestPx = 1500;

    private static readonly (string Name, string Path)[] Pages =
    [
        ("sites", ""), ("new-survey", "survey"), ("fleet", "fleet"), ("settings", "settings"), ("unsent", "unsent"),
        ("site", "sites/{site}"), ("survey", "sites/{site}/survey"), ("needs", "sites/{site}/needs"), ("plan", "sites/{site}/plan"),
        ("what-if", "sites/{site}/what-if"), ("found", "sites/{site}/found"),
            ("proof", "sites/{site}/proof"),
        ("cards", "sites/{site}/cards"), ("card", "sites/{site}/cards?controller={controller}"), ("year", "sites/{site}/year"),
            ("timeline", "sites/{site}/timeline"),
        ("reading", "sites/{site}/reading"), ("visits", "sites/{site}/visits"), ("new-visit", "sites/{site}/visits/new"),
            ("visit", "sites/{site}/visits/{visit}"), ("history", "sites/{site}/history"),
    ];

    /// <summary>Pages that are also shown in Spanish, on a dark phone.</summary>
    private static readonly string[] AlsoSpanish = ["needs", "card", "timeline"];

    /// <summary>Options: the folder to write to.</summary>
    public static int Run(string[] arguments)
    {
        Directory.CreateDirectory(arguments[0]);
        return Make(arguments[0]).GetAwaiter().GetResult();
    }

    private static async Task<int> Make(string folder)
    {
        string store = Path.Combine(Directory.CreateTempSubdirectory("valvewright-pictures-").FullName, "sites.db");
        await using SiteServer server = await SiteServer.StartAsync(
            new ServerOptions { Store = store, Port = 0, Page = BuiltPage.Folder }, new FakeClock(Morning));
        using HttpClient client = new() { BaseAddress = server.Address, Timeout = TimeSpan.FromMinutes(5) };
        TourSite site = await Fill(new SiteFiller(client));
        using IPlaywright playwright = await Playwright.CreateAsync();
        await using IBrowser browser = await Chromium.StartAsync(playwright);
        await All(browser, server.Address, site, Pages, "en", ColorScheme.Light, (390, 844), n => Path.Combine(folder, $"{n}-phone.png"));
        await All(browser, server.Address, site, Pages, "en", ColorScheme.Light, (1280, 900), n => Path.Combine(folder, $"{n}-desk.png"));
        await All(browser, server.Address, site, [.. Pages.Where(p => AlsoSpanish.Contains(p.Name))], "es", ColorScheme.Dark, (390, 844),
            n => Path.Combine(folder, $"{n}-spanish-dark.png"));
        return 0;
    }

    private static async Task<TourSite> Fill(SiteFiller fill)
    {
        Guid site = await fill.Bring("quarry-hill");
        Guid plan = (await fill.Do(site, new { kind = "plan", visits = 4, from = "2026-04-01" })).GetProperty("plan").GetGuid();
        Guid visit = await fill.Keep($"api/sites/{site}/visits/", new VisitValue(
            "Gate", new LocalDateTime(2026, 5, 10, 9, 40), "A: starts 5:00 12:00; days daily; stations 1=10 2=15",
                "A: starts 5:00; days daily; stations 1=10 2=15", 8.7,
            [new CoilReading(1, 24.5), new CoilReading(2, 25.1)], 12.5, "Second start at noon cleared."));
        await fill.Keep($"api/sites/{site}/readings/",
            new ReadingValue("Gate", new LocalDateTime(2026, 5, 10, 9, 30), "A: starts 5:00 12:00; days daily; stations 1=10 2=15"));
        return new TourSite(site, plan, visit, "Gate");
    }

    private static async Task All(IBrowser browser, Uri address, TourSite site, (string Name, string Path)[] pages, string language,
        ColorScheme look, (int Width, int Height) size, Func<string, string> file)
    {
        await using IBrowserContext context = await browser.NewContextAsync(new BrowserNewContextOptions
        {
            Locale = language, ColorScheme = look, ViewportSize = new ViewportSize { Width = size.Width, Height = size.Height },
                ServiceWorkers = ServiceWorkerPolicy.Block,
        });
        context.SetDefaultTimeout(LongestMs);
        IPage page = await context.NewPageAsync();
        await page.Clock.SetFixedTimeAsync(Morning.ToDateTimeUtc());
        await page.GotoAsync(new Uri(address, site.At("sites/{site}")).ToString());
        await page.Locator("main h1").First.WaitForAsync();
        foreach ((string name, string path) in pages)
        {
            await page.EvaluateAsync("path => Blazor.navigateTo(path)", site.At(path));
            await page.WaitForTimeoutAsync(500);
            await page.Locator("main h1").First.WaitForAsync();
            await page.WaitForTimeoutAsync(2500);
            float height = Math.Clamp(
                await page.EvaluateAsync<float>("() => document.documentElement.scrollHeight"), size.Height, LowestPx);
            // A heading has the focus after a step; who points with a finger sees no frame around it.
            await page.EvaluateAsync("() => document.activeElement?.blur()");
            await page.ScreenshotAsync(new PageScreenshotOptions
                { Path = file(name), FullPage = true, Clip = new Clip { X = 0, Y = 0, Width = size.Width, Height = height } });
        }
    }
}
