using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using NodaTime;
using NodaTime.Testing;
using Valvewright.Engine.Values;
using Valvewright.Server.Hosting;
using Valvewright.Server.Nights;
using Valvewright.Store.Files;
using Valvewright.Records;
using Valvewright.Tests;
using Valvewright.Tests.Databases;
using Valvewright.Tests.Serving;

namespace Valvewright.Server.Tests;

/// <summary>A server on a free port with an empty store.</summary>
public class Running : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-server-").FullName;
    private SiteServer server = null!;

    internal HttpClient Client { get; private set; } = null!;

    internal virtual string Store => Path.Combine(folder, "sites.db");

    public async Task InitializeAsync()
    {
        server = await SiteServer.StartAsync(
            new ServerOptions { Store = Store, Port = 0 }, new FakeClock(Instant.FromUtc(2026, 4, 10, 8, 0), Duration.FromSeconds(1)));
        Client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = server.Address };
    }

    public async Task DisposeAsync()
    {
        Client.Dispose();
        await server.DisposeAsync();
        Assert.True(Intact.Check(Store).IsWhole);
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>Has it look at all sites, as it does each minute.</summary>
    internal async Task<int> LookAtNight() => await (await server.Grains).GetGrain<INightGrain>(0).Look();

    internal long Entries() => Intact.Check(Store).Entries;

    internal async Task<Reply> Send(
        string method, string address, HttpContent? content = null, params (string Name, string Value)[] headers)
    {
        using HttpRequestMessage request = new(new HttpMethod(method), address) { Content = content };
        foreach ((string name, string value) in headers)
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        using HttpResponseMessage answer = await Client.SendAsync(request);
        return new Reply((int)answer.StatusCode, answer.Content.Headers.ContentType?.ToString() ?? "", answer.Headers.ETag?.Tag,
            await answer.Content.ReadAsByteArrayAsync());
    }

    internal Task<Reply> Get(string address, params (string Name, string Value)[] headers) => Send("GET", address, null, headers);

    internal Task<Reply> Put(string address, HttpContent content, string? ifMatch = null) =>
        Send("PUT", address, content, ifMatch is null ? [] : [("If-Match", ifMatch)]);

    /// <summary>Makes a site.</summary>
    internal async Task<Guid> Site(string? survey = null)
    {
        Guid id = Ids.New();
        Assert.Equal(201, (await Put($"/api/sites/{id}?by=Ana", Yaml(survey ?? Writer.Survey("Heron Bank", "first")))).Status);
        return id;
    }

    /// <summary>Makes a site with weather, and a plan for it without planning.</summary>
    internal async Task<(Guid Site, Guid Plan)> Planned(string name = "Heron Bank")
    {
        Guid site = await Site(WithWeather(name)), plan = Ids.New();
        string digest = (await Get($"/api/sites/{site}")).Json.GetProperty("digest").GetString()!;
        Assert.Equal(201, (await Put($"/api/sites/{site}/plans/{plan}", AsJson(PlanText(name, digest)))).Status);
        return (site, plan);
    }

    internal static string WithWeather(string name) => Writer.Survey(name.Contains(':', StringComparison.Ordinal)
        || name.Contains('<', StringComparison.Ordinal) ? $"\"{name}\"" : name, "with weather") + """
        weather:
          file: weather.csv
          station: { latitude: 38.298, longitude: 48.847, elevation: 720 m }
          wind height: 2 m

        """;

    internal static string PlanText(string site, string digest, params Valvewright.Engine.Plans.Visit[] visits) =>
        Json.Write(new Valvewright.Files.Plans.SavedPlan(1, digest, new LocalDate(2026, 4, 1), new Valvewright.Engine.Plans.Plan(site, [
        new("Gate",
            new([new('A', [new LocalTime(5, 0)], [new(1, 300)],
                new Valvewright.Engine.Controllers.EveryNDays(2, new LocalDate(2026, 4, 1)))]), visits.ToListOf())])));

    /// <summary>Ten years of weather: what the server does with them does not depend on how many there are.</summary>
    internal static byte[] Weather()
    {
        string file = Path.Combine(Checkout.Root, "reference", "weather", "nasapower_lankaran-hills.csv");
        IEnumerable<string> lines = File.ReadLines(file).Where(l => !char.IsDigit(l[0]) || string.CompareOrdinal(l, "2016") >= 0);
        return Encoding.UTF8.GetBytes(string.Join('\n', lines) + "\n");
    }

    internal static StringContent Yaml(string text) => new(text, Encoding.UTF8, "application/yaml");

    internal static StringContent AsJson(object value) => new(value as string ?? Json.Write(value), Encoding.UTF8, "application/json");

    internal static ByteArrayContent Bytes(byte[] bytes, string type) =>
        new(bytes) { Headers = { ContentType = new MediaTypeHeaderValue(type) } };

    internal static VisitValue Visit(string notes = "") =>
        new("Gate", new LocalDateTime(2026, 4, 1, 9, 30), "", "A: starts 4:00", 8.7, [new CoilReading(1, 24.5)], 12.5, notes);
}

/// <summary>A server whose store is a PostgreSQL database.</summary>
public sealed class RunningOnPostgres : Running
{
    internal override string Store { get; } = PostgresCluster.Shared.Database();
}

/// <summary>What a server answered.</summary>
internal sealed record Reply(int Status, string Type, string? Tag, byte[] Bytes)
{
    public string Text => Encoding.UTF8.GetString(Bytes);

    public JsonElement Json => JsonSerializer.Deserialize<JsonElement>(Bytes);

    /// <summary>Checks that it is a problem document of this status and kind.</summary>
    public JsonElement Problem(int status, string kind)
    {
        Assert.True(Status == status && Type.StartsWith("application/problem+json", StringComparison.Ordinal),
            $"{Status} {Type} {Text[..Math.Min(Text.Length, 500)]}");
        Assert.Equal($"/problems/{kind}", Json.GetProperty("type").GetString());
        Assert.Equal(status, Json.GetProperty("status").GetInt32());
        Assert.False(string.IsNullOrWhiteSpace(Json.GetProperty("detail").GetString()));
        return Json;
    }
}
