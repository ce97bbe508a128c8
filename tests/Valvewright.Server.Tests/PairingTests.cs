using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using NodaTime;
using NodaTime.Testing;
using Valvewright.Server.Hosting;

namespace Valvewright.Server.Tests;

/// <summary>Who has not said the code reads and changes nothing; who has, does; and cards are read by a link of their own.</summary>
public sealed class PairingTests : IDisposable
{
    private const string Code = "7KMW-4PXA";
    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-pair-").FullName;
    private readonly FakeClock clock = new(Instant.FromUtc(2026, 4, 10, 8, 0));

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Only_who_has_said_the_code_is_let_in()
    {
        await using SiteServer server = await Start();
        using HttpClient stranger = Client(server, out _);
        Assert.Equal(HttpStatusCode.Unauthorized, (await stranger.GetAsync("api/sites")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await stranger.GetAsync("")).StatusCode);
        Assert.Equal("Healthy", await stranger.GetStringAsync("health/ready"));
        Assert.Equal(HttpStatusCode.Unauthorized, (await stranger.GetAsync("health/other")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized,
            (await stranger.PutAsync($"api/sites/{Records.Ids.New()}", new StringContent("site: x"))).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await stranger.GetAsync("pair/WRONGCODE")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await stranger.GetAsync("api/sites")).StatusCode);

        using HttpClient phone = Client(server, out CookieContainer cookies);
        HttpResponseMessage paired = await phone.GetAsync("pair/7kmw4pxa");
        Assert.Equal(HttpStatusCode.OK, paired.StatusCode);
        string cookie = paired.Headers.GetValues("Set-Cookie").Single();
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("7KMW", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(HttpStatusCode.OK, (await phone.GetAsync("api/sites")).StatusCode);

        // Keyed in by hand, and through a proxy on this machine that speaks HTTPS: the cookie is sent over nothing else.
        using HttpRequestMessage form = new(HttpMethod.Post, "pair") { Content = new FormUrlEncodedContent([new("code", Code)]) };
        form.Headers.Add("X-Forwarded-Proto", "https");
        Assert.Contains("secure", (await stranger.SendAsync(form)).Headers.GetValues("Set-Cookie").Single(),
            StringComparison.OrdinalIgnoreCase);
        Assert.True(cookies.Count > 0);
    }

    [Fact]
    public async Task Guessing_is_slowed_down()
    {
        await using SiteServer server = await Start();
        using HttpClient stranger = Client(server, out _);
        for (int i = 0; i < 10; i++)
        {
            Assert.Equal(HttpStatusCode.Forbidden, (await stranger.GetAsync($"pair/WRONG{i:000}")).StatusCode);
        }

        Assert.Equal(HttpStatusCode.TooManyRequests, (await stranger.GetAsync("pair/7KMW4PXA")).StatusCode);
        clock.AdvanceMinutes(1);
        Assert.Equal(HttpStatusCode.OK, (await stranger.GetAsync("pair/7KMW4PXA")).StatusCode);
    }

    [Fact]
    public async Task A_link_reads_the_cards_of_one_site_and_nothing_else()
    {
        await using SiteServer server = await Start();
        using HttpClient phone = Client(server, out _);
        await phone.GetAsync("pair/7KMW4PXA");
        Guid site = Records.Ids.New();
        string survey = await File.ReadAllTextAsync(Path.Combine(Valvewright.Tests.Checkout.Root, "demo", "quarry-hill", "site.yaml"));
        (await phone.PutAsync($"api/sites/{site}",
            new StringContent(survey, new System.Net.Http.Headers.MediaTypeHeaderValue("application/yaml")))).EnsureSuccessStatusCode();
        string link = await phone.GetStringAsync($"api/sites/{site}/read-link.txt");
        Assert.StartsWith($"{server.Address}read/{site}/", link, StringComparison.Ordinal);

        using HttpClient stranger = Client(server, out _);
        string key = link.Split('/')[^1];
        Assert.Equal(HttpStatusCode.NotFound, (await stranger.GetAsync(link)).StatusCode); // It has no plan yet; the link itself is known.
        Assert.Contains("Plan not found", await (await stranger.GetAsync(link)).Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Contains("Site not found", await (await stranger.GetAsync($"read/{site}/{key[..^1]}0x")).Content.ReadAsStringAsync(),
            StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await stranger.GetAsync($"read/{Records.Ids.New()}/{key}")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await stranger.GetAsync($"api/sites/{site}/read-link.txt")).StatusCode);
    }

    /// <summary>What a telephone opens: the proxy's name, the name of a server that listens everywhere, else where it listens.</summary>
    [Theory]
    [InlineData("127.0.0.1", "sites.example.org", "http://127.0.0.1:5280/", "https://sites.example.org/")]
    [InlineData("0.0.0.0", "sites.example.org", "http://localhost:5280/", "http://sites.example.org:5280/")]
    [InlineData("0.0.0.0", null, "http://0.0.0.0:5280/", "http://localhost:5280/")]
    [InlineData("192.0.2.7", null, "http://192.0.2.7:5280/", "http://192.0.2.7:5280/")]
    public void It_knows_what_others_open(string listen, string? name, string asked, string opened) =>
        Assert.Equal(new Uri(opened), new ServerOptions
            { Store = "sites.db", Address = IPAddress.Parse(listen), Names = name is null ? [] : [name] }.Outside(new Uri(asked)));

    [Fact]
    public async Task With_a_certificate_it_speaks_https()
    {
        using RSA rsa = RSA.Create(2048);
        CertificateRequest request = new("CN=localhost", rsa, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        using X509Certificate2 made = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1));
        using X509Certificate2 certificate = X509CertificateLoader.LoadPkcs12(made.Export(X509ContentType.Pkcs12), null);
        await using SiteServer server = await SiteServer.StartAsync(
            new ServerOptions { Store = Path.Combine(folder, "sites.db"), Port = 0, Certificate = certificate, Code = Code }, clock);
        Assert.Equal("https", server.Address.Scheme);
        using HttpClient client = new(
            new SocketsHttpHandler
                { SslOptions = { RemoteCertificateValidationCallback = (_, c, _, _) =>
                    c!.GetCertHashString() == certificate.GetCertHashString() } }) { BaseAddress = server.Address };
        HttpResponseMessage paired = await client.GetAsync("pair/7KMW4PXA");
        Assert.Contains("secure", paired.Headers.GetValues("Set-Cookie").Single(), StringComparison.OrdinalIgnoreCase);
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("api/sites")).StatusCode);
    }

    private static HttpClient Client(SiteServer server, out CookieContainer cookies) =>
        new(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = cookies = new CookieContainer() })
            { BaseAddress = server.Address };

    private Task<SiteServer> Start() =>
        SiteServer.StartAsync(new ServerOptions { Store = Path.Combine(folder, "sites.db"), Port = 0, Code = Code }, clock);
}
