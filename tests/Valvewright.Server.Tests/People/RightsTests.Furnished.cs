using System.Net.Http.Headers;
using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Server.People;
using Valvewright.Tests.Serving;

namespace Valvewright.Server.Tests.People;

/// <summary>Two organizations with a site each, and how they are asked.</summary>
public sealed partial class RightsTests
{
    private static async Task<Furnished> Furnish(HttpClient client, string name)
    {
        Furnished all = new();
        string site = $"/api/sites/{all["{site}"]}";
        async Task Made(string address, HttpContent body) => Assert.Equal(201, (await Put(client, address, body, null)).Status);
        await Made(site, Running.Yaml(Running.WithWeather(name)));
        await Made($"{site}/weather", Running.Bytes(Running.Weather(), "text/csv"));
        string digest = JsonSerializer.Deserialize<JsonElement>(await client.GetStringAsync(site)).GetProperty("digest").GetString()!;
        await Made($"{site}/plans/{all["{plan}"]}", Running.AsJson(Running.PlanText(name, digest)));
        await Made($"{site}/visits/{all["{visit}"]}", Running.AsJson(Running.Visit()));
        await Made($"{site}/visits/{all["{visit}"]}/photos/{all["{photo}"]}", Running.Bytes([0xFF, 0xD8, 0xFF, 0xE0], "image/jpeg"));
        await Made($"{site}/readings/{all["{reading}"]}", Running.AsJson(new ReadingValue("Gate", new(2026, 4, 1, 9, 0), "A: none")));
        await Made($"{site}/traces/{all["{trace}"]}",
            Running.AsJson(TraceTests.Value(TraceTests.Begun with { Confirmed = "wire open" })));
        Answer job = await Send(client, "POST", $"{site}/jobs", Running.AsJson($$"""{"kind":"proof","plan":"{{all["{plan}"]}}"}"""));
        Assert.Equal(202, job.Status);
        all["{job}"] = JsonSerializer.Deserialize<JsonElement>(job.Text).GetProperty("id").GetString()!;
        await client.GetAsync($"/api/jobs/{all["{job}"]}?wait=20");
        return all;
    }

    private static IEnumerable<(string Path, Func<HttpContent> Body)> Bodies() =>
    [
        ("/api/sites/{site}", () => Survey("Otter Wharf")),
        ("/api/sites/{site}/weather", () => Running.Bytes(Running.Weather(), "text/csv")),
        ("/api/sites/{site}/plans/{plan}", () => Running.AsJson(Running.PlanText("Otter Wharf", "x"))),
        ("/api/sites/{site}/visits/{visit}", () => Running.AsJson(Running.Visit("changed"))),
        ("/api/sites/{site}/visits/{visit}/photos/{photo}", () => Running.Bytes([0xFF, 0xD8, 0xFF, 0xE0, 1], "image/jpeg")),
        ("/api/sites/{site}/readings/{reading}", () => Running.AsJson(new ReadingValue("Gate", new(2026, 4, 1, 9, 0), "B: none"))),
        ("/api/sites/{site}/traces/{trace}", () => Running.AsJson(TraceTests.Value(TraceTests.Begun))),
    ];

    private static StringContent Survey(string name) => Running.Yaml(Writer.Survey(name, "changed"));

    private static string Address(string path, Func<string, string> id) =>
        string.Join('/', path.Split('/').Select(p => p.StartsWith('{') ? id(p) : p));

    /// <summary>Asks without a body: nothing is written, but what a DELETE needs no body for; that is told to rest on no version.</summary>
    private static Task<Answer> Ask(HttpClient client, Operation operation, Func<string, string> id) =>
        Send(client, operation.Method, Address(operation.Path, id), null);

    private static Task<Answer> Put(HttpClient client, string address, HttpContent body, string? version) =>
        Send(client, "PUT", address, body, version);

    private static async Task<Answer> Send(HttpClient client, string method, string address, HttpContent? body, string? version = null)
    {
        using HttpRequestMessage request = new(new HttpMethod(method), address) { Content = body };
        if (version is not null)
        {
            request.Headers.IfMatch.Add(EntityTagHeaderValue.Parse(version));
        }

        using HttpResponseMessage answer = await client.SendAsync(request);
        return new Answer((int)answer.StatusCode, $"{answer.Content.Headers.ContentType}", $"{answer.Headers.ETag}",
            await answer.Content.ReadAsStringAsync());
    }

    private static async Task<IReadOnlyList<Operation>> Operations(Office.Browser browser)
    {
        JsonElement description = JsonSerializer.Deserialize<JsonElement>(await browser.Client.GetStringAsync("/api/description.json"));
        return [.. description.GetProperty("paths").EnumerateObject().SelectMany(p => p.Value.EnumerateObject()
            .Select(m => new Operation(m.Name.ToUpperInvariant(), p.Name)))];
    }

    private sealed record Operation(string Method, string Path);

    private sealed record Answer(int Status, string Type, string Tag, string Text)
    {
        public string? Kind => Type.StartsWith("application/problem", StringComparison.Ordinal)
            ? JsonSerializer.Deserialize<JsonElement>(Text).GetProperty("type").GetString()!.Split('/')[^1] : null;
    }

    /// <summary>An id for each place of an address.</summary>
    private sealed class Furnished
    {
        private readonly Dictionary<string, string> ids = new() { ["{entry}"] = "999999", ["{key}"] = "0" };

        public string this[string place]
        {
            get => ids.TryGetValue(place, out string? id) ? id : ids[place] = Ids.New().ToString();
            set => ids[place] = value;
        }
    }
}
