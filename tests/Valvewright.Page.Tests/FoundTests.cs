using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;
using Valvewright.Page.Tests.Hosting;
using Valvewright.Tests.Browsing;

namespace Valvewright.Page.Tests;

/// <summary>A site that somebody else programmed: what its displays show is proven, made better with two changed settings, kept as the
/// plan, and what was there before is taken up again.</summary>
[Collection(AtWork.Name)]
public sealed class FoundTests(Stage stage)
{
    /// <summary>Four minutes every day on all stations: too little in July, too much in January.</summary>
    private const string Reading = "percent 100; A: days Mon Tue Wed Thu Fri Sat Sun; starts 5:00; st1=4m st2=4m st3=4m st4=4m";

    [Fact]
    public async Task What_is_there_is_proven_bettered_kept_and_taken_up_again()
    {
        await using Served served = await Served.Start();
        Guid id = await served.Fill.Bring("claybank", years: FilledSites.Years);
        await using Visitor visitor = await stage.Visit(served, Seat.Phone);
        await visitor.Open($"sites/{id}/found");
        await visitor.Page.Locator("main textarea").First.FillAsync(Reading);
        await visitor.Page.Locator(".readback dl").First.WaitForAsync();
        await visitor.Page.Locator("#found-changes").SelectOptionAsync("2");
        await visitor.Page.Locator("main .buttons button.main").First.ClickAsync();
        ILocator keep = visitor.Page.Locator("button.main[data-keep]");
        // The answer, or what stands in its way.
        await visitor.Page.Locator("[data-keep], main [role=alert]").First.WaitForAsync(new LocatorWaitForOptions { Timeout = 240_000 });
        Assert.True(await keep.CountAsync() == 1, await visitor.Page.Locator("main").InnerTextAsync());
        Assert.Equal("What is there fails the proof.", await visitor.Page.Locator("main .note b").First.InnerTextAsync());
        Assert.Matches("^Change [12] settings?$", await visitor.Page.Locator("details[open] summary").First.InnerTextAsync());
        string[] saved = [.. await visitor.Page.Locator("main tbody tr td:nth-child(4)").AllInnerTextsAsync()];
        Assert.True(saved.Length >= 2, string.Join('|', saved));
        double[] parts = [.. saved.Where(s => s.Length > 0).SkipLast(1).Select(s => double.Parse(
            string.Concat(s.Where(char.IsDigit)), CultureInfo.InvariantCulture))];
        Assert.Equal(parts.Order(), parts);
        Told.None([.. await Looks.Faults(visitor.Page)]);

        int most = int.Parse((await keep.GetAttributeAsync("data-keep"))!, CultureInfo.InvariantCulture);
        Assert.InRange(most, 1, 2);
        await keep.ClickAsync();
        await visitor.Page.WaitForURLAsync($"**/sites/{id}/plan?plan=*", new PageWaitForURLOptions { Timeout = 120_000 });
        await visitor.Settle();
        JsonElement[] plans = await Plans(served, id);
        Assert.Equal(2, plans.Length);
        Assert.True(plans[0].GetProperty("hasProof").GetBoolean());
        string former = plans[1].GetProperty("id").GetString()!;
        JsonElement[] differing =
            [.. await Programs(served, id, former), .. await Programs(served, id, plans[0].GetProperty("id").GetString()!)];
        Assert.NotEqual(differing[0].ToString(), differing[1].ToString());

        await visitor.Open($"sites/{id}/plan?plan={former}");
        Told.None([.. await Looks.Faults(visitor.Page)]);
        await visitor.Page.Locator("[data-take-up]").ClickAsync();
        await visitor.Page.WaitForURLAsync($"**/sites/{id}/plan", new PageWaitForURLOptions { Timeout = 120_000 });
        plans = await Plans(served, id);
        Assert.Equal(3, plans.Length);
        Assert.Equal(differing[0].ToString(), (await Programs(served, id, plans[0].GetProperty("id").GetString()!))[0].ToString());
        visitor.MustNotComplain();
    }

    /// <summary>The same page in Spanish, up to its answer, and what-if: nothing English, and as easy to read and touch.</summary>
    [Fact]
    public async Task Its_answer_and_what_if_are_in_Spanish()
    {
        await using Served served = await Served.Start();
        Guid id = await served.Fill.Bring("claybank", years: FilledSites.Years);
        await using Visitor visitor = await stage.Visit(served, Seat.Phone with { Language = "es" });
        await visitor.Open($"sites/{id}/found");
        Told.None([.. await EnglishLeft.On(visitor, "claybank"), .. await Looks.Faults(visitor.Page)]);
        await visitor.Page.Locator("main textarea").First.FillAsync(Reading);
        await visitor.Page.Locator(".readback dl").First.WaitForAsync();
        await visitor.Page.Locator("#found-changes").SelectOptionAsync("2");
        await visitor.Page.Locator("main .buttons button.main").First.ClickAsync();
        await visitor.Page.Locator("[data-keep], main [role=alert]").First.WaitForAsync(new LocatorWaitForOptions { Timeout = 240_000 });
        await visitor.Page.EvaluateAsync("() => window.openAll()");
        await visitor.Settle();
        Told.None([.. await EnglishLeft.On(visitor, "claybank"), .. await Looks.Faults(visitor.Page)]);
        await visitor.Page.Locator("button.main[data-keep]").ClickAsync();
        await visitor.Page.WaitForURLAsync($"**/sites/{id}/plan?plan=*", new PageWaitForURLOptions { Timeout = 120_000 });
        await visitor.Open($"sites/{id}/what-if");
        await visitor.Page.EvaluateAsync("() => window.openAll()");
        await visitor.Settle();
        Told.None([.. await EnglishLeft.On(visitor, "claybank"), .. await Looks.Faults(visitor.Page)]);
        visitor.MustNotComplain();
    }

    private static async Task<JsonElement[]> Plans(Served served, Guid site) => [
        .. JsonSerializer.Deserialize<JsonElement>(await served.Client.GetStringAsync($"api/sites/{site}/plans")).EnumerateArray()];

    private static async Task<JsonElement[]> Programs(Served served, Guid site, string plan) => [
        JsonSerializer.Deserialize<JsonElement>(await served.Client.GetStringAsync($"api/sites/{site}/plans/{plan}"))
            .GetProperty("plan").GetProperty("plan")];
}
