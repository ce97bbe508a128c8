using System.Diagnostics;
using System.Globalization;
using Microsoft.Playwright;
using Valvewright.Server.Hosting;
using Valvewright.Tests;
using Valvewright.Tests.Browsing;

namespace Valvewright.Bench;

/// <summary>The page over the wire, and how soon a card is there without a signal, beside an empty page of the same kind.</summary>
internal static partial class PageBenchmark
{
    /// <summary>How much slower than this machine a phone's processor is taken to be.</summary>
    private const int Slower = 4;
    private const int LongestMs = 120_000;

    /// <summary>Options: --times 9; --what-if times only settings changed by hand, --trace only the questions of a fault's trace, --early
    /// only what is there before the engine.</summary>
    public static int Run(string[] arguments) => InFolder(async folder =>
    {
        int times = Array.IndexOf(arguments, "--times") is var at and >= 0 && at + 1 < arguments.Length
            ? int.Parse(arguments[at + 1], CultureInfo.InvariantCulture) : 9;
        using IPlaywright playwright = await Playwright.CreateAsync();
        await using IBrowser browser = await Chromium.StartAsync(playwright);
        Console.WriteLine($"Chromium {browser.Version}");
        if (arguments.Contains("--what-if") || arguments.Contains("--trace"))
        {
            await using Opened byHand = await Opened
                .At(browser, Path.Combine(folder, "sites.db"), BuiltPage.Folder, null, "#app article.card h1");
            foreach (int slower in (int[])[1, Slower])
            {
                if (arguments.Contains("--trace"))
                {
                    Tell($"the next question, slowed {slower} times", await byHand.Questions(slower, times));
                }
                else
                {
                    Tell($"a run time changed by hand, slowed {slower} times", await byHand.Touches(slower, times));
                }
            }

            return 0;
        }

        await using Opened empty = await Opened.At(browser, Path.Combine(folder, "empty.db"), EmptyPage(), "", "#app main h1");
        await using Opened page = await Opened
            .At(browser, Path.Combine(folder, "sites.db"), BuiltPage.Folder, null, "#app article.card h1");
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
                $"over the wire  first load {page.FirstBytes / 1e6:0.00} MB (empty page {empty.FirstBytes / 1e6:0.00} MB), of it {page.BeforeUseBytes / 1e6:0.00} MB until it could be used; second load {page.SecondBytes / 1e3:0.0} kB"));
        await empty.GoneOffline();
        await page.GoneOffline();
        List<double> nothing = [], card = [], live = [], within = [], work = [];
        if (arguments.Contains("--early"))
        {
            for (int i = 0; i < times; i++)
            {
                nothing.Add((await empty.Load()).Live);
                card.Add(await page.CardAlone());
                work.Add(await page.WorkAtController());
            }

            Tell("a card, from the address to its lines", card);
            Tell("the work at a controller, to its rows", work);
            Tell("an empty Blazor WebAssembly page", nothing);
            return 0;
        }

        for (int i = 0; i < times; i++)
        {
            nothing.Add((await empty.Load()).Live);
            (double seen, double taken) = await page.Load();
            card.Add(seen);
            live.Add(taken);
            within.Add(await page.FromTheSite());
            work.Add(await page.WorkAtController());
        }

        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"offline, processor slowed {Slower} times, median of {times} (least to most), until drawn:"));
        Tell("a card, from the address to its lines", card);
        Tell("the work at a controller, to its rows", work);
        Tell("the live card in its place", live);
        Tell("an empty Blazor WebAssembly page", nothing);
        Tell("a card from the site's page, by a link", within);
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
                $"  a card to the empty page {Median(card) / Median(nothing):0.00}, the live card to it {Median(live) / Median(nothing):0.00}, the work at a controller {Median(work) / Median(nothing):0.00}"));
        return page.FirstBytes <= 4_000_000 ? 0 : 1;
    });

    private static void Tell(string what, List<double> seconds) =>
        Console.WriteLine(string
            .Create(CultureInfo.InvariantCulture,
                $"  {what,-40} {Median(seconds):0.000} s ({seconds.Min():0.000} to {seconds.Max():0.000})"));

    private static double Median(List<double> values) => values.Order().ElementAt(values.Count / 2);

    private static string EmptyPage()
    {
        string to = Path.Combine(Checkout.Root, ".build", "empty-page");
        using Process publish = Process.Start(
            new ProcessStartInfo(
                "dotnet", ["publish", Path.Combine(Checkout.Root, "bench", "Valvewright.EmptyPage"), "-c", "Release", "-o", to, "--nologo",
                    "-v", "quiet"]))!;
        publish.WaitForExit();
        return publish.ExitCode == 0 ? Path.Combine(to, "wwwroot") : throw new InvalidOperationException(
            "The empty page can't be published.");
    }

    private static int InFolder(Func<string, Task<int>> work)
    {
        string folder = Directory.CreateTempSubdirectory("valvewright-bench-").FullName;
        try
        {
            return work(folder).GetAwaiter().GetResult();
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
