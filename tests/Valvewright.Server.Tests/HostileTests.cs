using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;
using Valvewright.Files.Texts;
using Valvewright.Records;
using Valvewright.Records.Views;

namespace Valvewright.Server.Tests;

/// <summary>
/// Every address that the API's description names is treated badly in every way: the answer is a problem document, and the history of the
/// store is as long as it was.
/// </summary>
public sealed class HostileTests(Running running) : IClassFixture<Running>
{
    private static readonly string[] StrangeIds =
    [
        "1", "x", "..", "..%2f..%2fetc%2fpasswd", "%2e%2e", "'%20OR%201=1--", "'%29%3B%20DROP%20TABLE%20Records%3B--",
            "%3Cscript%3Ealert(1)%3C%2Fscript%3E", 
        "018f3b1c-8a00-4000-8000-000000000000", "018f3b1c-8a00-7000-0000-000000000000", "{018f3b1c-8a00-7000-8000-000000000000}",
            "018f3b1c8a0070008000000000000000",
        new string('9', 300), "%F0%9F%8C%B5", "%E2%80%AE",
    ];

    private static readonly byte[] Jpeg = [0xFF, 0xD8, 0xFF, 0xE0];

    private sealed record Operation(string Method, string Path, string[] Types, string[] Headers)
    {
        public bool Writes => Method is not "GET";

        public string Address(string id) => string.Join('/', Path.Split('/').Select(p => p.StartsWith('{') ? id : p));
    }

    private async Task<Operation[]> Operations()
    {
        JsonElement description = (await running.Get("/api/description.json")).Json;
        Operation[] all = [.. description.GetProperty("paths").EnumerateObject()
            .SelectMany(path => path.Value.EnumerateObject().Select(method => new Operation(
            method.Name.ToUpperInvariant(), path.Name,
            method.Value.TryGetProperty("requestBody", out JsonElement body)
                ? [.. body.GetProperty("content").EnumerateObject().Select(c => c.Name)] : [],
            method.Value.TryGetProperty("parameters", out JsonElement parameters) ? [.. parameters.EnumerateArray()
                .Where(p => p.GetProperty("in").GetString() == "header").Select(p => p.GetProperty("name").GetString()!)] : [])))];
        Assert.True(all.Length > 35, $"Only {all.Length} operations are described.");
        return all;
    }

    /// <summary>An operation on something that exists, so that only the hostile part can be what is refused.</summary>
    private async Task<(Operation Operation, string Address)[]> Aimed()
    {
        (Guid site, Guid plan) = await running.Planned();
        Guid visit = Ids.New(), photo = Ids.New(), reading = Ids.New(), trace = Ids.New();
        await running.Put($"/api/sites/{site}/visits/{visit}", Running.AsJson(Running.Visit()));
        await running.Put($"/api/sites/{site}/visits/{visit}/photos/{photo}", Running.Bytes(Jpeg, "image/jpeg"));
        await running.Put($"/api/sites/{site}/readings/{reading}",
            Running.AsJson(new ReadingValue("Gate", new(2026, 4, 1, 9, 0), "A: none")));
        await running.Put($"/api/sites/{site}/traces/{trace}", Running.AsJson(TraceTests.Value(TraceTests.Begun)));
        await running.Put($"/api/sites/{site}/weather", Running.Bytes(Running.Weather(), "text/csv"));
        string job = (await running.Send("POST", $"/api/sites/{site}/jobs",
            Running.AsJson($$"""{"kind":"proof","plan":"{{plan}}"}"""))).Json.GetProperty("id").GetString()!;
        await Jobs.Ended(running, job);
        return [.. (await Operations()).Select(
            o => (o, o.Path.Replace("{site}", $"{site}", StringComparison.Ordinal).Replace("{plan}", $"{plan}", StringComparison.Ordinal)
            .Replace("{visit}", $"{visit}", StringComparison.Ordinal).Replace("{photo}", $"{photo}", StringComparison.Ordinal)
            .Replace("{reading}", $"{reading}", StringComparison.Ordinal)
            .Replace("{trace}", $"{trace}", StringComparison.Ordinal)
            .Replace("{job}", job, StringComparison.Ordinal).Replace("{entry}", "1", StringComparison.Ordinal)))];
    }

    [Fact]
    public async Task Strange_ids_are_refused_everywhere()
    {
        await running.Site();
        long before = running.Entries();
        Operation[] all = await Operations();
        foreach (Operation operation in all.Where(o => o.Path.Contains('{', StringComparison.Ordinal)))
        {
            // The client itself takes ".." out of an address; where that leads to another address of the API there is nothing to refuse.
            foreach (string id in StrangeIds.Where(id => new Uri(running.Client.BaseAddress!, operation.Address(id)).AbsolutePath
                is var path && path != "/" && all.All(o => o.Path != path)))
            {
                Reply reply = await running.Send(operation.Method, operation.Address(id), Body(operation), ("If-Match", "\"1\""));
                IsRefused(reply, operation, id);
            }
        }

        Assert.Equal(before, running.Entries());
    }

    [Fact]
    public async Task Foreign_origins_strange_hosts_and_strange_parameters_are_refused_everywhere()
    {
        (Operation Operation, string Address)[] aimed = await Aimed();
        long before = running.Entries();
        foreach ((Operation operation, string address) in aimed)
        {
            foreach ((string name, string value, int status) in new[]
            {
                ("Origin", "http://evil.example", 403), ("Origin", "null", 403), ("Origin", "http://127.0.0.1:1", 403),
                    ("Sec-Fetch-Site", "cross-site", 403),
                ("Sec-Fetch-Site", "same-site", 403), ("Host", "evil.example", 421), ("Host", "127.0.0.1.evil.example", 421),
            })
            {
                Reply reply = await running.Send(operation.Method, address, Body(operation), (name, value), ("If-Match", "\"1\""));
                Assert.True(reply.Status == status, $"{operation} {name}: {value} gives {reply.Status}");
                IsRefused(reply, operation, value);
            }

            foreach (string query in new[]
                { "?admin=true", "?__proto__=1", "?by=a&by=b", $"?by={new string('x', 200)}", "?by=%00", "?by=a%0Ab" })
            {
                if (query.StartsWith("?by", StringComparison.Ordinal) && !operation.Writes)
                {
                    continue;
                }

                IsRefused(await running.Send(operation.Method, address + query, Body(operation), ("If-Match", "\"1\"")), operation, query);
            }
        }

        Assert.Equal(before, running.Entries());
    }

    [Fact]
    public async Task Wrong_types_and_contents_are_refused_everywhere()
    {
        (Operation Operation, string Address)[] aimed = [.. (await Aimed()).Where(a => a.Operation.Types.Length > 0)];
        long before = running.Entries();
        foreach ((Operation operation, string address) in aimed)
        {
            foreach (string type in new[] { "text/html", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x",
                "application/xml", "image/svg+xml", "nonsense", $"{operation.Types[0]}; charset=utf-7" })
            {
                ByteArrayContent content = new("x=1"u8.ToArray());
                content.Headers.TryAddWithoutValidation("Content-Type", type);
                Reply reply = await running.Send(operation.Method, address, content, ("If-Match", "\"1\""));
                Assert.True(reply.Status == 415, $"{operation} {type} gives {reply.Status}");
                IsRefused(reply, operation, type);
            }

            foreach (byte[] body in new[] { [], [0], [0xFF, 0xFE, 0xFD], "null"u8.ToArray(), "[]"u8.ToArray(), "{"u8.ToArray(),
                "{\"__proto__\":{}}"u8.ToArray(), Encoding.UTF8.GetBytes(new string('[', 100_000)), "'); DROP TABLE Records;--"u8.ToArray(),
                    "<script>alert(1)</script>"u8.ToArray() })
            {
                IsRefused(await running.Send(operation.Method, address, Running.Bytes(body, operation.Types[0]), ("If-Match", "\"1\"")),
                    operation, $"{body.Length} bytes");
            }

            ByteArrayContent packed = Running.Bytes("x"u8.ToArray(), operation.Types[0]);
            packed.Headers.ContentEncoding.Add("gzip");
            IsRefused(await running.Send(operation.Method, address, packed, ("If-Match", "\"1\"")), operation, "gzip");
        }

        Assert.Equal(before, running.Entries());
    }

    [Fact]
    public async Task Too_much_is_refused_before_it_is_read()
    {
        (Operation Operation, string Address)[] aimed = [.. (await Aimed()).Where(a => a.Operation.Types.Length > 0)];
        long before = running.Entries();
        foreach ((Operation operation, string address) in aimed)
        {
            string head =
                $"{operation.Method} {address} HTTP/1.1\r\nHost: {running.Client.BaseAddress!.Authority}\r\nContent-Type: {operation.Types[0]}\r\nContent-Length: 200000000\r\nIf-Match: \"1\"\r\n\r\nxxxx";
            string answer = await Raw(head);
            Assert.True(answer.StartsWith("HTTP/1.1 413", StringComparison.Ordinal)
                && answer.Contains("too-large", StringComparison.Ordinal), $"{operation}: {answer[..Math.Min(answer.Length, 200)]}");
        }

        string host = $"Host: {running.Client.BaseAddress!.Authority}\r\n";
        Assert.StartsWith("HTTP/1.1 414", await Raw($"GET /api/sites?x={new string('x', 10_000)} HTTP/1.1\r\n{host}\r\n"),
            StringComparison.Ordinal);
        Assert.StartsWith("HTTP/1.1 431", await Raw($"GET /api/sites HTTP/1.1\r\n{host}X: {new string('x', 40_000)}\r\n\r\n"),
            StringComparison.Ordinal);
        Assert.StartsWith("HTTP/1.1 400", await Raw($"GET /api/sites/%00 HTTP/1.1\r\n{host}\r\n"), StringComparison.Ordinal);
        Assert.StartsWith("HTTP/1.1 400", await Raw("GET /api/sites HTTP/1.1\r\n\r\n"), StringComparison.Ordinal);
        Assert.StartsWith("HTTP/1.1 400", await Raw($"GET /api/sites HTTP/1.1\r\n{host}{host}\r\n"), StringComparison.Ordinal);
        Assert.Equal(before, running.Entries());
    }

    [Fact]
    public async Task Versions_that_are_none_are_refused_wherever_one_is_named()
    {
        (Operation Operation, string Address)[] aimed = [.. (await Aimed()).Where(a => a.Operation.Headers.Contains("If-Match"))];
        Assert.True(aimed.Length >= 10);
        long before = running.Entries();
        foreach ((Operation operation, string address) in aimed)
        {
            foreach (string version in new[]
                { "*", "1", "W/\"1\"", "\"\"", "\"-1\"", "\"1\", \"2\"", "\"99999999999999999999\"", "\"1 OR 1=1\"", "\"0\"" })
            {
                (await running.Send(operation.Method, address, Body(operation), ("If-Match", version))).Problem(400, "wrong-input");
            }
        }

        Assert.Equal(before, running.Entries());
    }

    [Fact]
    public async Task What_is_not_there_is_not_found_and_other_methods_are_not_taken()
    {
        foreach (string nowhere in new[] { "/api", "/api/", "/sites.db", "/../../etc/passwd", "/%2e%2e/%2e%2e/etc/passwd",
            "/api/sites/../../etc", "/.git/config", "/api/api.yaml", "/api/other.json" })
        {
            Reply reply = await running.Get(nowhere);
            Assert.True(reply.Status is 404 && reply.Type.StartsWith("application/problem+json", StringComparison.Ordinal),
                $"{nowhere}: {reply.Status} {reply.Type}");
        }

        foreach (string method in new[] { "PATCH", "OPTIONS", "TRACE", "HEAD", "PROPFIND" })
        {
            Assert.Equal(405, (await running.Send(method, "/api/sites")).Status);
        }
    }

    private static ByteArrayContent? Body(Operation operation) =>
        operation.Types.Length == 0 ? null : Running.Bytes("{}"u8.ToArray(), operation.Types[0]);

    private static void IsRefused(Reply reply, Operation operation, string with)
    {
        Assert.True(reply.Status is >= 400 and < 500,
            $"{operation} with {with}: {reply.Status} {reply.Text[..Math.Min(reply.Text.Length, 300)]}");
        Assert.True(reply.Type.StartsWith("application/problem+json", StringComparison.Ordinal),
            $"{operation} with {with}: {reply.Status} {reply.Type}");
        Assert.DoesNotContain("   at ", reply.Text, StringComparison.Ordinal);
        MustBeWorded(reply.Json, $"{operation} with {with}");
        Assert.DoesNotContain("SQLite", reply.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("<script>", reply.Text, StringComparison.Ordinal);
    }

    /// <summary>Every sentence of a refusal stands there with its places as well, and has words in Spanish.</summary>
    private static void MustBeWorded(JsonElement document, string about)
    {
        ProblemDocument problem = document.Deserialize<ProblemDocument>(Json.Options)!;
        Assert.Equal(problem.Detail, problem.Said?.Detail?.ToSentence().Text);
        foreach (SentenceParts? said in (
            SentenceParts?[])[problem.Said!.Detail, problem.Said.Where, problem.Said.Found, problem.Said.Expected])
        {
            Assert.True(said is null || Sentences.IsWorded(said.ToSentence()), $"{about}: {said?.Pattern}");
        }
    }

    private async Task<string> Raw(string request)
    {
        using TcpClient tcp = new();
        await tcp.ConnectAsync(running.Client.BaseAddress!.Host, running.Client.BaseAddress.Port);
        NetworkStream stream = tcp.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes(request));
        using StreamReader reader = new(stream, Encoding.UTF8);
        char[] buffer = new char[4000];
        StringBuilder answer = new();
        using CancellationTokenSource patience = new(TimeSpan.FromSeconds(20));
        try
        {
            while (!answer.ToString().Contains('}', StringComparison.Ordinal)
                && await reader.ReadAsync(buffer, patience.Token) is > 0 and int read)
            {
                answer.Append(buffer, 0, read);
            }
        }
        catch (IOException)
        {
            // The server hung up after its answer, as it may.
        }

        return answer.ToString();
    }
}
