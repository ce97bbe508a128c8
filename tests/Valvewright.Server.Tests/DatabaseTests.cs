using System.Net;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Records.Views;
using Valvewright.Server.Archives;
using Valvewright.Server.Hosting;
using Valvewright.Store;
using Valvewright.Store.Files;
using Valvewright.Tests.Databases;
using Valvewright.Tests.Serving;

namespace Valvewright.Server.Tests;

/// <summary>The server on PostgreSQL: what people do with a site, a database that goes away, a store that moves.</summary>
[Collection("Silos of a database")] // One after another: silos look for free ports on one machine.
public sealed class DatabaseTests(RunningOnPostgres running) : IClassFixture<RunningOnPostgres>, IDisposable
{
    private static readonly byte[] Jpeg = [0xFF, 0xD8, 0xFF, 0xE0, 1, 2, 3];
    private static readonly NodaTime.Instant Now = NodaTime.Instant.FromUtc(2026, 5, 1, 12, 0);

    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-database-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task What_people_do_with_a_site_works_on_a_database()
    {
        (Guid site, Guid plan, Guid visit, Guid photo) = await Fill();
        Assert.Equal(Running.Weather(), (await running.Get($"/api/sites/{site}/weather")).Bytes);
        Assert.Equal(Jpeg, (await running.Get($"/api/sites/{site}/visits/{visit}/photos/{photo}")).Bytes);
        Assert.Equal(200, (await running.Get($"/api/sites/{site}/plans/{plan}/cards.txt")).Status);
        Assert.Equal(412, (await running.Put($"/api/sites/{site}/visits/{visit}", Running.AsJson(Running.Visit("late")), "\"1\"")).Status);
        EntryView last = Json.Read<ListOf<EntryView>>((await running.Get($"/api/sites/{site}/history")).Text)![0];
        Assert.Equal(200, (await running.Send("POST", $"/api/sites/{site}/history/{last.Number}/undo?by=Cleo")).Status);
        Assert.Equal("wet",
            (await running.Get($"/api/sites/{site}/visits/{visit}")).Json.GetProperty("value").GetProperty("notes").GetString());

        byte[] archive = (await running.Get($"/api/sites/{site}/archive.zip")).Bytes;
        RunningOnPostgres other = new();
        await other.InitializeAsync();
        Reply brought = await other.Send("POST", "/api/archives?by=Dora", Running.Bytes(archive, "application/zip"));
        Assert.True(brought.Status == 200, brought.Text);
        Assert.Equal(Jpeg, (await other.Get($"/api/sites/{site}/visits/{visit}/photos/{photo}")).Bytes);
        await other.DisposeAsync();
    }

    [Fact]
    public async Task A_store_that_moves_there_and_back_gives_the_same_archive()
    {
        await Fill();
        using PostgresCluster elsewhere = new();
        string file = Path.Combine(folder, "sites.db"), again = elsewhere.Database();
        Dictionary<Guid, byte[]> before = Archives(running.Store);
        Assert.NotEmpty(before);
        // The server of this test has its store open and is in this program, which does not stand in its own way.
        StoreMoves.Make(running.Store, file);
        Assert.Equal(before, Archives(file));
        StoreMoves.Make(file, again);
        Assert.Equal(before, Archives(again));
    }

    [Fact]
    public async Task A_database_that_goes_away_is_told_and_works_again_when_it_is_back()
    {
        using PostgresCluster cluster = new();
        using HttpClient client = new();
        await using SiteServer server = await SiteServer.StartAsync(new ServerOptions { Store = cluster.Database(), Port = 0 });
        client.BaseAddress = server.Address;
        Guid site = Ids.New();
        Task<HttpResponseMessage> Put() => client.PutAsync($"/api/sites/{site}", Running.Yaml(Writer.Survey("Heron Bank", "x")));
        Assert.True((await Put()).IsSuccessStatusCode);
        Assert.Equal("Healthy", await client.GetStringAsync("health/ready"));
        cluster.Kill();
        Assert.Equal(HttpStatusCode.ServiceUnavailable, (await client.GetAsync("health/ready")).StatusCode);
        Assert.Equal("Healthy", await client.GetStringAsync("health/live"));
        foreach (HttpResponseMessage answer in new[] { await Put(), await client.GetAsync("/api/sites") })
        {
            new Reply((int)answer.StatusCode, $"{answer.Content.Headers.ContentType}", null, await answer.Content.ReadAsByteArrayAsync())
                .Problem(503, "store-away");
        }

        cluster.Start();
        Assert.True((await Put()).IsSuccessStatusCode);
        // A restart between two requests is not noticed at all.
        cluster.Kill();
        cluster.Start();
        Assert.True((await client.GetAsync($"/api/sites/{site}")).IsSuccessStatusCode);
    }

    private async Task<(Guid Site, Guid Plan, Guid Visit, Guid Photo)> Fill()
    {
        (Guid site, Guid plan) = await running.Planned();
        Guid visit = Ids.New(), photo = Ids.New();
        foreach (Reply reply in new[]
        {
            await running.Put($"/api/sites/{site}/weather", Running.Bytes(Running.Weather(), "text/csv")),
            await running.Put($"/api/sites/{site}/visits/{visit}?by=Ana", Running.AsJson(Running.Visit("wet"))),
            await running.Put($"/api/sites/{site}/visits/{visit}/photos/{photo}", Running.Bytes(Jpeg, "image/jpeg")),
            await running.Put($"/api/sites/{site}/visits/{visit}?by=Łucja", Running.AsJson(Running.Visit("dry")), "\"1\""),
        })
        {
            Assert.True(reply.Status is 200 or 201, reply.Text);
        }

        return (site, plan, visit, photo);
    }

    private static Dictionary<Guid, byte[]> Archives(string place)
    {
        using SiteStore store = SiteStore.Open(place);
        return store.Sites().ToDictionary(s => s.Id, s => ArchiveWriter.Write(store, s, Now));
    }
}
