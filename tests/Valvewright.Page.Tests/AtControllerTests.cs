using System.Text.Json;
using Microsoft.Playwright;
using NodaTime;
using UglyToad.PdfPig;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Files.Tests.Cards;
using Valvewright.Files.Texts;
using Valvewright.Page.Tests.Hosting;
using Valvewright.Records;
using Valvewright.Tests.Browsing;
using Xunit.Abstractions;

namespace Valvewright.Page.Tests;

/// <summary>A visit at a controller where there is no signal, on a phone, with nothing typed: touches are counted, and what is recorded is
/// read again.</summary>
[Collection(AtWork.Name)]
public sealed class AtControllerTests(Stage stage, ITestOutputHelper said) : IAsyncLifetime
{
    private static readonly DateTime Day = new(2026, 5, 14, 8, 42, 0, DateTimeKind.Utc);
    private Served served = null!;
    private TourSite site = null!;

    public async Task InitializeAsync()
    {
        served = await Served.Start();
        Guid id = await served.Fill.Bring("quarry-hill", years: FilledSites.Years);
        string digest = (await served.Fill.Send(HttpMethod.Get, $"api/sites/{id}", [], "application/json"))
            .GetProperty("digest").GetString()!;
        ListOf<Engine.Controllers.Program> programs =
        [
            new('A', [new LocalTime(7, 30), new LocalTime(11, 15)], [new RunTime(1, 840), new RunTime(2, 1200)],
                new DaysOfWeek(Engine.Supply.PermittedTimes.EveryWeekday)),
            new('B', [new LocalTime(5, 45)], [new RunTime(3, 5340)], new EveryNDays(11, new LocalDate(2026, 5, 14))),
        ];
        Plan plan = new("Quarry Hill Memorial Garden",
            [new ControllerPlan("Gate", new Settings(programs),
                [new Visit(new AnnualDate(3, 12), 60), new Visit(new AnnualDate(5, 14), 100), new Visit(new AnnualDate(9, 3), 40)])]);
        Guid saved = await served.Fill.Keep($"api/sites/{id}/plans/", new SavedPlan(1, digest, new LocalDate(2026, 3, 1), plan));
        await served.Fill.Keep(
            $"api/sites/{id}/visits/", new VisitValue("Gate", new LocalDateTime(2026, 3, 12, 9, 40), "", AsOnTheCard, 8.9, [], 1250.4, ""));
        site = new TourSite(id, saved, Guid.Empty, "Gate");
    }

    public async Task DisposeAsync() => await served.DisposeAsync();

    private const string AsOnTheCard = "percent 60; on\nA: days Mon Tue Wed Thu Fri Sat Sun; starts 07:30 11:15; st1=14m st2=20m st3=0m " +
        "st4=0m\nB: every 11 days 8 left; starts 05:45; st1=0m st2=0m st3=89m st4=0m";

    [Fact]
    public async Task All_as_on_the_card_then_two_that_differ()
    {
        await using Visitor visitor = await Away();
        Touches plain = new(visitor.Page);
        await visitor.OpenBeforeThePageStarts(site.At("sites/{site}/cards?controller=Gate"));
        await visitor.Page.Locator("#ready a.at").WaitForAsync();
        await plain.Touch("#ready a.at");
        await Visit(plain, () => Task.CompletedTask);
        JsonElement first = await Waiting(visitor.Page);
        await LooksWell(visitor.Page);

        await visitor.OpenBeforeThePageStarts(site.At("sites/{site}/cards?controller=Gate"));
        Touches two = new(visitor.Page);
        await two.Touch("#ready a.at");
        await Visit(two, async () =>
        {
            await two.Touch("[data-row='A start 2']");
            await two.Touch(".column:nth-child(1) .key:first-child");
            await two.Touch("[data-go]");
            await two.Touch("[data-row='A station 1']");
            for (int i = 0; i < 4; i++)
            {
                await two.Touch(".column:nth-last-child(1) .key:nth-child(3)");
            }

            await two.Touch("[data-go]");
        });
        said.WriteLine(
            $"All as on the card, the day's percent to change: {plain.Count} touches, and {plain.Pad} on the number pad; nothing typed.");
        said.WriteLine(
            $"Two settings differ, the percent set already: {two.Count} touches, and {two.Pad} on the number pad; nothing typed.");
        Assert.InRange(plain.Count, 1, 7);
        Assert.InRange(two.Count, 1, 7 + 12);
        JsonElement[] waiting = await AllWaiting(visitor.Page);
        Assert.Equal(2, waiting.Length);
        JsonElement value = JsonSerializer.Deserialize<JsonElement>(waiting[1].GetProperty("body").GetString()!);
        Assert.Contains("starts 07:30 12:15; st1=10m", value.GetProperty("asFound").GetString(), StringComparison.Ordinal);
        Assert.Contains("starts 07:30 11:15; st1=14m", value.GetProperty("asLeft").GetString(), StringComparison.Ordinal);
        Assert.Equal(8.7, JsonSerializer.Deserialize<JsonElement>(first.GetProperty("body").GetString()!)
            .GetProperty("batteryVolts").GetDouble());

        // The server takes them once it answers.
        await served.StartAsync();
        await visitor.OpenBeforeThePageStarts("unsent");
        await visitor.LetThePageStart();
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Send now" }).ClickAsync();
        await visitor.Page.GetByText("Everything recorded on this device is on the server.").WaitForAsync();
        JsonElement[] kept = [
            .. JsonSerializer.Deserialize<JsonElement>(await served.Client.GetStringAsync($"api/sites/{site.Id}/visits")).EnumerateArray()];
        Assert.Equal(3, kept.Length);
    }

    /// <summary>From the card, offline, the processor slowed four times: what is seen when, of the work at the controller and of the
    /// card.</summary>
    [Fact]
    public async Task It_stands_without_the_engine_and_comes_back_to_where_one_was()
    {
        await using Visitor visitor = await Away();
        ICDPSession session = await visitor.Page.Context.NewCDPSessionAsync(visitor.Page);
        await session.SendAsync("Emulation.setCPUThrottlingRate", new Dictionary<string, object> { ["rate"] = 4 });
        await visitor.Page.AddInitScriptAsync("""
            new MutationObserver((_, watch) => {
              if (!document.querySelector('#at .row, #ready .keyed')) return;
              watch.disconnect();
              requestAnimationFrame(() => setTimeout(() => { window.seenAt = performance.now(); }));
            }).observe(document, { childList: true, subtree: true });
            """);
        List<double> cards = [], works = [];
        for (int i = 0; i < 3; i++)
        {
            await visitor.OpenBeforeThePageStarts(site.At("sites/{site}/cards?controller=Gate"));
            cards.Add(await Seen(visitor.Page));
            await OpenAt(visitor);
            works.Add(await Seen(visitor.Page));
        }

        said.WriteLine(
            $"Drawn after, ms, the processor slowed four times, no server: the card {string.Join(", ", cards.Select(c => $"{c:0}"))}; the work at the controller {string.Join(", ", works.Select(w => $"{w:0}"))}.");
        Assert.Equal(0, await visitor.Page.Locator("#app .head").CountAsync());
        await visitor.Page.Locator("#at [data-row='A station 2']").ClickAsync();
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Can't read it" }).ClickAsync();
        await visitor.Page.Locator("#at [data-go]").ClickAsync();
        await visitor.Page.Locator("#at .huge").ClickAsync();
        await visitor.Page.GetByText("No check text yet").WaitForAsync();
        await LooksWell(visitor.Page);

        // A call, an empty battery: the same place, with the same ticks.
        await OpenAt(visitor);
        await visitor.Page.GetByText("No check text yet").WaitForAsync();
        Assert.Empty(await AllWaiting(visitor.Page));
    }

    /// <summary>The code of the printed card and of the card on the screen, read as a camera reads it, then opened where nobody
    /// answers.</summary>
    [Fact]
    public async Task The_code_on_the_card_leads_here_without_a_signal()
    {
        await served.StopAsync();
        await served.StartAsync("garden.localhost");
        string paper = await PaperCode(new LocalDate(2026, 5, 14)), ahead = await PaperCode(new LocalDate(2026, 9, 3));
        Assert.Equal($"{served.Address}sites/{site.Id}/at?controller=Gate&from=2026-05-14", paper.Split('#')[0]);
        await using Visitor visitor = await stage.Visit(served, Seat.Phone with { Worker = true });
        await visitor.Page.Clock.SetFixedTimeAsync(Day);
        await visitor.Open(site.At("sites/{site}/cards?controller=Gate"));
        string drawn = await visitor.Page.Locator(".qr path").GetAttributeAsync("d") ?? "";
        Assert.Equal(paper.Split('#')[0], CodeOnScreen.Read(drawn).Split('#')[0]);
        await visitor.KeepThePage();
        await visitor.CardsLieReady(1);
        await served.StopAsync();

        await visitor.OpenAsGiven(paper);
        await visitor.Page.Locator("#at [data-row='A start 2']").WaitForAsync();
        Assert.Equal(0, await visitor.Page.Locator("#app .head").CountAsync());
        Assert.Equal(0, await visitor.Page.Locator("[data-card]").CountAsync());
        await visitor.Page.Locator("#at [data-go]").TapAsync();
        Assert.Equal("100 %", Spaced(await visitor.Page.Locator("#at [data-new='percent']").InnerTextAsync()));

        // The card of a visit to come, printed ahead: it is set from that card, and the screen says which it is.
        await visitor.Page.EvaluateAsync("() => new Promise(done => { const o = indexedDB.open('valvewright'); "
            + "o.onsuccess = () => { const t = o.result.transaction('drafts', 'readwrite'); t.objectStore('drafts').clear(); "
            + "t.oncomplete = () => { o.result.close(); done(); }; }; })");
        await visitor.OpenAsGiven(ahead);
        await visitor.Page.Locator("#at [data-card='2026-09-03']").WaitForAsync();
        await visitor.Page.Locator("#at [data-go]").TapAsync();
        Assert.Equal("40 %", Spaced(await visitor.Page.Locator("#at [data-new='percent']").InnerTextAsync()));
    }

    private static string Spaced(string text) => text.Replace('\u00a0', ' ').Replace("%", " %", StringComparison.Ordinal)
        .Replace("  ", " ", StringComparison.Ordinal);

    /// <summary>What the code on the printed card says, where the server is asked for it by its name.</summary>
    private async Task<string> PaperCode(LocalDate on)
    {
        using HttpRequestMessage asked = new(
            HttpMethod.Get, $"api/sites/{site.Id}/plans/{site.Plan}/cards.pdf?controller=Gate&from={on:uuuu-MM-dd}")
            { Headers = { Host = served.Address.Authority } };
        using HttpResponseMessage answer = await served.Client.SendAsync(asked);
        using PdfDocument pdf = PdfDocument.Open(await answer.Content.ReadAsByteArrayAsync());
        return new CardPage(pdf.GetPage(1), Language.English, ClockStyle.Hours24).ReadCode() ?? "no code found";
    }

    private Task OpenAt(Visitor visitor) =>
        visitor.Page.GotoAsync(new Uri(served.Address, site.At("sites/{site}/at?controller=Gate")).ToString());

    private static async Task<double> Seen(IPage page) =>
        await (await page.WaitForFunctionAsync("() => window.seenAt")).JsonValueAsync<double>();

    private static async Task Visit(Touches touches, Func<Task> found)
    {
        await touches.Page.Locator("#at [data-row='A start 2']").WaitForAsync();
        await found();
        await touches.Touch("[data-go]");
        while (await touches.Page.Locator("#at .huge").CountAsync() > 0)
        {
            await touches.Touch("#at .huge");
        }

        await touches.Page.Locator("[data-check]").WaitForAsync();
        await touches.Touch("[data-go]");
        await touches.Key("8.7");
        await touches.Touch("[data-go]");
        await touches.Key("75");
        await touches.Touch("[data-go]");
        await touches.Page.Locator("#at [data-screen='done']").WaitForAsync();
    }

    private static async Task LooksWell(IPage page)
    {
        string[] small = await page.EvaluateAsync<string[]>("() => [...document.querySelectorAll('#at :is(button, a)')].map(e => [e, " +
            "e.getBoundingClientRect()]).filter(([, b]) => b.width && (b.width < 55.9 || b.height < 55.9)).map(([e, b]) => " +
                "`${e.textContent} ${b.width} x ${b.height}`)");
        Told.None(small);
        Told.None([.. (await Looks.Faults(page)).Where(f => !f.Contains("#app", StringComparison.Ordinal))]);
    }

    private static async Task<JsonElement[]> AllWaiting(IPage page) => [.. (await page.EvaluateAsync<string[]>("""
        () => new Promise(done => { const o = indexedDB.open('valvewright'); o.onsuccess = () => { const a = o.result.transaction('unsent').objectStore('unsent').getAll(); a.onsuccess = () => { o.result.close(); done(a.result); }; }; })
        """)).Select(t => JsonSerializer.Deserialize<JsonElement>(t)).OrderBy(r => r.GetProperty("number").GetInt64())];

    private static async Task<JsonElement> Waiting(IPage page) => Assert.Single(await AllWaiting(page));

    /// <summary>Somebody who opened the site once; the server is gone now.</summary>
    private async Task<Visitor> Away()
    {
        Visitor visitor = await stage.Visit(served, Seat.Phone with { Worker = true });
        await visitor.Page.Clock.SetFixedTimeAsync(Day);
        await visitor.Open(site.At("sites/{site}"));
        await visitor.KeepThePage();
        await visitor.CardsLieReady(1);
        await served.StopAsync();
        return visitor;
    }
}
