using System.IO.Compression;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Valvewright.Engine.Values;
using Valvewright.Records;

namespace Valvewright.Tests.Browsing;

/// <summary>Fills a server with sites through its API, as somebody who brings their own along would.</summary>
internal sealed partial class SiteFiller(HttpClient client)
{
    /// <summary>Brings a demo site in, with its weather.</summary>
    /// <param name="demo">Name of its folder below <c>demo</c>.</param>
    /// <param name="change">What is changed of its survey before.</param>
    /// <param name="years">So many of the last years of its weather; null: all of them.</param>
    public async Task<Guid> Bring(string demo, Func<string, string>? change = null, int? years = null)
    {
        string folder = Path.Combine(Checkout.Root, "demo", demo);
        string survey = await File.ReadAllTextAsync(Path.Combine(folder, "site.yaml"));
        using MemoryStream packed = new();
        using (ZipArchive zip = new(packed, ZipArchiveMode.Create, leaveOpen: true))
        {
            await Add(zip, "site.yaml", Encoding.UTF8.GetBytes(change is null ? survey : change(survey)));
            if (WeatherFile().Match(survey) is { Success: true } file)
            {
                string path = Path.Combine(folder, file.Groups[1].Value);
                await Add(zip, Path.GetFileName(path), Last(years, await File.ReadAllBytesAsync(path)));
            }
        }

        JsonElement brought = await Send(HttpMethod.Post, "api/archives?by=Demo", packed.ToArray(), "application/zip");
        return brought.GetProperty("site").GetGuid();
    }

    /// <summary>Surveys a site as a demo has it, without sending its weather.</summary>
    public async Task<Guid> Survey(string demo)
    {
        Guid id = Ids.New();
        await Send(HttpMethod.Put, $"api/sites/{id}?by=Demo",
            await File.ReadAllBytesAsync(Path.Combine(Checkout.Root, "demo", demo, "site.yaml")), "application/yaml");
        return id;
    }

    /// <summary>Has a job done, and waits for its end.</summary>
    /// <returns>What came of it.</returns>
    public async Task<JsonElement> Do(Guid site, object request)
    {
        JsonElement job = await Send(
            HttpMethod.Post, $"api/sites/{site}/jobs?by=Demo", Encoding.UTF8.GetBytes(Json.Write(request)), "application/json");
        string ended = $"api/jobs/{job.GetProperty("id").GetString()}?wait=20";
        while (job.GetProperty("ended").ValueKind == JsonValueKind.Null)
        {
            job = JsonSerializer.Deserialize<JsonElement>(await client.GetStringAsync(ended));
        }

        return job.GetProperty("result");
    }

    /// <summary>Keeps a record under a new id.</summary>
    /// <param name="folder">The address that the id is put behind, with <c>/</c> at its end.</param>
    /// <param name="value">What is kept.</param>
    public async Task<Guid> Keep(string folder, object value)
    {
        Guid id = Ids.New();
        await Send(HttpMethod.Put, $"{folder}{id}?by=Demo", Encoding.UTF8.GetBytes(value as string ?? Json.Write(value)),
            "application/json");
        return id;
    }

    /// <summary>Sends bytes and reads the answer.</summary>
    /// <exception cref="InvalidOperationException">It was refused.</exception>
    public async Task<JsonElement> Send(HttpMethod method, string address, byte[] bytes, string type)
    {
        using HttpRequestMessage request = new(method, address)
            { Content = new ByteArrayContent(bytes) { Headers = { ContentType = new MediaTypeHeaderValue(type) } } };
        using HttpResponseMessage answer = await client.SendAsync(request);
        string text = await answer.Content.ReadAsStringAsync();
        return answer.IsSuccessStatusCode ? JsonSerializer.Deserialize<JsonElement>(text) : throw new InvalidOperationException(
            $"{address}: {answer.StatusCode} {text}");
    }

    /// <summary>The heading and the last years of a table that begins each line with a date; all of it where there are fewer.</summary>
    private static byte[] Last(int? years, byte[] table)
    {
        if (years is not { } wanted)
        {
            return table;
        }

        string[] lines = Encoding.UTF8.GetString(table).Split('\n');
        int last = lines.Max(l => Year(l) ?? 0);
        return Encoding.UTF8.GetBytes(string.Join('\n', lines.Where(l => Year(l) is not { } year || year > last - wanted)));
    }

    private static int? Year(string line) => line.Length > 4 && line[4] == '-' && int.TryParse(line[..4], out int year) ? year : null;

    private static async Task Add(ZipArchive zip, string name, byte[] bytes)
    {
        await using Stream entry = zip.CreateEntry(name).Open();
        await entry.WriteAsync(bytes);
    }

    [GeneratedRegex(@"^\s+file:\s*(\S+)", RegexOptions.Multiline)]
    private static partial Regex WeatherFile();
}
