using System.IO.Compression;
using System.Text;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Records.Views;
using Valvewright.Server.Archives;
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
        Assert.Equal("Ana", (await other.Get($"/api/sites/{site}/visits/{visit}")).Json.GetProperty("changed")
            .GetProperty("by").GetString());

        await other.Put($"/api/sites/{site}/visits/{visit}", Running.AsJson(Running.Visit("dry")), "\"1\"");
        Reply again = await other.Send("POST", "/api/archives", Running.Bytes(archive, "application/zip"));
        Assert.Equal((0, 4), (again.Json.GetProperty("made").GetInt32(), again.Json.GetProperty("same").GetInt32()));
        Assert.Contains(visit.ToString(), Assert.Single(again.Json.GetProperty("different").EnumerateArray()).GetString(),
            StringComparison.Ordinal);
        Assert.Equal("dry", (await other.Get($"/api/sites/{site}/visits/{visit}")).Json.GetProperty("value")
            .GetProperty("notes").GetString());
        await other.DisposeAsync();
    }

    [Fact]
    public async Task The_whole_history_goes_with_a_site_and_comes_out_again_as_it_went_in()
    {
        Guid site = await running.Site(Running.WithWeather("Heron Bank")), visit = Ids.New(), removed = Ids.New(), photo = Ids.New();
        string visits = $"/api/sites/{site}/visits/";
        await running.Put($"/api/sites/{site}?by=Ben",
            Running.Yaml(Running.WithWeather("Heron Bank").Replace("area: 50", "area: 60", StringComparison.Ordinal)), "\"1\"");
        await running.Put($"/api/sites/{site}/weather?by=Ana", Running.Bytes(Running.Weather(), "text/csv"));
        await running.Put($"/api/sites/{site}/weather?by=Ben", Running.Bytes([.. Running.Weather(), (byte)'\n'], "text/csv"), "\"1\"");
        await running.Put(visits + $"{visit}?by=Ana", Running.AsJson(Running.Visit("wet")));
        await running.Put(visits + $"{visit}?by=Łucja", Running.AsJson(Running.Visit("dry")), "\"1\"");
        await running.Send("POST", $"/api/sites/{site}/history/{(await History(running, site))[0].Number}/undo?by=Cleo");
        await running.Put(visits + $"{removed}?by=Ana", Running.AsJson(Running.Visit("gone")));
        await running.Put(visits + $"{removed}/photos/{photo}?by=Ana", Running.Bytes(Jpeg, "image/jpeg"));
        await running.Send("DELETE", visits + $"{removed}/photos/{photo}?by=Ben", null, ("If-Match", "\"1\""));
        await running.Send("DELETE", visits + $"{removed}?by=Ben", null, ("If-Match", "\"1\""));
        byte[] archive = (await running.Get($"/api/sites/{site}/archive.zip")).Bytes;

        Running other = new();
        await other.InitializeAsync();
        await other.Site();
        BroughtIn brought = Json.Read<BroughtIn>(
            (await other.Send("POST", "/api/archives?by=Dora", Running.Bytes(archive, "application/zip"))).Text)!;
        Assert.Equal((site, 3, 11), (brought.Site, brought.Made, brought.Entries));
        EntryView[] here = [.. await History(running, site)], there = [.. await History(other, site)];
        Assert.Equal(here.Select(Said), there.Select(Said));
        Assert.All(there, e => Assert.Equal("Dora", e.BroughtIn!.By));
        Assert.All(here, e => Assert.Null(e.BroughtIn));

        // Out again: the same but for the mark, and for when it was written.
        byte[] again = (await other.Get($"/api/sites/{site}/archive.zip")).Bytes;
        Assert.Equal(Files(archive).Keys, Files(again).Keys);
        foreach ((string name, string text) in Files(archive).Where(f => f.Key is not ("history.json" or "archive.json")))
        {
            Assert.Equal(text, Files(again)[name]);
        }

        ListOf<ArchivedEntry> Entries(byte[] zip) => Json.Read<ListOf<ArchivedEntry>>(Files(zip)["history.json"])!;
        Assert.Equal(Entries(archive).Select(e => $"{e with { BroughtIn = null }}"),
            Entries(again).Select(e => $"{e with { BroughtIn = null }}"));
        ArchiveValue List(byte[] zip) => Json.Read<ArchiveValue>(Files(zip)["archive.json"])! with { Written = default };
        Assert.Equal(List(archive), List(again));

        // What was removed or replaced there can be put back here.
        await other.Send("POST", $"/api/sites/{site}/history/{there[0].Number}/undo");
        await other.Send("POST", $"/api/sites/{site}/history/{there[1].Number}/undo");
        Assert.Equal(Jpeg, (await other.Get(visits + $"{removed}/photos/{photo}")).Bytes);
        Assert.Equal(0, Json.Read<BroughtIn>(
            (await other.Send("POST", "/api/archives", Running.Bytes(again, "application/zip"))).Text)!.Made);
        await other.DisposeAsync();

        static string Said(EntryView e) => $"{e.Kind} {e.Record} {e.Version} {e.Changed} {e.Before} {e.After} {e.UndoOf is null}";
    }

    [Theory]
    [InlineData("\"version\": 1,", "\"version\": 2,")]
    [InlineData("\"number\": 2,", "\"number\": 3,")]
    [InlineData("\"kind\": \"visit\"", "\"kind\": \"reading\"")]
    [InlineData("\"kind\": \"visit\"", "\"kind\": \"site\"")]
    [InlineData("\"notes\": \"wet\"", "\"notes\": \"other\"")]
    [InlineData("\"notes\": \"first\"", "\"notes\": \"a\\u0007b\"")]
    [InlineData("\"batteryVolts\": 8.7", "\"batteryVolts\": 8.7, \"admin\": true")]
    [InlineData("\"undoOf\": null", "\"undoOf\": 7")]
    [InlineData("\"by\": \"Ana\"", "\"by\": \"A\\nna\"")]
    public async Task A_history_that_does_not_hold_together_is_refused(string there, string instead)
    {
        Guid site = await running.Site(Writer.Survey("Heron Bank", "x")), visit = Ids.New();
        await running.Put($"/api/sites/{site}/visits/{visit}?by=Ana", Running.AsJson(Running.Visit("first")));
        await running.Put($"/api/sites/{site}/visits/{visit}?by=Ana", Running.AsJson(Running.Visit("wet")), "\"1\"");
        Dictionary<string, string> files = Files((await running.Get($"/api/sites/{site}/archive.zip")).Bytes);
        int at = files["history.json"].LastIndexOf(there, StringComparison.Ordinal);
        Assert.True(at > 0, there);
        files["history.json"] = files["history.json"][..at] + instead + files["history.json"][(at + there.Length)..];
        Running other = new();
        await other.InitializeAsync();
        long before = other.Entries();
        (await other.Send("POST", "/api/archives", Running
            .Bytes(Zip([.. files.Select(f => (f.Key, Encoding.UTF8.GetBytes(f.Value)))]), "application/zip"))).Problem(400, "wrong-input");
        Assert.Equal(before, other.Entries());
        await other.DisposeAsync();
    }

    private static async Task<ListOf<EntryView>> History(Running at, Guid site) =>
        Json.Read<ListOf<EntryView>>((await at.Get($"/api/sites/{site}/history")).Text)!;

    /// <summary>What is in an archive, as text: the bytes of pictures and weather as Latin 1.</summary>
    private static Dictionary<string, string> Files(byte[] archive)
    {
        using ZipArchive zip = new(new MemoryStream(archive));
        return zip.Entries.OrderBy(e => e.FullName, StringComparer.Ordinal).ToDictionary(e => e.FullName, e =>
        {
            using StreamReader reader = new(e.Open(), e.FullName.EndsWith("json", StringComparison.Ordinal)
                || e.FullName.EndsWith("yaml", StringComparison.Ordinal) ? Encoding.UTF8 : Encoding.Latin1);
            return reader.ReadToEnd();
        });
    }

    [Fact]
    public async Task A_folder_that_somebody_packed_is_taken_as_well()
    {
        byte[] zip = Zip(("site.yaml", Encoding.UTF8.GetBytes(Running.WithWeather("Packed"))), ("weather.csv", Running.Weather()),
            ("readme.txt", [65]));
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
