using Microsoft.Playwright;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>Somebody who uses the page, and what their browser complained of.</summary>
internal sealed class Visitor : IAsyncDisposable
{
    private const int LongestMs = 60_000;

    /// <summary>Said by the browser's driver, not by the page, where a seat has no service worker.</summary>
    private const string OfTheDriver = "Service Worker registration blocked by Playwright";

    private readonly IBrowserContext context;
    private readonly Uri address;
    private readonly List<string> complaints = [];

    private Visitor(IBrowserContext context, IPage page, Uri address)
    {
        (this.context, Page, this.address) = (context, page, address);
        page.Console += (_, message) =>
            Complain(message.Type is "error" or "warning" && message.Text != OfTheDriver, $"{message.Type}: {message.Text}");
        page.PageError += (_, text) => Complain(true, $"error: {text}");
    }

    public IPage Page { get; private set; }

    /// <summary>The port of the server that it came from.</summary>
    public int Port => address.Port;

    /// <summary>What the browser said went wrong: errors of scripts, requests that failed, breaches of the page's own policy.</summary>
    public IReadOnlyList<string> Complaints
    {
        get
        {
            lock (complaints)
            {
                return [.. complaints];
            }
        }
    }

    public static async Task<Visitor> Come(IBrowser browser, Uri address, Seat seat)
    {
        IBrowserContext context = await browser.NewContextAsync(seat.Options);
        context.SetDefaultTimeout(LongestMs);
        // Put there by the browser's driver: the page's own policy would rightly refuse them.
        foreach (string script in (string[])["quiet.js", "colours.js", "looks.js", "words.js", "keys.js"])
        {
            await context.AddInitScriptAsync(Measure.Text(script));
        }

        return new Visitor(context, await context.NewPageAsync(), address);
    }

    /// <summary>Loads the page afresh at an address below the server's.</summary>
    public async Task Open(string path)
    {
        await Page.GotoAsync(new Uri(address, path).ToString());
        await Settle();
    }

    /// <summary>Opens a whole address as it was read off something.</summary>
    public Task OpenAsGiven(string address) => Page.GotoAsync(address);

    /// <summary>Loads the page afresh, and does not let its engine start before <see cref="LetThePageStart"/>.</summary>
    public async Task OpenBeforeThePageStarts(string path)
    {
        await Page.AddInitScriptAsync(Measure.Text("held.js"));
        await Page.GotoAsync(new Uri(address, path).ToString());
        await Page.WaitForFunctionAsync("() => window.startThePage");
    }

    /// <summary>Lets the engine start.</summary>
    public async Task LetThePageStart()
    {
        await Page.EvaluateAsync("() => { window.startThePage(); }");
        await Settle();
    }

    /// <summary>Waits until so many cards lie ready on the device.</summary>
    public Task CardsLieReady(int cards) => Page.EvaluateAsync("cards => window.untilReady(cards)", cards);

    /// <summary>Goes to an address as a link within the page does.</summary>
    public async Task Go(string path)
    {
        await Page.EvaluateAsync("path => Blazor.navigateTo(path)", path);
        await Settle();
    }

    /// <summary>Waits until there is a page, not only a card that lay ready, and it has stopped changing.</summary>
    public async Task Settle()
    {
        await Page.Locator("#app main h1").First.WaitForAsync();
        await Page.EvaluateAsync("() => window.untilQuiet()");
    }

    /// <summary>Waits for a text; where it does not come, the failure says what is shown instead.</summary>
    public async Task Sees(string text)
    {
        try
        {
            await Page.GetByText(text).First.WaitForAsync();
        }
        catch (TimeoutException)
        {
            Assert.Fail($"\"{text}\" does not come. {Page.Url} shows: {await Page.Locator("body").InnerTextAsync()}");
        }
    }

    /// <summary>Waits until the page has gone to an address; where it does not, the failure says what is shown instead.</summary>
    public async Task Arrives(string address)
    {
        try
        {
            // The browser's driver also waits for a load that a move within the page does not bring: the address itself is asked for.
            await Page.WaitForFunctionAsync("end => location.pathname.endsWith(end)", address.TrimStart('*'));
        }
        catch (TimeoutException)
        {
            Assert.Fail($"{address} does not come. {Page.Url} shows: {await Page.Locator("body").InnerTextAsync()}");
        }

        await Settle();
    }

    /// <summary>Waits until the page has kept itself on the device.</summary>
    public Task KeepThePage() => Page.EvaluateAsync(
        "async () => { const kept = await navigator.serviceWorker.ready; if (!kept.active) throw new Error('No worker is active.'); }");

    /// <summary>What went wrong is said in the test's failure.</summary>
    public void MustNotComplain() => Told.None(Complaints);

    public async ValueTask DisposeAsync() => await context.DisposeAsync();

    private void Complain(bool isOne, string text)
    {
        if (isOne)
        {
            lock (complaints)
            {
                complaints.Add($"{Page?.Url}: {text}");
            }
        }
    }
}
