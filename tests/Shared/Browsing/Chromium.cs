using Microsoft.Playwright;

namespace Valvewright.Tests.Browsing;

/// <summary>The browser of the machine, as Debian packs it. None is ever downloaded.</summary>
internal static class Chromium
{
    private static readonly string[] Names = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

    /// <summary>Without a screen, and without asking anybody on the net for anything.</summary>
    private static readonly string[] Arguments =
    [
        "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
            "--disable-component-update", "--disable-sync",
    ];

    /// <summary>Starts a browser.</summary>
    /// <exception cref="InvalidOperationException">There is none.</exception>
    public static Task<IBrowser> StartAsync(IPlaywright playwright) =>
        playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions { ExecutablePath = Path(), Args = Arguments, Headless = true });

    private static string Path() =>
        (from name in Names
         from folder in (Environment.GetEnvironmentVariable("PATH") ?? "").Split(System.IO.Path.PathSeparator)
         let file = System.IO.Path.Combine(folder, name)
         where folder.Length > 0 && File.Exists(file)
         select file).FirstOrDefault()
        ?? throw new InvalidOperationException(
            "There is no browser: chromium is not on the PATH. On Debian, `apt-get install chromium` brings it; ./test does so by itself.");
}
