using Microsoft.Playwright;
using Valvewright.Page.Tests.Hosting;
using Valvewright.Tests.Browsing;

namespace Valvewright.Page.Tests;

/// <summary>
/// A card whose site was once opened on the device, the card itself never, stands where there is no signal before the page's engine has
/// started; then the page takes its place.
/// </summary>
[Collection(AtWork.Name)]
public sealed class ReadyCardTests(Stage stage)
{
    private const string Early = "#ready article.card", Live = "#app article.card";
    private const string Lines = "[...card.querySelectorAll('.keyed')].map(k => k.innerText.replace(/\\s+/g, ' ').trim())";
    private static readonly DateTime Day = new(2026, 5, 4, 8, 0, 0, DateTimeKind.Utc);

    [Theory]
    [InlineData("en", false)]
    [InlineData("es", true)]
    public async Task It_stands_before_the_page_has_started_and_says_what_the_page_then_says(string language, bool dark)
    {
        await using Served served = await stage.Serve();
        TourSite site = stage.Sites.Garden;
        await using Visitor visitor = await Away(served, site, 2, Seat.Phone with { Language = language, Dark = dark });
        await visitor.OpenBeforeThePageStarts(site.At("sites/{site}/cards?controller={controller}"));
        ILocator early = visitor.Page.Locator(Early);
        string[] lines = await early.EvaluateAsync<string[]>($"card => {Lines}");
        Assert.True(lines.Length > 8, $"{lines.Length} lines");
        Assert.Equal(0, await visitor.Page.Locator("#app .head").CountAsync());
        Assert.Equal("Gate", await early.Locator("h1").InnerTextAsync());
        Assert.Equal("Gate – Valvewright", await visitor.Page.TitleAsync());
        List<string> faults = [.. await Looks.Faults(visitor.Page)];
        await visitor.Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = dark ? ColorScheme.Light : ColorScheme.Dark });
        faults.AddRange(await Looks.Faults(visitor.Page));
        Told.None(faults);

        // The engine starts while somebody is in the middle of it; the same line stays under the thumb.
        await early.Locator("input").Nth(0).CheckAsync();
        await early.Locator("input").Nth(1).CheckAsync();
        string progress = await early.Locator("[data-progress]").InnerTextAsync();
        await early.Locator("input").Nth(5).FocusAsync();
        await visitor.Page.EvaluateAsync("() => scrollTo(0, 500)");
        string at = "n => document.querySelectorAll('article.card input')[n].getBoundingClientRect().top";
        double before = await visitor.Page.EvaluateAsync<double>(at, 5);
        await visitor.LetThePageStart();
        ILocator live = visitor.Page.Locator(Live);
        Assert.Equal(0, await early.CountAsync());
        Assert.InRange(await visitor.Page.EvaluateAsync<double>(at, 5), before - 2, before + 2);
        Assert.True(await live.Locator("input").Nth(5).EvaluateAsync<bool>("box => box === document.activeElement"));
        Assert.Equal(2, await live.Locator("input:checked").CountAsync());
        Assert.Equal(progress, await live.Locator("[data-progress]").InnerTextAsync());
        Assert.Equal(WithoutNext(lines), WithoutNext(await live.EvaluateAsync<string[]>($"card => {Lines}")));

        // The ticks lie on the device, and stand in the early card the next time.
        await visitor.OpenBeforeThePageStarts(site.At("sites/{site}/cards?controller={controller}"));
        Assert.Equal(2, await early.Locator("input:checked").CountAsync());
        // The engine's files wait only because the test holds its start.
        Told.None([.. visitor.Complaints.Where(c => !c.Contains("net::ERR_CONNECTION_REFUSED", StringComparison.Ordinal)
            && !c.Contains("preloaded using link preload", StringComparison.Ordinal))]);
    }

    [Fact]
    public async Task On_another_day_it_says_so_and_shows_nothing_of_days()
    {
        await using Served served = await stage.Serve();
        TourSite site = stage.Sites.Hostile;
        await using Visitor visitor = await Away(served, site, 1, Seat.Phone, Day);
        string path = site.At("sites/{site}/cards");
        await visitor.OpenBeforeThePageStarts(path);
        ILocator card = visitor.Page.Locator(Early);
        Assert.False(await card.Locator("[data-other-day]").IsVisibleAsync());
        Assert.Contains("4 May 2026", await card.InnerTextAsync(), StringComparison.Ordinal);

        await visitor.Page.Clock.SetFixedTimeAsync(Day.AddDays(1));
        await visitor.OpenBeforeThePageStarts(path);
        Assert.Contains("made for 4 May 2026", await card.Locator("[data-other-day]").InnerTextAsync(), StringComparison.Ordinal);
        string[] ofDay = await card.EvaluateAsync<string[]>("card => [...card.querySelectorAll('[data-day]')].map(d => d.innerText)");
        Assert.True(ofDay.Length >= 3, $"{ofDay.Length} parts");
        Assert.All(ofDay, text => Assert.Equal("…", text));
        Assert.True(await card.Locator("input[data-of-day]").First.IsDisabledAsync());
        Assert.True(await card.Locator("input:not([data-of-day])").First.IsEnabledAsync());
        Told.None([.. await Looks.Faults(visitor.Page)]);
        await visitor.LetThePageStart();
        Assert.Contains("5 May 2026", await visitor.Page.Locator(Live).InnerTextAsync(), StringComparison.Ordinal);

        // A clock that was set back, and a card too old to be trusted: it is not shown at all.
        foreach (int days in (int[])[-1, 60])
        {
            await visitor.Page.Clock.SetFixedTimeAsync(Day.AddDays(days));
            await visitor.OpenBeforeThePageStarts(path);
            Assert.Equal(0, await card.CountAsync());
            await visitor.Page.Locator("main.opening").WaitForAsync();
        }
    }

    [Fact]
    public async Task Names_with_script_in_them_are_text_in_it()
    {
        await using Served served = await stage.Serve();
        TourSite site = stage.Sites.Hostile;
        await using Visitor visitor = await Away(served, site, 1, new Seat());
        await visitor.OpenBeforeThePageStarts(site.At("sites/{site}/cards?controller={controller}"));
        Assert.Contains(FilledSites.Script, await visitor.Page.Locator("#ready .way").InnerTextAsync(), StringComparison.Ordinal);
        Assert.Contains(FilledSites.Script, await visitor.Page.Locator(Early).InnerTextAsync(), StringComparison.Ordinal);
        Assert.Equal(0, await visitor.Page.Locator("#ready script, #ready img[src='x']").CountAsync());
        Assert.Equal("none", await visitor.Page.EvaluateAsync<string>("() => String(window.hit ?? 'none')"));
    }

    [Fact]
    public async Task It_goes_with_its_site()
    {
        await using Served served = await stage.Serve();
        TourSite site = stage.Sites.Garden;
        await using Visitor visitor = await Away(served, site, 2, new Seat());
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Remove from this device" }).ClickAsync();
        await visitor.CardsLieReady(0);
        await visitor.OpenBeforeThePageStarts(site.At("sites/{site}/cards?controller={controller}"));
        Assert.Equal(0, await visitor.Page.Locator(Early).CountAsync());
    }

    /// <summary>A link in the early card leads on as soon as there is a page that can follow it.</summary>
    [Fact]
    public async Task One_can_go_on_from_it()
    {
        await using Served served = await stage.Serve();
        TourSite site = stage.Sites.Garden;
        await using Visitor visitor = await Away(served, site, 2, Seat.Phone);
        await visitor.OpenBeforeThePageStarts(site.At("sites/{site}/cards?controller={controller}"));
        await visitor.Page.Locator("#ready .opener button").ClickAsync();
        await visitor.Page.Locator("#ready .way a", new() { HasText = "Visits" }).Last.ClickAsync();
        await visitor.Page.WaitForFunctionAsync("() => location.pathname.endsWith('/visits') && window.startThePage");
        await visitor.LetThePageStart();
        Assert.Equal("Visits", await visitor.Page.Locator("#app main h1").InnerTextAsync());
    }

    /// <summary>Somebody who has opened the site once, never a card of it, and is where no server answers.</summary>
    private async Task<Visitor> Away(Served served, TourSite site, int cards, Seat seat, DateTime? now = null)
    {
        Visitor visitor = await stage.Visit(served, seat with { Worker = true });
        if (now is { } day)
        {
            await visitor.Page.Clock.SetFixedTimeAsync(day);
        }

        await visitor.Open(site.At("sites/{site}"));
        await visitor.KeepThePage();
        await visitor.CardsLieReady(cards);
        await served.StopAsync();
        return visitor;
    }

    /// <summary>Ticking moves the mark of what is next.</summary>
    private static string[] WithoutNext(string[] lines) =>
        [.. lines.Select(l => l.Replace(" next", "", StringComparison.Ordinal).Replace(" lo siguiente", "", StringComparison.Ordinal))];
}
