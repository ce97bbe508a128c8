using System.Net;
using System.Text;
using System.Text.Json;
using Valvewright.Engine.Values;

namespace Valvewright.App.Tests.Outbox;

/// <summary>What becomes of a request.</summary>
internal enum Fate
{
    /// <summary>It arrives, and so does its answer.</summary>
    Arrives,

    /// <summary>Nobody answers; it has not arrived.</summary>
    NoServer,

    /// <summary>It arrives and is kept; the answer gets lost.</summary>
    AnswerLost,

    /// <summary>The server is in trouble and keeps nothing.</summary>
    Trouble,

    /// <summary>The sign-in has run out; the server keeps nothing.</summary>
    SignedOut,

    /// <summary>A network's sign-in page answers in its place, with 200.</summary>
    SignInPage,

    /// <summary>The same, as JSON.</summary>
    ForeignJson,

    /// <summary>It arrives and is kept; the answer is cut off in the middle.</summary>
    AnswerCut,
}

/// <summary>A server that keeps records as ours does (docs/api.md: Ids, versions), with a bad line to it.</summary>
internal sealed class FakeServer : HttpMessageHandler
{
    private readonly Dictionary<string, (int Version, string Body)> kept = [];

    /// <summary>What becomes of the next requests.</summary>
    public Func<Fate> Fate { get; set; } = () => Outbox.Fate.Arrives;

    /// <summary>Called while a request is on its way, before it is answered.</summary>
    public Func<Task> Meanwhile { get; set; } = () => Task.CompletedTask;

    /// <summary>Addresses that were asked to keep something, in order, answered or not.</summary>
    public List<string> Asked { get; } = [];

    /// <summary>How often a record was made or changed.</summary>
    public int Changes { get; private set; }

    /// <summary>What it keeps, by address.</summary>
    public IReadOnlyDictionary<string, (int Version, string Body)> Kept => kept;

    /// <summary>What it answers where it is asked for something, by address.</summary>
    public Dictionary<string, string> Given { get; } = [];

    /// <summary>Somebody else changes a record.</summary>
    public void ChangeElsewhere(string address, string body) => kept[address] = (kept.GetValueOrDefault(address).Version + 1, body);

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        string address = request.RequestUri!.AbsolutePath.TrimStart('/');
        if (request.Method == HttpMethod.Get)
        {
            return Fate() == Outbox.Fate.NoServer ? throw new HttpRequestException("no server")
                : Given.TryGetValue(address, out string? said) ? Of(200, said, "application/json") : Problem(404, "not-found", []);
        }

        string body = request.Content!.Headers.ContentType!.MediaType!.StartsWith("image/", StringComparison.Ordinal)
            ? JsonSerializer.Serialize(Convert.ToHexString(await request.Content.ReadAsByteArrayAsync(cancellationToken)))
            : await request.Content.ReadAsStringAsync(cancellationToken);
        Asked.Add(address);
        Fate fate = Fate();
        if (fate is Outbox.Fate.NoServer)
        {
            await Meanwhile();
            throw new HttpRequestException("no server");
        }

        HttpResponseMessage answer = fate switch
        {
            Outbox.Fate.Trouble => Problem(500, "defect", []),
            Outbox.Fate.SignedOut => Problem(401, "not-signed-in", []),
            Outbox.Fate.SignInPage => Of(200, "<!DOCTYPE html><title>Welcome</title>", "text/html"),
            Outbox.Fate.ForeignJson => Of(200, "{\"signIn\":true}", "application/json"),
            _ => Keep(address, body, request.Headers.TryGetValues("If-Match", out var match)
                ? int.Parse(match.First().Trim('"'), null) : null),
        };
        await Meanwhile();
        return fate switch
        {
            Outbox.Fate.AnswerLost => throw new HttpRequestException("the line broke"),
            Outbox.Fate.AnswerCut => Of(200, "{\"id\":\"" + address.Split('/')[^1] + "\",\"ver", "application/json"),
            _ => answer,
        };
    }

    private HttpResponseMessage Keep(string address, string body, int? expected)
    {
        bool isThere = kept.TryGetValue(address, out (int Version, string Body) now);
        string[] parts = address.Split('/');
        if (parts.Contains("photos") && !kept.ContainsKey(string.Join('/', parts[..^2])))
        {
            return Problem(404, "not-found", []);
        }

        if (isThere && now.Body == body)
        {
            return Said(address, now.Version, 200);
        }

        if (isThere ? expected != now.Version : expected is not null)
        {
            return Problem(expected is null ? 428 : 412, "changed-since",
                isThere ? new() { ["version"] = now.Version, ["current"] = JsonSerializer.Deserialize<JsonElement>(now.Body),
                    ["given"] = JsonSerializer.Deserialize<JsonElement>(body) } : new() { ["removed"] = true });
        }

        if (body.Contains("\"wrong\"", StringComparison.Ordinal))
        {
            return Problem(400, "wrong-input", []);
        }

        kept[address] = (now.Version + 1, body);
        Changes++;
        return Said(address, now.Version + 1, isThere ? 200 : 201);
    }

    private static HttpResponseMessage Said(string address, int version, int status)
    {
        HttpResponseMessage answer =
            Of(status, JsonSerializer.Serialize(new { id = address.Split('/')[^1], version }, Json.Compact), "application/json");
        answer.Headers.TryAddWithoutValidation("ETag", $"\"{version}\"");
        return answer;
    }

    private static HttpResponseMessage Problem(int status, string kind, Dictionary<string, object> more)
    {
        Dictionary<string, object> whole = new(more)
            { ["type"] = "/problems/" + kind, ["status"] = status, ["detail"] = "It is not done." };
        return Of(status, JsonSerializer.Serialize(whole, Json.Compact), "application/problem+json");
    }

    private static HttpResponseMessage Of(int status, string text, string type) =>
        new((HttpStatusCode)status) { Content = new StringContent(text, Encoding.UTF8, type) };
}
