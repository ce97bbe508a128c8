using Microsoft.Playwright;
using Valvewright.Server.Hosting;
using Valvewright.Tests.Browsing;

namespace Valvewright.Bench;

/// <content>The page as somebody has it who has been there before.</content>
internal static partial class PageBenchmark
{
    private const string CardsLieReady = """
        () => new Promise(done => {
          const opening = indexedDB.open('valvewright');
          opening.onsuccess = () => {
            const keys = opening.result.transaction('ready').objectStore('ready').getAllKeys();
            keys.onsuccess = () => { opening.result.close(); done(keys.result.some(k => k[2] === 'Gate')); };
          };
        })
        """;

    /// <summary>A page that has been visited once.</summary>
    private sealed class Opened(SiteServer server, HttpClient client, Wire wire, IBrowserContext context, IPage page, string wanted)
        : IAsyncDisposable
    {
        private bool isServed = true;
        private string path = "";
        private string site = "";

        public long BeforeUseBytes { get; private set; }

        public long FirstBytes { get; private set; }

        public long SecondBytes { get; private set; }

        /// <summary>Visits a page twice and counts.</summary>
        /// <param name="browser">The browser.</param>
        /// <param name="store">The store's file.</param>
        /// <param name="folder">The published page.</param>
        /// <param name="path">The address that is timed later; null: the card of the main demo.</param>
        /// <param name="wanted">What has to be there.</param>
        public static async Task<Opened> At(IBrowser browser, string store, string folder, string? path, string wanted)
        {
            SiteServer server = await SiteServer.StartAsync(new ServerOptions { Store = store, Port = 0, Page = folder });
            HttpClient client = new() { BaseAddress = server.Address };
            Wire wire = new(server.Address);
            IBrowserContext context = await browser.NewContextAsync();
            context.SetDefaultTimeout(LongestMs);
            IPage tab = await context.NewPageAsync();
            Opened opened = new(server, client, wire, context, tab, wanted);
            if (path is null)
            {
                SiteFiller fill = new(client);
                Guid site = await fill.Bring("quarry-hill");
                await fill.Do(site, new { kind = "plan", visits = 0, from = "2026-04-01" });
                (opened.site, path) = ($"sites/{site}", $"sites/{site}/cards?controller=Gate");
            }

            opened.path = path;
            await opened.Visit("");
            await tab.Locator("main h1").First.WaitForAsync();
            opened.BeforeUseBytes = wire.Down;
            await tab.EvaluateAsync("() => navigator.serviceWorker.ready.then(() => 0)");
            opened.FirstBytes = wire.Down;
            await opened.Visit("");
            await tab.Locator("main h1").First.WaitForAsync();
            await tab.EvaluateAsync("async () => { await (await navigator.serviceWorker.ready).update(); }");
            opened.SecondBytes = wire.Down - opened.FirstBytes;
            // The site is opened once, its cards never.
            await opened.Visit(opened.site);
            await tab.Locator("#app main h1").First.WaitForAsync();
            if (opened.site.Length > 0)
            {
                while (!await tab.EvaluateAsync<bool>(CardsLieReady))
                {
                    await Task.Delay(100);
                }
            }

            return opened;
        }

        /// <summary>Nobody answers any more, and the processor is slow.</summary>
        public async Task GoneOffline()
        {
            await wire.DisposeAsync();
            await server.DisposeAsync();
            isServed = false;
            ICDPSession session = await context.NewCDPSessionAsync(page);
            await session.SendAsync("Emulation.setCPUThrottlingRate", new Dictionary<string, object> { ["rate"] = Slower });
            // What is in the page counts when it has been drawn.
            await context.AddInitScriptAsync($$"""
                {
                  const drawn = name => {
                    if (window[name] === undefined) {
                      window[name] = null;
                      requestAnimationFrame(() => setTimeout(() => { window[name] = performance.now(); }));
                    }
                  };
                  const watch = new MutationObserver(() => {
                    if (document.querySelector('#at .row')) drawn('workAt');
                    if (document.querySelector('{{wanted}}')) { drawn('liveAt'); drawn('seenAt'); watch.disconnect(); }
                    else if (document.querySelector('#ready article.card h1')) drawn('seenAt');
                  });
                  watch.observe(document, { subtree: true, childList: true });
                }
                """);
        }

        /// <summary>Seconds from typing the address until what is wanted is seen, and until the page itself shows it.</summary>
        public async Task<(double Seen, double Live)> Load()
        {
            await page.GotoAsync("about:blank");
            await Visit(path);
            await page.WaitForFunctionAsync("() => window.liveAt");
            double[] at = await page.EvaluateAsync<double[]>("() => [window.seenAt, window.liveAt]");
            return (at[0] / 1000, at[1] / 1000);
        }

        /// <summary>Seconds from typing the card's address until its lines are there.</summary>
        public async Task<double> CardAlone()
        {
            await page.GotoAsync("about:blank");
            await Visit(path);
            return await (await page.WaitForFunctionAsync("() => window.seenAt")).JsonValueAsync<double>() / 1000;
        }

        /// <summary>Seconds from the address in the card's code until the rows of the work at the controller are there.</summary>
        public async Task<double> WorkAtController()
        {
            await page.GotoAsync("about:blank");
            await Visit($"{site}/at?controller=Gate");
            return await (await page.WaitForFunctionAsync("() => window.workAt")).JsonValueAsync<double>() / 1000;
        }

        /// <summary>Seconds from touching a run time on the page of settings changed by hand until its answer is drawn.</summary>
        public async Task<List<double>> Touches(int slower, int times)
        {
            ICDPSession session = await context.NewCDPSessionAsync(page);
            await session.SendAsync("Emulation.setCPUThrottlingRate", new Dictionary<string, object> { ["rate"] = slower });
            await Visit($"{site}/what-if");
            await page.Locator("table.whatIf").First.WaitForAsync();
            List<double> seconds = [];
            for (int i = 0; i <= times; i++)
            {
                double took = await page.EvaluateAsync<double>("""
                    () => new Promise(done => {
                      const keys = [...document.querySelectorAll('.whatIfSettings .between .stepper')].at(-1).querySelectorAll('button');
                      const begun = performance.now();
                      keys[1].click();
                      requestAnimationFrame(() => setTimeout(() => done((performance.now() - begun) / 1000)));
                    })
                    """);
                if (i > 0)
                {
                    seconds.Add(took);
                }
            }

            return seconds;
        }

        /// <summary>Seconds from answering a question of a fault's trace until the next one is drawn: every complaint, each answered with
        /// the first answer up to its end, so many times.</summary>
        public async Task<List<double>> Questions(int slower, int times)
        {
            ICDPSession session = await context.NewCDPSessionAsync(page);
            await session.SendAsync("Emulation.setCPUThrottlingRate", new Dictionary<string, object> { ["rate"] = slower });
            await Visit($"{site}/trace");
            List<double> seconds = [];
            for (int i = 0; i <= times; i++)
            {
                await page.Locator("#app .large-answers button.main").First.WaitForAsync();
                int complaints = await page.Locator("#app .large-answers button.main").CountAsync();
                for (int complaint = 0; complaint < complaints; complaint++)
                {
                    await page.Locator("#app .large-answers button.main").Nth(complaint).ClickAsync();
                    await page.Locator("#app .question, #app table meter").First.WaitForAsync();
                    while (await page.Locator("#app .question").CountAsync() > 0)
                    {
                        double took = await page.EvaluateAsync<double>("""
                            () => new Promise(done => {
                              const question = document.querySelector('#app .question');
                              const answer = question.querySelector('.large-answers button')
                                ?? question.querySelector('.buttons:last-child button');
                              const asked = question.querySelector('.large').textContent;
                              const begun = performance.now();
                              const look = () => {
                                if (document.querySelector('#app .question .large')?.textContent !== asked) {
                                  watch.disconnect();
                                  requestAnimationFrame(() => setTimeout(() => done((performance.now() - begun) / 1000)));
                                }
                              };
                              const watch = new MutationObserver(look);
                              watch.observe(document, { subtree: true, childList: true, characterData: true });
                              answer.click();
                              look();
                            })
                            """);
                        if (i > 0)
                        {
                            seconds.Add(took);
                        }
                    }

                    await page.Locator("#app .buttons button.slight").Last.ClickAsync();
                    await page.Locator("#t-controller").WaitForAsync();
                }
            }

            return seconds;
        }

        /// <summary>Seconds from touching a link on the site's own page until the card is there.</summary>
        public async Task<double> FromTheSite()
        {
            await Visit(site);
            await page.Locator("#app main h1").First.WaitForAsync();
            return await page.EvaluateAsync<double>($$"""
                path => new Promise(done => {
                  const begun = performance.now();
                  const watch = new MutationObserver(() => {
                    if (document.querySelector('{{wanted}}')) {
                      watch.disconnect();
                      requestAnimationFrame(() => setTimeout(() => done((performance.now() - begun) / 1000)));
                    }
                  });
                  watch.observe(document, { subtree: true, childList: true });
                  Blazor.navigateTo(path);
                })
                """, path);
        }

        public async ValueTask DisposeAsync()
        {
            await context.DisposeAsync();
            client.Dispose();
            if (isServed)
            {
                await wire.DisposeAsync();
                await server.DisposeAsync();
            }
        }

        private Task<IResponse?> Visit(string to) => page.GotoAsync(new Uri(wire.Address, to).ToString());
    }
}
