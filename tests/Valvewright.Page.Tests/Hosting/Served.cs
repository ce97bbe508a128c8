using Valvewright.Server.Hosting;
using Valvewright.Tests.Browsing;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>A server with the page over a store of its own, which can be stopped and started again at the same address.</summary>
public sealed class Served : IAsyncDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-page-").FullName;
    private SiteServer? server;

    /// <summary>Where it listens.</summary>
    public Uri Address { get; private set; } = null!;

    internal string Store => Path.Combine(folder, "sites.db");

    internal HttpClient Client { get; private set; } = null!;

    internal SiteFiller Fill => new(Client);

    /// <summary>Starts one.</summary>
    /// <param name="store">The store to begin with, which is copied; null: an empty one.</param>
    internal static async Task<Served> Start(string? store = null)
    {
        Served served = new();
        if (store is not null)
        {
            Copy(store, served.Store);
        }

        await served.StartAsync();
        return served;
    }

    /// <summary>Copies a store that nobody has open, with what stands beside its file.</summary>
    internal static void Copy(string store, string to)
    {
        foreach (string file in Directory.GetFiles(Path.GetDirectoryName(store)!, Path.GetFileName(store) + "*"))
        {
            File.Copy(file, to + file[store.Length..]);
        }
    }

    /// <summary>Starts to listen.</summary>
    /// <param name="name">The name that browsers call it by; null: its address.</param>
    internal async Task StartAsync(string? name = null)
    {
        server = await SiteServer.StartAsync(new ServerOptions
            { Store = Store, Port = Address?.Port ?? 0, Page = BuiltPage.Folder, Names = name is null ? [] : [name] });
        Address = name is null ? server.Address : new UriBuilder(server.Address) { Host = name }.Uri;
        Client?.Dispose();
        Client = new HttpClient { BaseAddress = server.Address, Timeout = TimeSpan.FromMinutes(3) };
    }

    /// <summary>Nobody answers at its address any more.</summary>
    internal async Task StopAsync()
    {
        if (server is not null)
        {
            await server.DisposeAsync();
            server = null;
        }
    }

    public async ValueTask DisposeAsync()
    {
        await StopAsync();
        Client.Dispose();
        Directory.Delete(folder, recursive: true);
    }
}
