using Microsoft.Playwright;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>Touches, counted; those on the number pad apart.</summary>
internal sealed class Touches(IPage page)
{
    public IPage Page { get; } = page;

    public int Count { get; private set; }

    public int Pad { get; private set; }

    public async Task Touch(string what)
    {
        await Page.Locator(what).First.TapAsync();
        Count++;
    }

    public async Task Key(string number)
    {
        foreach (char sign in number)
        {
            await Page.Locator($"[data-key='{sign}']").TapAsync();
            Pad++;
        }
    }
}
