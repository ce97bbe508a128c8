using Microsoft.Playwright;
using Valvewright.Tests.Browsing;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>What all tests of the page stand on: one browser, the published page, and a store with planned sites that each copies.</summary>
public sealed class Stage : IAsyncLifetime
{
    private IPlaywright playwright = null!;
    private Served filled = null!;

    internal IBrowser Browser { get; private set; } = null!;

    /// <summary>Sites that everything has been done with.</summary>
    internal FilledSites Sites { get; private set; } = null!;

    public async Task InitializeAsync()
    {
        playwright = await Playwright.CreateAsync();
        Browser = await Chromium.StartAsync(playwright);
        filled = await Served.Start();
        Sites = await FilledSites.Make(filled.Fill);
        await filled.StopAsync();
    }

    public async Task DisposeAsync()
    {
        await filled.DisposeAsync();
        await Browser.DisposeAsync();
        playwright.Dispose();
    }

    /// <summary>A server over a copy of the filled store.</summary>
    internal Task<Served> Serve() => Served.Start(filled.Store);

    /// <summary>Copies the filled store.</summary>
    internal void CopyStore(string to) => Served.Copy(filled.Store, to);

    /// <summary>Somebody with a browser of their own, who has never been here.</summary>
    internal Task<Visitor> Visit(Served at, Seat? seat = null) => Visitor.Come(Browser, at.Address, seat ?? new Seat());
}

/// <summary>All tests that share the stage, one after another.</summary>
[CollectionDefinition(Name)]
public sealed class OnStage : ICollectionFixture<Stage>, ICollectionFixture<Regulars>, ICollectionFixture<OtherSites>
{
    public const string Name = "page";
}
