using Microsoft.Playwright;
using Valvewright.Page.Tests.Hosting;
using Valvewright.Tests.Browsing;

namespace Valvewright.Page.Tests;

/// <summary>
/// Every page in both languages, light and dark, on a phone and on a desk: what axe finds (rules of WCAG 2.2, its third level for contrast
/// and targets), and beside it measurements of our own.
/// </summary>
[Collection(OnStage.Name)]
public sealed class LooksTests(Stage stage, Regulars regulars) : IClassFixture<Regulars>
{
    public static TheoryData<string, string> Pages()
    {
        TheoryData<string, string> data = [];
        foreach (string path in Tour.All)
        {
            data.Add(path, "en");
            data.Add(path, "es");
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_can_be_read_and_touched_by_everybody(string path, string language)
    {
        Visitor visitor = await regulars.At(stage, new Seat { Language = language });
        await visitor.Go(stage.Sites.Garden.At(path));
        await visitor.Page.EvaluateAsync("() => window.openAll()");
        List<string> faults = [];
        foreach (Seat size in (Seat[])[new Seat(), Seat.Phone])
        {
            foreach (ColorScheme look in (ColorScheme[])[ColorScheme.Light, ColorScheme.Dark])
            {
                await visitor.Page.SetViewportSizeAsync(size.Width, size.Height);
                await visitor.Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = look });
                await visitor.Settle();
                faults.AddRange((await Looks.Faults(visitor.Page)).Select(f => $"{size.Width} px, {look}: {f}"));
            }
        }

        Told.None(faults);
        visitor.MustNotComplain();
    }

    /// <summary>200 % zoom on a desk of 1280 px: half as many CSS pixels, each twice as large.</summary>
    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_fits_at_200_percent(string path, string language)
    {
        Visitor visitor = await regulars.At(stage, new Seat { Width = 640, Height = 450, Scale = 2, Language = language });
        await visitor.Go(stage.Sites.Garden.At(path));
        await visitor.Page.EvaluateAsync("() => window.openAll()");
        await visitor.Settle();
        Told.None(await visitor.Page.EvaluateAsync<string[]>("() => window.looks()"));
    }
}
