using Microsoft.Playwright;
using Valvewright.Page.Tests.Hosting;
using Valvewright.Tests.Browsing;

namespace Valvewright.Page.Tests;

/// <summary>
/// Every page in both languages, light and dark, on a phone and on a desk: what axe finds (rules of WCAG 2.2, its third level for contrast
/// and targets), and beside it measurements of our own.
/// </summary>
[Collection(OnStage.Name)]
public sealed class LooksTests(Stage stage, Regulars regulars)
{
    public static TheoryData<string> Pages() => [.. Tour.All];

    /// <summary>In both languages at once. 200 % zoom on a desk of 1280 px is half as many CSS pixels.</summary>
    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_can_be_read_and_touched_by_everybody(string path)
    {
        Visitor[] visitors = [await regulars.At(stage, new Seat()), await regulars.At(stage, new Seat { Language = "es" })];
        Told.None([.. (await Task.WhenAll(visitors.Select(v => Faults(v, path)))).SelectMany(f => f)]);
        Assert.All(visitors, v => v.MustNotComplain());
    }

    private async Task<List<string>> Faults(Visitor visitor, string path)
    {
        await visitor.Go(stage.Sites.Garden.At(path));
        await visitor.Page.EvaluateAsync("() => window.openAll()");
        string language = await visitor.Page.EvaluateAsync<string>("() => document.documentElement.lang");
        List<string> faults = [];
        foreach (Seat size in (Seat[])[new Seat(), Seat.Phone])
        {
            await visitor.Page.SetViewportSizeAsync(size.Width, size.Height);
            foreach (ColorScheme look in (ColorScheme[])[ColorScheme.Light, ColorScheme.Dark])
            {
                await visitor.Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = look });
                await visitor.Settle();
                faults.AddRange((await Looks.Faults(visitor.Page, ofColor: look == ColorScheme.Dark)).Select(f => $"{language}, {size.Width} px, {look}: {f}"));
            }
        }

        await visitor.Page.SetViewportSizeAsync(640, 450);
        await visitor.Settle();
        faults.AddRange((await visitor.Page.EvaluateAsync<string[]>("() => window.looks()")).Select(f => $"{language}, at 200 %: {f}"));
        await visitor.Page.SetViewportSizeAsync(new Seat().Width, new Seat().Height);
        await visitor.Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = ColorScheme.Light });
        return faults;
    }
}
