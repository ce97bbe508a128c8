using System.IO.Compression;
using System.Text;
using System.Text.Json;
using Valvewright.Records;
using Valvewright.Tests.Serving;

namespace Valvewright.Server.Tests;

public sealed class ArchiveTests(Running running) : IClassFixture<Running>
{
    private static readonly byte[] Jpeg = [0xFF, 0xD8, 0xFF, 0xE0, 1, 2, 3];

    [Fact]
    public async Task A_whole_site_goes_out_of_one_server_and_into_another()
    {
        (Guid site, Guid plan) = await running.Planned();
        Guid visit = Ids.New(), photo = Ids.New();
        await running.Put($"/api/sites/{site}/weather", Running.Bytes(Running.Weather(), "text/csv"));
        await running.Put($"/api/sites/{site}/visits/{visit}?by=Ana", Running.AsJson(Running.Visit("wet")));
        await running.Put($"/api/sites/{site}/visits/{visit}/photos/{photo}", Running.Bytes(Jpeg, "image/jpeg"));
        byte[] archive = (await running.Get($"/api/sites/{site}/archive.zip")).Bytes;

        Running other = new();
        await other.InitializeAsync();
        Reply first = await other.Send("POST", "/api/archives?by=Ben", Running.Bytes(archive, "application/zip"));
        Assert.True(first.Status == 200, first.Text);
        Assert.Equal((site, 5), (first.Json.GetProperty("site").GetGuid(), first.Json.GetProperty("made").GetInt32()));
        Assert.Equal((await running.Get($"/api/sites/{site}/survey")).Text, (await other.Get($"/api/sites/{site}/survey")).Text);
        Assert.Equal(Running.Weather(), (await other.Get($"/api/sites/{site}/weather")).Bytes);
        Assert.Equal(Jpeg, (await other.Get($"/api/sites/{site}/visits/{visit}/photos/{photo}")).Bytes);
        Assert.Equal(200, (await other.Get($"/api/sites/{site}/plans/{plan}/cards.txt")).Status);
        Assert.Equal("Ana", (await other.Get($"/api/sites/{site}/visits/{visit}")).Json.GetProperty("changed").GetProperty("by").GetString());

        await other.Put($"/api/sites/{site}/visits/{visit}", Running.AsJson(Running.Visit("dry")), "\"1\"");
        Reply again = await other.Send("POST", "/api/archives", Running.Bytes(archive, "application/zip"));
        Assert.Equal((0, 4), (again.Json.GetProperty("made").GetInt32(), again.Json.GetProperty("same").GetInt32()));
        Assert.Contains(visit.ToString(), Assert.Single(again.Json.GetProperty("different").EnumerateArray()).GetString(), StringComparison.Ordinal);
        Assert.Equal("dry", (await other.Get($"/api/sites/{site}/visits/{visit}")).Json.GetProperty("value").GetProperty("notes").GetString());
        await other.DisposeAsync();
    }

    [Fact]
    public async Task A_folder_that_somebody_packed_is_taken_as_well()
    {
        byte[] zip = Zip(("site.yaml", Encoding.UTF8.GetBytes(Running.WithWeather("Packed"))), ("weather.csv", Running.Weather()), ("readme.txt", [65]));
        Reply reply = await running.Send("POST", "/api/archives", Running.Bytes(zip, "application/zip"));
        Assert.True(reply.Status == 200, reply.Text);
        Assert.Equal(Running.Weather(), (await running.Get($"/api/sites/{reply.Json.GetProperty("site").GetString()}/weather")).Bytes);
    }

    [Theory]
    [InlineData("../evil.yaml")]
    [InlineData("/etc/cron.d/evil")]
    [InlineData("a/../../evil")]
    [InlineData("a\\..\\evil")]
    [InlineData("C:evil")]
    public async Task Names_that_lead_out_of_an_archive_are_refused(string name) =>
        await Refused(Zip(("site.yaml", Encoding.UTF8.GetBytes(Writer.Survey("X", "x"))), (name, [1])), 400, "wrong-input");

    [Fact]
    public async Task What_is_no_archive_or_too_much_is_refused_and_nothing_is_stored()
    {
        byte[] survey = Encoding.UTF8.GetBytes(Writer.Survey("X", "x"));
        await Refused("hello"u8.ToArray(), 400, "wrong-input");
        await Refused(Zip(("other.yaml", survey)), 400, "wrong-input");
        await Refused(Zip(("site.yaml", [0xFF, 0xFE, 0x80])), 400, "wrong-input");
        await Refused(Zip(("site.yaml", "site: ["u8.ToArray())), 422, "wrong-text");
        await Refused(Zip(("site.yaml", new byte[50_000_000])), 413, "too-large");
        await Refused(Zip(("site.yaml", survey), ("archive.json", "{}"u8.ToArray())), 400, "wrong-input");
        await Refused(Zip(("site.yaml", survey), ("site.yaml", survey)), 400, "wrong-input");
        byte[] whole = Zip(("site.yaml", survey));
        await Refused(whole[..(whole.Length / 2)], 400, "wrong-input");
        await Refused(Zip([.. Enumerable.Range(0, 5001).Select(i => ($"f{i}", Array.Empty<byte>()))]), 400, "wrong-input");
    }

    private async Task Refused(byte[] archive, int status, string kind)
    {
        long before = running.Entries();
        (await running.Send("POST", "/api/archives", Running.Bytes(archive, "application/zip"))).Problem(status, kind);
        Assert.Equal(before, running.Entries());
    }

    private static byte[] Zip(params (string Name, byte[] Bytes)[] files)
    {
        using MemoryStream stream = new();
        using (ZipArchive zip = new(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach ((string name, byte[] bytes) in files)
            {
                using Stream entry = zip.CreateEntry(name).Open();
                entry.Write(bytes);
            }
        }

        return stream.ToArray();
    }
}
