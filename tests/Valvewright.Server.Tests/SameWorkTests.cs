using System.Diagnostics;
using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Records.Jobs;

namespace Valvewright.Server.Tests;

/// <summary>The command and the server give the same request to the same room: what they keep is equal, byte for byte.</summary>
public sealed class SameWorkTests(Running running) : IClassFixture<Running>, IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-same-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task A_plan_with_visits()
    {
        Guid site = await Site();
        await Run("plan", folder, "--from", "2026-04-01", "--visits", "3", "--winter-off", "11-12..3-19");
        JsonElement kept = await Kept(
            site, """{"kind":"plan","from":"2026-04-01","visits":3,"wishes":{"shutdown":{"off":"11-12","on":"03-19"}}}""");
        Equal(kept);
        Assert.Equal(Text("season.json"), Json.Write(kept.GetProperty("season").GetProperty("season")));
    }

    /// <summary>The limits mean the same through both doors.</summary>
    [Theory]
    [InlineData("--most-unmet", "5", "mostUnmet", 0.05)]
    [InlineData("--unmet-weight", "6", "unmetWeight", 6)]
    [InlineData("--most-water", "300m3", "mostWaterM3", 300)]
    public async Task Visits_within_a_limit(string option, string value, string wish, double number)
    {
        (Guid site, Guid plan) = await running.Planned();
        await running.Put($"/api/sites/{site}/weather", Running.Bytes(Running.Weather(), "text/csv"));
        WriteSite();
        string digest = (await running.Get($"/api/sites/{site}")).Json.GetProperty("digest").GetString()!;
        string file = Path.Combine(folder, "saved.json");
        File.WriteAllText(file, Running.PlanText("Heron Bank", digest));
        await Run("season", folder, "--plan", file, "--visits", "2", "--only-on", "mon,thu", "--not-in", "8-1..8-31", option, value);
        JsonElement kept = await Kept(site, $$$"""
            {"kind":"season","plan":"{{{plan}}}","visits":2,"wishes":{"onlyOn":["monday","thursday"],"notIn":[{"from":"08-01","to":"08-31"}],"{{{wish}}}":{{{number.ToString(System.Globalization.CultureInfo.InvariantCulture)}}}}}
            """);
        Equal(kept);
        Assert.Equal(Text("season.json"), Json.Write(kept.GetProperty("season").GetProperty("season")));
    }

    [Fact]
    public async Task A_plan_without_visits_and_its_proof()
    {
        Guid site = await Site();
        await Run("plan", folder, "--from", "2026-04-01", "--visits", "0");
        JsonElement kept = await Kept(site, """{"kind":"plan","from":"2026-04-01","visits":0}""");
        Equal(kept);
        string proven = await Run("prove", folder);
        Guid id = kept.GetProperty("id").GetGuid();
        Equal(await Kept(site, $$"""{"kind":"proof","plan":"{{id}}"}"""));
        Assert.Equal(Text("proof.json"), Json.Write(JsonSerializer.Deserialize<JsonElement>(proven).GetProperty("proof")));
    }

    /// <summary>Programs that a controller has, and the best within one changed setting: the same changes, and nothing is kept by
    /// itself.</summary>
    [Fact]
    public async Task Programs_from_a_reading()
    {
        Guid site = await Site();
        const string Reading = "percent 100\nA: daily; starts 3:00; st1=3m\nB: no starts; no run times; no days";
        string file = Path.Combine(folder, "gate.txt");
        File.WriteAllText(file, Reading);
        JsonElement command = JsonSerializer.Deserialize<JsonElement>(
            await Run("plan", folder, "--from-reading", file, "--changes", "1", "--from", "2026-04-01"));
        JsonElement asked = (await running.Send("POST", $"/api/sites/{site}/jobs", Running.AsJson(new JobRequest("found", null,
            new LocalDate(2026, 4, 1)) { Read = [new FoundReading("Gate", Reading)], Changes = 1 }))).Json;
        JsonElement job = await Jobs.Ended(running, asked.GetProperty("id").GetString()!);
        Assert.True(job.GetProperty("state").GetString() == "done", job.ToString());
        ProgramsFound found = Json.Read<JobView>(job.ToString())!.ResultAs<ProgramsFound>()!;
        JsonElement steps = command.GetProperty("search").GetProperty("steps"), served = job.GetProperty("result").GetProperty("steps");
        Assert.Equal(Each(steps, "changes"), Each(served, "changes"));
        Assert.Equal(Each(steps, "plan"), Each(served, "plan"));
        Assert.Equal(1, found.Chosen);
        Assert.True(found.Steps[0].Saved > 0, $"{found.Steps[0]}");
        Assert.Equal(Json.Write(command.GetProperty("proof").GetProperty("verdict")),
            Json.Write(job.GetProperty("result").GetProperty("verdict")));
        Assert.Equal(0, (await running.Get($"/api/sites/{site}/plans")).Json.GetArrayLength());

        // Only proven, and what cannot be taken as it is.
        JsonElement proven = await Jobs.Ended(running, (await running.Send("POST", $"/api/sites/{site}/jobs", Running.AsJson(
            new JobRequest("found") { Read = [new FoundReading("Gate", Reading)], Changes = 0 }))).Json.GetProperty("id").GetString()!);
        ProgramsFound only = Json.Read<JobView>(proven.ToString())!.ResultAs<ProgramsFound>()!;
        Assert.Equal((0, 0, only.FoundVerdict), (only.Chosen, only.Steps.Count, only.Verdict));
        foreach ((string wrong, int status, string kind) in new[]
        {
            ("""{"kind":"found"}""", 400, "wrong-input"), ("""{"kind":"found","read":[],"changes":-1}""", 400, "wrong-input"),
            ("""{"kind":"plan","changes":1}""", 400, "wrong-input"), ("""{"kind":"found","read":[]}""", 422, "wrong-input"),
            ("""{"kind":"found","read":[{"controller":"Nobody","text":""}]}""", 400, "wrong-input"),
            ("""{"kind":"found","read":[{"controller":"Gate","text":"A: starts 3:00"}]}""", 422, "wrong-input"),
        })
        {
            (await running.Send("POST", $"/api/sites/{site}/jobs", Running.AsJson(wrong))).Problem(status, kind);
        }
    }

    private static string[] Each(JsonElement all, string member) =>
        [.. all.EnumerateArray().Select(one => Json.Write(one.GetProperty(member)))];

    [Fact]
    public async Task Two_limits_at_once_are_refused_by_both()
    {
        (Guid site, Guid plan) = await running.Planned();
        await running.Put($"/api/sites/{site}/weather", Running.Bytes(Running.Weather(), "text/csv"));
        WriteSite();
        await Run("season", folder, "--most-water", "3m3", "--most-unmet", "5", "=65");
        JsonElement problem = (await running.Send("POST", $"/api/sites/{site}/jobs", Running.AsJson(
            $$$"""{"kind":"season","plan":"{{{plan}}}","wishes":{"mostWaterM3":3,"mostUnmet":0.05}}"""))).Problem(400, "wrong-input");
        Assert.Contains("mostWaterM3", problem.GetProperty("found").GetString(), StringComparison.Ordinal);
    }

    private void Equal(JsonElement kept)
    {
        Assert.Equal(Text("plan.json"), Json.Write(kept.GetProperty("plan")));
        Assert.Equal(Text("proof.json"), Json.Write(kept.GetProperty("proof")));
    }

    private string Text(string file) =>
        Json.Write(JsonSerializer.Deserialize<JsonElement>(File.ReadAllBytes(Path.Combine(folder, "out", file))));

    private async Task<Guid> Site()
    {
        Guid site = await running.Site(Running.WithWeather("Heron Bank"));
        Assert.Equal(201, (await running.Put($"/api/sites/{site}/weather", Running.Bytes(Running.Weather(), "text/csv"))).Status);
        WriteSite();
        return site;
    }

    private void WriteSite()
    {
        File.WriteAllText(Path.Combine(folder, "site.yaml"), Running.WithWeather("Heron Bank"));
        File.WriteAllBytes(Path.Combine(folder, "weather.csv"), Running.Weather());
    }

    private async Task<JsonElement> Kept(Guid site, string request)
    {
        JsonElement asked = (await running.Send("POST", $"/api/sites/{site}/jobs", Running.AsJson(request))).Json;
        JsonElement job = await Jobs.Ended(running, asked.GetProperty("id").GetString()!);
        Assert.True(job.GetProperty("state").GetString() == "done", job.ToString());
        return (await running.Get($"/api/sites/{site}/plans/{job.GetProperty("result").GetProperty("plan").GetString()}")).Json;
    }

    /// <summary>Runs the command; an argument <c>=65</c> says which exit code is expected, where it is not an answer.</summary>
    private static async Task<string> Run(params string[] arguments)
    {
        using Process process = Process.Start(new ProcessStartInfo(
            "dotnet", [Path.Combine(AppContext.BaseDirectory, "valvewright.dll"), .. arguments.Where(a => a[0] != '='), "--json"])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        Task<string> output = process.StandardOutput.ReadToEndAsync(), error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        string? expected = arguments.FirstOrDefault(a => a[0] == '=')?[1..];
        Assert.True(expected is null ? process.ExitCode is 0 or 1 : $"{process.ExitCode}" == expected,
            $"{process.ExitCode}: {await error}{await output}");
        return await output;
    }
}
