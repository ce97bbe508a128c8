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

    /// <summary>In both languages at once. Colors do not depend on the language: Spanish is seen in one look, by axe on a phone.</summary>
    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_can_be_read_and_touched_by_everybody(string path)
    {
        Visitor english = await regulars.At(stage, new Seat()), spanish = await regulars.At(stage, new Seat { Language = "es" });
        Told.None([.. (await Task.WhenAll(InBothLooks(english, path), InOneLook(spanish, path))).SelectMany(f => f)]);
        english.MustNotComplain();
        spanish.MustNotComplain();
    }

    private async Task<List<string>> InBothLooks(Visitor visitor, string path)
    {
        await Go(visitor, path);
        List<string> faults = [];
        foreach (Seat size in (Seat[])[new Seat(), Seat.Phone])
        {
            await visitor.Page.SetViewportSizeAsync(size.Width, size.Height);
            foreach (ColorScheme look in (ColorScheme[])[ColorScheme.Light, ColorScheme.Dark])
            {
                await visitor.Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = look });
                await visitor.Settle();
                IEnumerable<string> found = await Looks.Faults(visitor.Page, ofColor: look == ColorScheme.Dark);
                faults.AddRange(found.Select(f => $"en, {size.Width} px, {look}: {f}"));
            }
        }

        await visitor.Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = ColorScheme.Light });
        return [.. faults, .. await Zoomed(visitor, "en")];
    }

    private async Task<List<string>> InOneLook(Visitor visitor, string path)
    {
        await Go(visitor, path);
        List<string> faults = [.. (await Looks.OwnFaults(visitor.Page)).Select(f => $"es, {new Seat().Width} px: {f}")];
        await visitor.Page.SetViewportSizeAsync(Seat.Phone.Width, Seat.Phone.Height);
        await visitor.Settle();
        faults.AddRange((await Looks.Faults(visitor.Page)).Select(f => $"es, {Seat.Phone.Width} px: {f}"));
        return [.. faults, .. await Zoomed(visitor, "es")];
    }

    private async Task Go(Visitor visitor, string path)
    {
        await visitor.Go(stage.Sites.Garden.At(path));
        await visitor.Page.EvaluateAsync("() => window.openAll()");
        await visitor.Settle();
    }

    /// <summary>200 % zoom on a desk of 1280 px is half as many CSS pixels; then the window is as it was.</summary>
    private static async Task<IEnumerable<string>> Zoomed(Visitor visitor, string language)
    {
        await visitor.Page.SetViewportSizeAsync(640, 450);
        await visitor.Settle();
        string[] faults = await Looks.OwnFaults(visitor.Page);
        await visitor.Page.SetViewportSizeAsync(new Seat().Width, new Seat().Height);
        return faults.Select(f => $"{language}, at 200 %: {f}");
    }
}
