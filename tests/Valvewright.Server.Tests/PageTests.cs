using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Valvewright.Server.Hosting;

namespace Valvewright.Server.Tests;

/// <summary>A page as a publisher lays it out, served beside the API.</summary>
public sealed class PageTests : IAsyncLifetime
{
    private const string InlineScript = "{ \"imports\": {} }";
    private const string Html =
        $"<!DOCTYPE html>\n<html><head><script type=\"importmap\">{InlineScript}</script></head><body><script src=\"_framework/boot.js\"></script></body></html>\n";
    private const string Framework = "_framework/Valvewright.Engine.a2jwdzkexl.wasm";

    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-page-").FullName;
    private SiteServer server = null!;
    private HttpClient Client { get; set; } = null!;

    public async Task InitializeAsync()
    {
        foreach ((string name, string text) in new[]
        {
            ("page/index.html", Html), ("page/" + Framework, new string('w', 5000)), ("page/_framework/boot.js", "1"),
                ("page/css/app.css", "p{}"), ("page/css/app.stylesheet.css", "p{}"),
            ("page/css/app.x9jwdzkexl.css", "p{}"), ("page/service-worker.js", "1"), ("page/app.webmanifest", "{}"), ("page/data.dat", "1"),
                ("secret.txt", "not to be served"),
        })
        {
            string path = Path.Combine(folder, name);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllText(path, text);
        }

        await using (FileStream packed = File.Create(Path.Combine(folder, "page", Framework + ".br")))
        await using (BrotliStream brotli = new(packed, CompressionLevel.Optimal))
        {
            brotli.Write(Encoding.UTF8.GetBytes(new string('w', 5000)));
        }

        server = await SiteServer
            .StartAsync(new ServerOptions { Store = Path.Combine(folder, "sites.db"), Port = 0, Page = Path.Combine(folder, "page") });
        Client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = server.Address };
    }

    public async Task DisposeAsync()
    {
        Client.Dispose();
        await server.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("/", "text/html; charset=utf-8", "no-cache")]
    [InlineData("/sites/018f3b1c-8a00-7000-8000-000000000000/cards?lang=es", "text/html; charset=utf-8", "no-cache")]
    [InlineData("/" + Framework, "application/wasm", "public, max-age=31536000, immutable")]
    [InlineData("/_framework/boot.js", "text/javascript; charset=utf-8", "no-cache")]
    [InlineData("/css/app.css", "text/css; charset=utf-8", "no-cache")]
    [InlineData("/css/app.stylesheet.css", "text/css; charset=utf-8", "no-cache")]
    [InlineData("/css/app.x9jwdzkexl.css", "text/css; charset=utf-8", "public, max-age=31536000, immutable")]
    [InlineData("/service-worker.js", "text/javascript; charset=utf-8", "no-store")]
    [InlineData("/app.webmanifest", "application/manifest+json", "no-cache")]
    [InlineData("/data.dat", "application/octet-stream", "no-cache")]
    public async Task Each_file_has_its_type_and_is_kept_as_long_as_it_may_be(string address, string type, string caching)
    {
        using HttpResponseMessage answer = await Ask(address);
        Assert.Equal(200, (int)answer.StatusCode);
        Assert.Equal(type, answer.Content.Headers.ContentType?.ToString());
        Assert.Equal(caching.Split(", ").Order(), answer.Headers.CacheControl!.ToString().Split(", ").Order());
        using HttpResponseMessage again = await Ask(address, ("If-None-Match", answer.Headers.ETag!.ToString()));
        Assert.Equal(304, (int)again.StatusCode);
    }

    [Theory]
    [InlineData("br, gzip", "br")]
    [InlineData("gzip", "")]
    [InlineData("br;q=0", "")]
    [InlineData("", "")]
    public async Task What_was_packed_when_it_was_published_is_sent_to_those_who_take_it(string taken, string sent)
    {
        using HttpResponseMessage answer = await Ask("/" + Framework, taken.Length > 0 ? [("Accept-Encoding", taken)] : []);
        Assert.Equal(sent, string.Join(',', answer.Content.Headers.ContentEncoding));
        Assert.Equal(sent == "br", (await answer.Content.ReadAsByteArrayAsync()).Length < 1000);
        Assert.Equal(["Accept-Encoding"], answer.Headers.Vary);
    }

    [Fact]
    public async Task The_page_may_run_its_own_scripts_and_nothing_else()
    {
        using HttpResponseMessage page = await Ask("/");
        string policy = Assert.Single(page.Headers.GetValues("Content-Security-Policy"));
        Assert.Contains(
            $"script-src 'self' 'wasm-unsafe-eval' 'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(InlineScript)))}';", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe-inline", policy, StringComparison.Ordinal);
        using HttpResponseMessage worker = await Ask("/service-worker.js");
        Assert.Equal(policy, Assert.Single(worker.Headers.GetValues("Content-Security-Policy")));

        // A file that the page loads may do nothing where it is opened by itself, no more than what the API answers.
        using HttpResponseMessage file = await Ask("/" + Framework);
        Assert.Contains("default-src 'none'", Assert.Single(file.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
        using HttpResponseMessage api = await Ask("/api/sites");
        Assert.Contains("default-src 'none'", Assert.Single(api.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/api/nothing")]
    [InlineData("/api")]
    [InlineData("/nothing.js")]
    [InlineData("/../secret.txt")]
    [InlineData("/%2e%2e/secret.txt")]
    [InlineData("/..%2fsecret.txt")]
    [InlineData("/css/..%5c..%5csecret.txt")]
    [InlineData("/sites.db")]
    [InlineData("/_framework/Valvewright.Engine.a2jwdzkexl.wasm.br")]
    public async Task What_is_not_the_pages_is_not_found(string address)
    {
        using HttpResponseMessage answer = await Ask(address);
        Assert.Equal((404, "application/problem+json"), ((int)answer.StatusCode, answer.Content.Headers.ContentType?.MediaType));
    }

    [Theory]
    [InlineData("/", "document", 200)]
    [InlineData("/sites", "document", 200)]
    [InlineData("/sites", "iframe", 403)]
    [InlineData("/css/app.css", "document", 403)]
    [InlineData("/api/sites", "document", 403)]
    public async Task A_link_from_elsewhere_leads_to_the_page_and_not_to_the_api(string address, string destination, int status)
    {
        using HttpResponseMessage answer = await Ask(
            address, ("Sec-Fetch-Site", "cross-site"), ("Sec-Fetch-Mode", "navigate"), ("Sec-Fetch-Dest", destination));
        Assert.Equal(status, (int)answer.StatusCode);
    }

    [Fact]
    public async Task A_page_of_another_origin_gets_nothing_and_nothing_can_be_sent_to_the_page()
    {
        using HttpResponseMessage foreign = await Ask("/", ("Origin", "http://evil.example"));
        Assert.Equal(403, (int)foreign.StatusCode);
        using HttpResponseMessage host = await Ask("/", ("Host", "evil.example"));
        Assert.Equal(421, (int)host.StatusCode);
        using HttpResponseMessage posted = await Client.PostAsync("/sites", new StringContent("x"));
        Assert.Equal(405, (int)posted.StatusCode);
    }

    [Fact]
    public async Task Answers_of_the_api_are_packed_for_those_who_take_it()
    {
        using HttpResponseMessage answer = await Ask("/api/description.json", ("Accept-Encoding", "br"));
        Assert.Equal(["br"], answer.Content.Headers.ContentEncoding);
        using BrotliStream plain = new(await answer.Content.ReadAsStreamAsync(), CompressionMode.Decompress);
        using StreamReader text = new(plain);
        Assert.Contains("/api/sites", await text.ReadToEndAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_folder_without_a_page_is_refused_and_without_one_the_api_says_so()
    {
        await Assert.ThrowsAsync<IOException>(
            () => SiteServer.StartAsync(new ServerOptions { Store = Path.Combine(folder, "other.db"), Port = 0, Page = folder }));
        await using SiteServer bare = await SiteServer.StartAsync(new ServerOptions { Store = Path.Combine(folder, "other.db"), Port = 0 });
        using HttpClient asking = new() { BaseAddress = bare.Address };
        Assert.Contains("/api/description.json", await asking.GetStringAsync("/"), StringComparison.Ordinal);
        using HttpResponseMessage elsewhere = await asking.GetAsync("/sites");
        Assert.Equal(404, (int)elsewhere.StatusCode);
    }

    private async Task<HttpResponseMessage> Ask(string address, params (string Name, string Value)[] headers)
    {
        using HttpRequestMessage request = new(HttpMethod.Get, address);
        foreach ((string name, string value) in headers)
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        return await Client.SendAsync(request);
    }
}
