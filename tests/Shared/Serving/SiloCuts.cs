using System.Net;
using System.Text;
using System.Text.Json;
using Valvewright.Records;
using Valvewright.Store.Files;
using Valvewright.Tests.Databases;

namespace Valvewright.Tests.Serving;

/// <summary>What became of work whose programs and database were killed again and again.</summary>
/// <param name="Kills">How often one of the programs.</param>
/// <param name="DatabaseKills">How often the database.</param>
/// <param name="Jobs">Jobs that were asked for.</param>
/// <param name="Begun">How often their work was begun.</param>
/// <param name="Faults">What was lost, came out otherwise, or is not whole.</param>
internal sealed record SiloCutsOutcome(int Kills, int DatabaseKills, int Jobs, int Begun, IReadOnlyList<string> Faults);

/// <summary>Kills with signal 9, in the middle of work, a server and those that help it, and the PostgreSQL that they share.</summary>
internal sealed class SiloCuts : IDisposable
{
    private const int Programs = 3;
    private const int OpenJobs = 6;
    private const int LongestMs = 2500;

    private static readonly string[] Requests =
    [
        """{"kind":"plan","visits":0,"from":"2026-04-01"}""", """{"kind":"plan","visits":2,"from":"2026-04-01"}""",
        """{"kind":"season","visits":3,"from":"2026-04-01"}""",
    ];

    private readonly PostgresCluster cluster = new();
    private readonly string store;
    private readonly Random random;
    private readonly ServerProcess?[] programs = new ServerProcess?[Programs];
    private readonly Guid[] sites = [.. Enumerable.Range(0, OpenJobs / 2).Select(_ => Ids.New())];
    private readonly Dictionary<string, string> expected = [];
    private readonly Dictionary<string, string> open = [];
    private readonly List<string> faults = [];
    private int asked;

    private SiloCuts(int seed) => (random, store) = (new Random(seed), cluster.Database());

    public static async Task<SiloCutsOutcome> Run(int kills, int databaseKills, int seed, Action<string>? tell = null)
    {
        using SiloCuts cuts = new(seed);
        await cuts.Start();
        await cuts.WithoutKills();
        for (int kill = 1; kill <= kills; kill++)
        {
            await cuts.Fill();
            await Task.Delay(cuts.random.Next(LongestMs));
            int which = cuts.random.Next(Programs);
            cuts.programs[which]!.Kill();
            cuts.programs[which]!.Dispose();
            await cuts.Begin(which);
            await cuts.Look(wait: 0);
            tell?.Invoke($"{kill} kills, {cuts.asked} jobs, {cuts.open.Count} open, {cuts.faults.Count} faults");
        }

        for (int kill = 1; kill <= databaseKills; kill++)
        {
            await cuts.Fill();
            await Task.Delay(cuts.random.Next(LongestMs));
            cuts.cluster.Kill();
            await Task.Delay(cuts.random.Next(LongestMs));
            cuts.cluster.Start();
            await cuts.Look(wait: 0);
            tell?.Invoke($"{kill} kills of the database, {cuts.asked} jobs, {cuts.open.Count} open, {cuts.faults.Count} faults");
        }

        while (cuts.open.Count > 0)
        {
            await cuts.Look(wait: 5);
        }

        return new SiloCutsOutcome(kills, databaseKills, cuts.asked, cuts.Begun(), await cuts.AtTheEnd());
    }

    public void Dispose()
    {
        Array.ForEach(programs, p => p?.Dispose());
        cluster.Dispose();
    }

    private async Task Start()
    {
        for (int i = 0; i < Programs; i++)
        {
            await Begin(i);
        }

        string file = Path.Combine(Checkout.Root, "reference", "weather", "nasapower_lankaran-hills.csv");
        string weather = string.Join('\n', File.ReadLines(file)
            .Where(l => !char.IsDigit(l[0]) || string.CompareOrdinal(l, "2016") >= 0)) + "\n";
        foreach (Guid site in sites)
        {
            // Sites that say the same: the same request gives the same result at each.
            await Send(HttpMethod.Put, $"/api/sites/{site}", Writer.Survey("Heron Bank", "with weather") + """
                weather:
                  file: weather.csv
                  station: { latitude: 38.298, longitude: 48.847, elevation: 720 m }
                  wind height: 2 m

                """, "application/yaml");
            await Send(HttpMethod.Put, $"/api/sites/{site}/weather", weather, "text/csv");
        }
    }

    /// <summary>The first program serves, the others help it.</summary>
    private async Task Begin(int which) =>
        programs[which] = which == 0 ? await ServerProcess.Start(store) : await ServerProcess.StartWork(store);

    private async Task WithoutKills()
    {
        foreach (string request in Requests)
        {
            string job = await Ask(sites[0], request);
            JsonElement ended;
            do
            {
                ended = (await Get($"/api/jobs/{job}?wait=20"))!.Value;
            }
            while (ended.GetProperty("ended").ValueKind == JsonValueKind.Null);

            expected[request] = await Bytes(job, sites[0], ended);
        }
    }

    private async Task Fill()
    {
        while (open.Count < OpenJobs)
        {
            string request = Requests[random.Next(Requests.Length)];
            Guid site = sites[asked % sites.Length];
            string job = await Ask(site, request);
            open[job] = $"{site} {request}";
        }
    }

    private async Task<string> Ask(Guid site, string request)
    {
        JsonElement job = await Send(HttpMethod.Post, $"/api/sites/{site}/jobs", request, "application/json");
        asked++;
        return job.GetProperty("id").GetString()!;
    }

    /// <summary>Looks which jobs have ended, and whether with the bytes that they have without kills.</summary>
    private async Task Look(int wait)
    {
        foreach ((string job, string what) in open.ToArray())
        {
            if (await Get($"/api/jobs/{job}?wait={wait}") is not { } said)
            {
                continue;
            }

            if (!said.TryGetProperty("ended", out JsonElement ended))
            {
                faults.Add($"{job}: {said}");
                open.Remove(job);
            }
            else if (ended.ValueKind != JsonValueKind.Null)
            {
                (string site, string request) = (what[..36], what[37..]);
                string bytes = await Bytes(job, Guid.Parse(site), said);
                faults.AddRange(bytes == expected[request] ? []
                    : (string[])[$"{job} {request}: {said.GetProperty("state")}, not the same"]);
                open.Remove(job);
            }
        }
    }

    /// <summary>What a job came to and the plan that it made, without its id.</summary>
    private async Task<string> Bytes(string job, Guid site, JsonElement said)
    {
        JsonElement? plan;
        do
        {
            plan = await Get($"/api/sites/{site}/plans/{job}");
        }
        while (plan is null);
        string made = plan.Value.TryGetProperty("plan", out JsonElement text) ? $"{text} {plan.Value.GetProperty("proof")}" : "no plan";
        return $"{said.GetProperty("state")} {said.GetProperty("result")} {said.GetProperty("problem")} {made}"
            .Replace(job, "JOB", StringComparison.Ordinal);
    }

    private async Task<List<string>> AtTheEnd()
    {
        // Each plan is there once: one entry of the history, made by one job.
        Intact whole = Intact.Check(store);
        faults.AddRange(whole.Faults.Select(f => f.Text));
        int plans = 0;
        foreach (Guid site in sites)
        {
            plans += (await Get($"/api/sites/{site}/plans"))!.Value.GetArrayLength();
        }

        if (plans != asked || whole.Entries != asked + sites.Length * 2)
        {
            faults.Add($"{asked} jobs made {plans} plans, in {whole.Entries} entries of the history with {sites.Length * 2} others.");
        }

        return faults;
    }

    private int Begun()
    {
        using Npgsql.NpgsqlConnection connection = cluster.Open(store.Split('/')[3].Split('?')[0]);
        using Npgsql.NpgsqlCommand command = connection.CreateCommand();
        command.CommandText = "SELECT sum(\"Begun\") FROM \"Jobs\"";
        return (int)(long)command.ExecuteScalar()!;
    }

    /// <summary>What the server answers; null where it, or its database, is away.</summary>
    private async Task<JsonElement?> Get(string address)
    {
        try
        {
            using HttpResponseMessage answer = await programs[0]!.Client!.GetAsync(address);
            return answer.StatusCode == HttpStatusCode.ServiceUnavailable ? null
                : JsonSerializer.Deserialize<JsonElement>(await answer.Content.ReadAsStringAsync());
        }
        catch (HttpRequestException)
        {
            return null;
        }
    }

    private async Task<JsonElement> Send(HttpMethod method, string address, string body, string type)
    {
        while (true)
        {
            using HttpRequestMessage request = new(method, address) { Content = new StringContent(body, Encoding.UTF8, type) };
            using HttpResponseMessage answer = await programs[0]!.Client!.SendAsync(request);
            string text = await answer.Content.ReadAsStringAsync();
            if (answer.IsSuccessStatusCode)
            {
                return JsonSerializer.Deserialize<JsonElement>(text);
            }

            if (answer.StatusCode != HttpStatusCode.ServiceUnavailable)
            {
                throw new InvalidOperationException($"{answer.StatusCode} {text}");
            }

            // Full, or its database is coming back: what was asked for goes on meanwhile.
            await Look(wait: 1);
        }
    }
}
