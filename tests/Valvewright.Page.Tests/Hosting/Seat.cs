using Microsoft.Playwright;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>What somebody sits before.</summary>
internal sealed record Seat
{
    public static readonly Seat Phone = new() { Width = 390, Height = 844, Touch = true };

    public int Width { get; init; } = 1280;

    public int Height { get; init; } = 900;

    /// <summary>CSS pixels to a device's: 2 with half the width is what 200 % zoom is.</summary>
    public float Scale { get; init; } = 1;

    public string Language { get; init; } = "en";

    public bool Dark { get; init; }

    public bool Touch { get; init; }

    /// <summary>Whether the page may keep itself on the device.</summary>
    public bool Worker { get; init; }

    public BrowserNewContextOptions Options => new()
    {
        ViewportSize = new ViewportSize { Width = Width, Height = Height },
        DeviceScaleFactor = Scale,
        Locale = Language,
        ColorScheme = Dark ? ColorScheme.Dark : ColorScheme.Light,
        HasTouch = Touch,
        ServiceWorkers = Worker ? ServiceWorkerPolicy.Allow : ServiceWorkerPolicy.Block,
        ReducedMotion = ReducedMotion.Reduce,
    };
}
