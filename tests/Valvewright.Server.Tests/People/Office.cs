using System.Net;
using System.Text.RegularExpressions;
using NodaTime;
using NodaTime.Testing;
using Valvewright.Server.Hosting;
using Valvewright.Server.Nights;
using Valvewright.Server.People;

namespace Valvewright.Server.Tests.People;

/// <summary>A server where people sign in, with a clock that stands until a test moves it.</summary>
internal sealed partial class Office : IAsyncDisposable
{
    public const string Password = "a long green valve box";
    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-people-").FullName;
    private SiteServer server = null!;

    private Office()
    {
    }

    /// <summary>Far ahead: the browser of a test has the machine's clock, and drops what has run out by it.</summary>
    public FakeClock Clock { get; } = new(Instant.FromUtc(2099, 4, 10, 8, 0));

    public string Store => Path.Combine(folder, "sites.db");

    public Uri Address => server.Address;

    /// <summary>Has it look at all sites, as it does each minute.</summary>
    public async Task<int> LookAtNight() => await (await server.Grains).GetGrain<INightGrain>(0).Look();

    public int Tries { get; init; } = 10_000;

    public static async Task<Office> Open(int tries = 10_000, string? name = null)
    {
        Office office = new() { Tries = tries };
        await office.Start(name);
        return office;
    }

    public async Task Start(string? name = null)
    {
        server = await SiteServer.StartAsync(
            new ServerOptions { Store = Store, Port = 0, SignIn = true, TriesAMinute = Tries, Names = name is null ? [] : [name] }, Clock);
    }

    public async Task Restart()
    {
        await server.DisposeAsync();
        await Start();
    }

    public async ValueTask DisposeAsync()
    {
        await server.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>What the register does, from outside the server, as the command does it.</summary>
    public T Register<T>(Func<Register, T> work)
    {
        using PeopleContext context = new(PeopleFile.Options(Store));
        return work(new Register(context, Clock));
    }

    /// <summary>The secret of an invitation.</summary>
    public string Invite(string organization, string name, MemberRole role) =>
        Register(r => r.Invite(r.Organization(organization, make: true)!.Id, name, role, "Test"));

    /// <summary>A browser that no one has signed in with.</summary>
    public Browser Stranger() => new(Address);

    /// <summary>A browser of a new member.</summary>
    public async Task<Browser> Member(string organization, string name, MemberRole role)
    {
        Browser browser = Stranger();
        using HttpResponseMessage joined = await browser.Join(Invite(organization, name, role), name, Password);
        Assert.Equal(HttpStatusCode.SeeOther, joined.StatusCode);
        return browser;
    }

    /// <summary>What a browser does: it keeps cookies and sends forms as the page gave them.</summary>
    internal sealed partial class Browser : IDisposable
    {
        public Browser(Uri address) => Client = new HttpClient(
            new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = Cookies }) { BaseAddress = address };

        public CookieContainer Cookies { get; } = new();

        public HttpClient Client { get; }

        public void Dispose() => Client.Dispose();

        /// <summary>Opens a page and sends a form that is on it.</summary>
        public async Task<HttpResponseMessage> Send(string page, string address, params (string Name, string Value)[] fields)
        {
            string html = await (await Client.GetAsync(page)).Content.ReadAsStringAsync();
            Match token = Hidden().Match(html);
            Assert.True(token.Success, html);
            return await Post(address, [.. fields, ("form", token.Groups[1].Value)]);
        }

        public Task<HttpResponseMessage> Post(string address, params (string Name, string Value)[] fields) =>
            Client.PostAsync(address, new FormUrlEncodedContent(fields.Select(f => KeyValuePair.Create(f.Name, f.Value))));

        public Task<HttpResponseMessage> SignIn(string name, string password, string to = "/") => Send(
            "/people/sign-in", $"/people/sign-in?to={Uri.EscapeDataString(to)}", ("name", name), ("password", password));

        public Task<HttpResponseMessage> Join(string secret, string name, string password) =>
            Send($"/people/invitation/{secret}", $"/people/invitation/{secret}", ("name", name), ("password", password));

        public async Task<int> Status(string address) => (int)(await Client.GetAsync(address)).StatusCode;

        [GeneratedRegex("name=\"form\" value=\"([^\"]+)\"")]
        private static partial Regex Hidden();
    }
}
