using Microsoft.Playwright;
using Valvewright.Tests.Browsing;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>What all tests of the page stand on: one browser, the published page, and a store with planned sites that each
/// copies.</summary>
public sealed class Stage : IAsyncLifetime
{
    private IPlaywright playwright = null!;
    private string filled = "";

    internal IBrowser Browser { get; private set; } = null!;

    /// <summary>Sites that everything has been done with.</summary>
    internal FilledSites Sites { get; private set; } = null!;

    public async Task InitializeAsync()
    {
        playwright = await Playwright.CreateAsync();
        Browser = await Chromium.StartAsync(playwright);
        (filled, Sites) = await FilledStore.Take();
    }

    public async Task DisposeAsync()
    {
        await FilledStore.GiveBack();
        await Browser.DisposeAsync();
        playwright.Dispose();
    }

    /// <summary>A server over a copy of the filled store.</summary>
    internal Task<Served> Serve() => Served.Start(filled);

    /// <summary>Copies the filled store.</summary>
    internal void CopyStore(string to) => Served.Copy(filled, to);

    /// <summary>Somebody with a browser of their own, who has never been here.</summary>
    internal Task<Visitor> Visit(Served at, Seat? seat = null) => Visitor.Come(Browser, at.Address, seat ?? new Seat());
}

/// <summary>What pages show: tests that share a stage and those who stay at it, one after another.</summary>
[CollectionDefinition(Name)]
public sealed class OnStage : ICollectionFixture<Stage>, ICollectionFixture<Regulars>, ICollectionFixture<OtherSites>
{
    public const string Name = "what pages show";
}

/// <summary>What people do with them, at the same time on a stage of its own.</summary>
[CollectionDefinition(Name)]
public sealed class AtWork : ICollectionFixture<Stage>
{
    public const string Name = "what people do";
}
