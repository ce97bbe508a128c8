using System.Net.Security;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Records.Jobs;
using Valvewright.Server.Jobs;
using Valvewright.Server.Sites;
using Valvewright.Store;
using Valvewright.Tests.Databases;
using Valvewright.Tests.Serving;

namespace Valvewright.Server.Tests.Silos;

/// <summary>Several programs that share the work of one database.</summary>
[Collection("Silos of a database")] // One after another: silos look for free ports on one machine.
public sealed class SilosTests : IDisposable
{
    private static readonly Stamp Ana = new("Ana", Instant.FromUtc(2026, 4, 10, 8, 0));
    private static readonly JobLimits Any = new(100, 100, 100);

    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-silos-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    /// <summary>The same request gives the same bytes on a file with one silo, and on a database with two.</summary>
    [Fact]
    public async Task Two_that_share_the_work_find_what_one_finds()
    {
        using SiteStore file = SiteStore.Open(Path.Combine(folder, "sites.db"));
        string database = PostgresCluster.Shared.Database();
        using SiteStore one = SiteStore.Open(database), other = SiteStore.Open(database);
        Guid site = Ids.New();
        KeptJob[] alone = Ask(file, site), shared = Ask(one, site);
        await using WorkSilo single = await WorkSilo.StartAsync(file), first = await WorkSilo.StartAsync(one),
            second = await WorkSilo.StartAsync(other);
        Assert.NotEqual(first.Address, second.Address);
        for (int i = 0; i < alone.Length; i++)
        {
            Assert.Equal(await Ended(single, file, alone[i]), await Ended(i % 2 == 0 ? first : second, one, shared[i]));
        }

        Assert.Equal(alone.Length, one.All<PlanValue>(site).Count);
    }

    /// <summary>A program that is killed in the middle of a job costs only its work: another takes it up, and it ends once.</summary>
    [Fact]
    public async Task Work_of_a_program_that_is_killed_is_taken_up_by_another()
    {
        using PostgresCluster cluster = new();
        string database = cluster.Database();
        using SiteStore store = SiteStore.Open(database);
        Guid site = Ids.New();
        KeptJob[] jobs = Ask(store, site);
        using (ServerProcess worker = await ServerProcess.StartWork(database))
        {
            while (store.Job(jobs[0].Id)!.Begun == 0)
            {
                await Task.Delay(10);
            }

            worker.Kill();
        }

        await using WorkSilo silo = await WorkSilo.StartAsync(store);
        foreach (KeptJob job in jobs)
        {
            await Ended(silo, store, job);
        }

        Assert.True(jobs.Sum(j => store.Job(j.Id)!.Begun) > jobs.Length);
        Assert.Equal(jobs.Length, store.All<PlanValue>(site).Count);
        Assert.All(store.All<PlanValue>(site), p => Assert.Equal(1, p.Version));
    }

    /// <summary>Silos with one certificate work together over TLS; to one that shows another, or speaks without, none answers.</summary>
    [Fact]
    public async Task Silos_take_only_who_shows_their_certificate()
    {
        string database = PostgresCluster.Shared.Database();
        using SiteStore one = SiteStore.Open(database), other = SiteStore.Open(database);
        SiloOptions common = new() { Certificate = Certificate() };
        await using WorkSilo first = await WorkSilo.StartAsync(one, common), second = await WorkSilo.StartAsync(other, common);
        // The job may lie on either; both are asked.
        KeptJob job = Ask(one, Ids.New(), 1)[0];
        Assert.Equal(await Ended(first, one, job), await Ended(second, other, job));

        // After the handshake a silo says which it is, but only to its own.
        Assert.False(await IsCutOff(first, common.Certificate));
        using X509Certificate2 foreign = Certificate();
        foreach (X509Certificate2? shown in new[] { foreign, null })
        {
            Assert.True(await IsCutOff(first, shown));
        }
    }

    /// <summary>Shakes hands with a silo over TLS, and waits for what it says.</summary>
    private static async Task<bool> IsCutOff(WorkSilo silo, X509Certificate2? certificate)
    {
        using TcpClient client = new();
        await client.ConnectAsync(silo.Address);
        // What the silo shows does not matter here; what it takes does.
        using SslStream tls = new(client.GetStream(), false, (_, shown, _, _) => shown is not null);
        try
        {
            await tls.AuthenticateAsClientAsync("valvewright", certificate is null ? [] : [certificate], false);
            return await tls.ReadAsync(new byte[1]) == 0;
        }
        catch (Exception reason) when (reason is IOException or System.Security.Authentication.AuthenticationException)
        {
            return true;
        }
    }

    [Fact]
    public async Task A_silo_that_other_machines_reach_needs_a_certificate()
    {
        using SiteStore store = SiteStore.Open(Path.Combine(folder, "sites.db"));
        SiloOptions open = new() { Address = System.Net.IPAddress.Parse("192.0.2.7") };
        await Assert.ThrowsAsync<ArgumentException>(() => WorkSilo.StartAsync(store, open));
    }

    /// <summary>A silo that is alone opens a port on this machine, and lets no one in.</summary>
    [Fact]
    public async Task A_silo_that_is_alone_drops_who_connects()
    {
        using SiteStore store = SiteStore.Open(Path.Combine(folder, "sites.db"));
        await using WorkSilo silo = await WorkSilo.StartAsync(store);
        Assert.True(System.Net.IPAddress.IsLoopback(silo.Address.Address));
        using TcpClient stranger = new();
        await stranger.ConnectAsync(silo.Address);
        try
        {
            Assert.Equal(0, await stranger.GetStream().ReadAsync(new byte[1]));
        }
        catch (IOException)
        {
            // Cut off, which says the same.
        }
    }

    /// <summary>Programs and database are killed now and then; <c>bench -- silo-cut</c> does as many kills as one likes.</summary>
    [Fact]
    public async Task Every_job_ends_once_with_the_same_bytes_whatever_is_killed()
    {
        SiloCutsOutcome outcome = await SiloCuts.Run(kills: 3, databaseKills: 2, seed: 1);
        Assert.Empty(outcome.Faults);
    }

    /// <summary>Of two who did the same job the first counts; the record of the other is not written either.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_result_is_written_once(bool onPostgres)
    {
        using SiteStore store = SiteStore.Open(onPostgres ? PostgresCluster.Shared.Database() : Path.Combine(folder, "sites.db"));
        Guid site = Ids.New();
        KeptJob job = Ask(store, site)[0] with { State = JobState.Done, Ended = Ana.At, Result = "1" };
        Change Made(string plan) => new(site, Ids.New(), RecordKind.Plan, new PlanValue("d", new LocalDate(2026, 4, 1), plan), null, Ana);
        Assert.Equal(JobWriting.Written, store.EndJob(job, Made("first")));
        Assert.Equal(JobWriting.Dropped, store.EndJob(job with { Result = "2" }, Made("second")));
        Assert.Equal(JobWriting.Dropped, store.EndJob(job with { State = JobState.Stopped }));
        Assert.Equal(("1", JobState.Done), (store.Job(job.Id)!.Result, store.Job(job.Id)!.State));
        Assert.Equal("first", Assert.Single(store.All<PlanValue>(site)).Value.Plan);
        Assert.Null(store.BeginJob(job.Id));

        // A record that can't be kept takes the result back with it.
        KeptJob next = Ask(store, site, 1)[0] with { State = JobState.Done, Ended = Ana.At, Result = "3" };
        Assert.Equal(JobWriting.NotKept, store.EndJob(next, Made("third") with { Site = Ids.New() }));
        Assert.Null(store.Job(next.Id)!.Ended);
    }

    private static X509Certificate2 Certificate()
    {
        using RSA key = RSA.Create(2048);
        CertificateRequest request = new("CN=valvewright", key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        return request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1));
    }

    private static KeptJob[] Ask(SiteStore store, Guid site, int most = int.MaxValue)
    {
        if (store.Site(site) is null)
        {
            store.PutSite(site, SiteReading.Survey(Running.WithWeather("Heron Bank")).Value, null, Ana);
            byte[] weather = Running.Weather();
            store.Put(site, Ids.WeatherOf(site), new WeatherValue("weather.csv", SiteStore.DigestOf(weather), weather.Length), null, Ana,
                weather);
        }

        LocalDate from = new(2026, 4, 1);
        JobRequest[] requests = [new("plan", null, from, 0), new("plan", null, from, 2), new("season", null, from, 3)];
        return [.. requests.Take(most).Select(request =>
        {
            JobOrder order = JobOrder.Of(store, store.Site(site)!, request, "Ana");
            KeptJob job = new(Ids.New(), site, request.Kind, JsonSerializer.Serialize(order, Json.Compact), Ana.At);
            Assert.Equal(JobTaking.Taken, store.AddJob(job, Any));
            return job;
        })];
    }

    /// <summary>What a job came to and the plan that it made, without its id.</summary>
    private static async Task<string> Ended(WorkSilo silo, SiteStore store, KeptJob job)
    {
        while (store.Job(job.Id)!.Ended is null)
        {
            await silo.Grains.GetGrain<IJobGrain>(job.Id).Ended(TimeSpan.FromSeconds(5));
        }

        KeptJob ended = store.Job(job.Id)!;
        Assert.Equal((JobState.Done, null), (ended.State, ended.Problem));
        return $"{ended.Result} {store.Find<PlanValue>(job.Site, job.Id)!.Value}".Replace($"{job.Id}", "JOB", StringComparison.Ordinal);
    }
}
