using System.Net;

namespace Valvewright.Server.Hosting;

/// <summary>Where a server keeps its sites and where it listens.</summary>
public sealed record ServerOptions
{
    /// <summary>The port that is listened on unless the person says otherwise.</summary>
    public const int UsualPort = 5280;

    /// <summary>The store: a file, or a PostgreSQL database.</summary>
    public required string Store { get; init; }

    /// <summary>The address to listen on; this machine alone unless the person says otherwise.</summary>
    public IPAddress Address { get; init; } = IPAddress.Loopback;

    /// <summary>The port; 0 takes a free one.</summary>
    public int Port { get; init; } = UsualPort;

    /// <summary>Names, beside localhost and the address itself, under which requests may come.</summary>
    public IReadOnlyList<string> Names { get; init; } = [];

    /// <summary>The certificate to speak TLS with; null: plain HTTP, for this machine or behind a proxy.</summary>
    public System.Security.Cryptography.X509Certificates.X509Certificate2? Certificate { get; init; }

    /// <summary>The code that a device says once; null: anyone who reaches the server may do everything.</summary>
    public string? Code { get; init; }

    /// <summary>Whether people sign in, each with a role (docs/people.md).</summary>
    public bool SignIn { get; init; }

    /// <summary>The file of the people who sign in; next to the store's file where it is not named.</summary>
    public string? People { get; init; }

    /// <summary>What the file of the people is named after.</summary>
    internal string PeopleBy => People ?? Store;

    /// <summary>Proxies whose word on a request's origin is believed; those of this machine always are.</summary>
    public IReadOnlyList<IPAddress> Proxies { get; init; } = [];

    /// <summary>How its silo and others on the same database reach each other.</summary>
    public Jobs.SiloOptions Silo { get; init; } = new();

    /// <summary>Tries of one address to sign in within a minute.</summary>
    internal int TriesAMinute { get; init; } = Server.People.PeopleServices.UsualTries;

    /// <summary>Whether other machines reach it and nothing is asked of who comes.</summary>
    public bool IsOpen => !IPAddress.IsLoopback(Address) && Code is null && !SignIn;

    /// <summary>Whether browsers come over HTTPS: to this server, or to a proxy in front of it.</summary>
    public bool IsSecure => Certificate is not null || Proxies.Count > 0 || (IPAddress.IsLoopback(Address) && Names.Count > 0);

    /// <summary>The address that a browser elsewhere opens, as far as it can be told from here: behind a proxy on this machine the first
    /// name over HTTPS; the first name where all networks are listened on, because theirs is no address to open; else where it
    /// listens.</summary>
    /// <param name="listening">Where it listens.</param>
    public Uri Outside(Uri listening)
    {
        ArgumentNullException.ThrowIfNull(listening);
        bool isAny = Address.Equals(IPAddress.Any) || Address.Equals(IPAddress.IPv6Any);
        return Names.Count > 0 && Certificate is null && IPAddress.IsLoopback(Address) ? new Uri($"https://{Names[0]}/")
            : isAny ? new UriBuilder(listening) { Host = Names.Count > 0 ? Names[0] : "localhost" }.Uri : listening;
    }

    /// <summary>The folder that the page was published to (its <c>wwwroot</c>); null: the API alone.</summary>
    public string? Page { get; init; }
}
