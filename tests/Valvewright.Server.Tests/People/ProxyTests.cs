using System.Net;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Options;
using Valvewright.Server.Hosting;
using Valvewright.Server.People;

namespace Valvewright.Server.Tests.People;

/// <summary>Whose word counts on where a request came from, and on which addresses a server may listen.</summary>
public sealed class ProxyTests
{
    [Theory]
    [InlineData("127.0.0.1", null, true)]
    [InlineData("::1", null, true)]
    [InlineData("::ffff:127.0.0.1", null, true)]
    [InlineData("192.0.2.7", null, false)]
    [InlineData("192.0.2.7", "192.0.2.7", true)]
    [InlineData("192.0.2.8", "192.0.2.7", false)]
    [InlineData("10.0.0.1", null, false)]
    public void Only_named_proxies_are_believed(string from, string? named, bool isBelieved)
    {
        DefaultHttpContext http = new();
        http.Connection.RemoteIpAddress = IPAddress.Parse(from);
        http.Request.Scheme = "http";
        http.Request.Headers["X-Forwarded-For"] = "198.51.100.1, 203.0.113.9";
        http.Request.Headers["X-Forwarded-Proto"] = "https";
        http.Request.Headers["X-Forwarded-Host"] = "evil.example";
        new ForwardedHeadersMiddleware(_ => Task.CompletedTask, NullLoggerFactory.Instance,
            Options.Create(PeopleServices.Proxies(named is null ? [] : [IPAddress.Parse(named)]))).ApplyForwarders(http);
        Assert.Equal(isBelieved, http.Request.IsHttps);
        // Of several addresses only the last counts: those before it are the client's own word.
        Assert.Equal(isBelieved ? "203.0.113.9" : from, http.Connection.RemoteIpAddress!.ToString());
        Assert.False(http.Request.Host.HasValue);
    }

    [Fact]
    public async Task No_server_listens_to_other_machines_without_asking_who_comes()
    {
        string folder = Directory.CreateTempSubdirectory("valvewright-open-").FullName;
        ServerOptions open = new() { Store = Path.Combine(folder, "sites.db"), Port = 0, Address = IPAddress.Any };
        await Assert.ThrowsAsync<ArgumentException>(() => SiteServer.StartAsync(open));
        await Assert.ThrowsAsync<ArgumentException>(() => SiteServer.StartAsync(open with { Code = "7KMW4PXA", SignIn = true }));
        Assert.Empty(Directory.GetFiles(folder));
        Directory.Delete(folder);
    }
}
