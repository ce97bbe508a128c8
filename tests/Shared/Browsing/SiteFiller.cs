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
    public async Task<Guid> Bring(string demo, Func<string, string>? change = null)
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
                await Add(zip, Path.GetFileName(path), await File.ReadAllBytesAsync(path));
            }
        }

        JsonElement brought = await Send(HttpMethod.Post, "api/archives?by=Demo", packed.ToArray(), "application/zip");
        return brought.GetProperty("site").GetGuid();
    }

    /// <summary>Surveys a site as a demo has it, without sending its weather.</summary>
    public async Task<Guid> Survey(string demo)
    {
        Guid id = Ids.New();
        await Send(HttpMethod.Put, $"api/sites/{id}?by=Demo", await File.ReadAllBytesAsync(Path.Combine(Checkout.Root, "demo", demo, "site.yaml")), "application/yaml");
        return id;
    }

    /// <summary>Has a job done, and waits for its end.</summary>
    /// <returns>What came of it.</returns>
    public async Task<JsonElement> Do(Guid site, object request)
    {
        JsonElement job = await Send(HttpMethod.Post, $"api/sites/{site}/jobs?by=Demo", Encoding.UTF8.GetBytes(Json.Write(request)), "application/json");
        string address = $"api/jobs/{job.GetProperty("id").GetString()}";
        for (int i = 0; i < 3000; i++)
        {
            job = JsonSerializer.Deserialize<JsonElement>(await client.GetStringAsync(address));
            if (job.GetProperty("ended").ValueKind != JsonValueKind.Null)
            {
                return job.GetProperty("result");
            }

            await Task.Delay(100);
        }

        throw new TimeoutException($"The job does not end: {job}");
    }

    /// <summary>Keeps a record under a new id.</summary>
    /// <param name="folder">The address that the id is put behind, with <c>/</c> at its end.</param>
    /// <param name="value">What is kept.</param>
    public async Task<Guid> Keep(string folder, object value)
    {
        Guid id = Ids.New();
        await Send(HttpMethod.Put, $"{folder}{id}?by=Demo", Encoding.UTF8.GetBytes(value as string ?? Json.Write(value)), "application/json");
        return id;
    }

    /// <summary>Sends bytes and reads the answer.</summary>
    /// <exception cref="InvalidOperationException">It was refused.</exception>
    public async Task<JsonElement> Send(HttpMethod method, string address, byte[] bytes, string type)
    {
        using HttpRequestMessage request = new(method, address) { Content = new ByteArrayContent(bytes) { Headers = { ContentType = new MediaTypeHeaderValue(type) } } };
        using HttpResponseMessage answer = await client.SendAsync(request);
        string text = await answer.Content.ReadAsStringAsync();
        return answer.IsSuccessStatusCode ? JsonSerializer.Deserialize<JsonElement>(text) : throw new InvalidOperationException($"{address}: {answer.StatusCode} {text}");
    }

    private static async Task Add(ZipArchive zip, string name, byte[] bytes)
    {
        await using Stream entry = zip.CreateEntry(name).Open();
        await entry.WriteAsync(bytes);
    }

    [GeneratedRegex(@"^\s+file:\s*(\S+)", RegexOptions.Multiline)]
    private static partial Regex WeatherFile();
}
