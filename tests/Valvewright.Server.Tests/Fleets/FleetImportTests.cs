using System.IO.Compression;
using System.Text;
using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Files.Texts;
using Valvewright.Records.Views;
using Valvewright.Server.Fleets.Import;
using Valvewright.Tests.Serving;

namespace Valvewright.Server.Tests.Fleets;

public sealed class FleetImportTests : IAsyncLifetime
{
    private const string Workbook = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    private readonly Running running = new();

    public Task InitializeAsync() => running.InitializeAsync();

    public Task DisposeAsync() => running.DisposeAsync();

    [Fact]
    public async Task The_table_that_goes_out_changes_nothing_when_it_comes_back_whatever_the_names()
    {
        foreach (string name in new[]
            { "=1+1", "'=x", "'t Hof", "-5", "007", "2026-04-01", "_x0041_", "a \"b\", c; d", "Łąka 🌵", "TRUE", "1,5", "<b>&amp;</b>" })
        {
            Guid site = await running.Site(Writer.Survey(Json.Write(name), "x"));
            await running.Put($"/api/sites/{site}/visits/{Ids.New()}", Running.AsJson(Running.Visit()));
        }

        await running.Planned();
        long before = running.Entries();
        byte[] csv = (await running.Get("/api/fleet.csv")).Bytes, xlsx = (await running.Get("/api/fleet.xlsx")).Bytes;
        foreach (bool apply in new[] { false, true })
        {
            foreach ((byte[] bytes, string type) in new[] { (csv, "text/csv"), (xlsx, Workbook) })
            {
                FleetImport import = await Sent(bytes, type, apply);
                Assert.Empty(import.Changes);
                Assert.Empty(import.Problems);
                Assert.Empty(import.Drafts);
                Assert.Equal((13, 13, apply), (import.Rows, import.Unchanged, import.Applied));
            }
        }

        Assert.Equal(before, running.Entries());
    }

    [Fact]
    public async Task Names_places_supplies_and_visits_come_in_together_with_their_history_and_the_survey_keeps_its_words()
    {
        string survey = Writer.Survey("Heron Bank", "kept to the letter")
            .Replace("controllers:", "  - { name: Well, flow: 20 } # the deep one\ncontrollers:", StringComparison.Ordinal)
            .Replace("supply: Tank", "supply: Tank # for now", StringComparison.Ordinal);
        Guid site = await running.Site(survey);
        await running.Put($"/api/sites/{site}/visits/{Ids.New()}", Running.AsJson(Running.Visit()));
        string table =
            $"site_id;site;controller;supply;latitude_deg;longitude_deg;last_visit;battery_v;meter_m3\r\n{site};Heron Bank East;Gate;Well;38,25;48,875;2026-04-09;8,1;\r\n";

        FleetImport dry = await Sent(Encoding.UTF8.GetBytes(table), "text/csv", false);
        Assert.Equal([FleetChangeKind.Name, FleetChangeKind.Place, FleetChangeKind.Supply, FleetChangeKind.Visit],
            dry.Changes.Select(c => c.Kind).Order());
        Assert.Equal(survey, (await running.Get($"/api/sites/{site}/survey")).Text);

        FleetImport applied = await Sent(Encoding.UTF8.GetBytes(table), "text/csv", true);
        Assert.Equal(dry with { Applied = true }, applied);
        string now = (await running.Get($"/api/sites/{site}/survey")).Text;
        Assert.Equal(
            survey.Replace("Heron Bank", "Heron Bank East", StringComparison.Ordinal).Replace(
                "supply: Tank # for now", "supply: Well # for now", StringComparison.Ordinal).Split('\n')
                    .Where(l => !l.StartsWith("location", StringComparison.Ordinal)),
            now.Split('\n').Where(l => !l.StartsWith("location", StringComparison.Ordinal)));
        FleetRow row = Assert.Single(Json.Read<ListOf<FleetRow>>((await running.Get("/api/fleet.json")).Text)!);
        Assert.Equal(("Heron Bank East", 38.25, 48.875, "Well", new LocalDate(2026, 4, 9), 8.1, 12.5),
            (row.Site, row.LatitudeDeg, row.LongitudeDeg, row.Supply, row.LastVisit, row.BatteryVolts, row.MeterM3));
        Assert.Equal("Cleo", (await running.Get($"/api/sites/{site}")).Json.GetProperty("changed").GetProperty("by").GetString());

        FleetImport again = await Sent(Encoding.UTF8.GetBytes(table), "text/csv", true);
        Assert.Equal((0, 1), (again.Changes.Count, again.Unchanged));
    }

    [Fact]
    public async Task Sites_that_the_store_does_not_have_come_back_as_beginnings_of_surveys_and_are_not_stored()
    {
        long before = running.Entries();
        FleetImport import = await Sent(
            Encoding.UTF8.GetBytes("site,controller,supply,stations,zones,latitude_deg,longitude_deg,battery_v\r\n" +
                "New: Hill,Gate,Main,4,3,40.5,-3.7,8.7\r\nNew: Hill,Shed,Well,6,,,,\r\n"), "text/csv", true);
        SurveyDraft draft = Assert.Single(import.Drafts);
        Assert.Equal(("New: Hill", 2), (draft.Name, draft.Rows.Count));
        foreach (string said in new[] { "site: \"New: Hill\"", "latitude: 40.5, longitude: -3.7", "name: \"Shed\"", "supply: \"Well\"",
            "4 stations, 2 programs", "battery_v 8.7" })
        {
            Assert.Contains(said, draft.Survey, StringComparison.Ordinal);
        }

        // It is YAML, and what is missing is asked for: nothing was made up.
        ProblemDocument asked = Json.Read<ProblemDocument>(
            (await running.Send("POST", "/api/surveys/understood", Running.Yaml(draft.Survey))).Text)!;
        Assert.Contains(asked.Problems!, p => p.Message.Contains("flow", StringComparison.Ordinal));
        Assert.Contains(asked.Problems!, p => p.Message.Contains("profile", StringComparison.Ordinal));
        Assert.DoesNotContain(asked.Problems!, p => p.Message.Contains("not YAML", StringComparison.Ordinal));
        Assert.Equal(before, running.Entries());
    }

    [Theory]
    [InlineData("Gatt", "", "", "", "", "controller", "Gate")]
    [InlineData("Gate", "Tnak", "", "", "", "supply", "Tank")]
    [InlineData("Gate", "", "5", "", "", "stations", null)]
    [InlineData("Gate", "", "many", "", "", "stations", null)]
    [InlineData("Gate", "", "", "", "8.7", "last_visit", null)]
    [InlineData("Gate", "", "", "2031-01-01", "", "last_visit", null)]
    [InlineData("Gate", "", "", "1.4.2026", "", "last_visit", null)]
    [InlineData("Gate", "", "", "2026-04-01", "870", "battery_v", null)]
    public async Task A_row_that_cannot_be_used_is_told_with_its_column_and_stops_all_of_it(
        string controller, string supply, string stations, string visit, string volts, string column, string? nearest)
    {
        Guid site = await running.Site(Writer.Survey("Heron Bank", "x")), other = await running.Site(Writer.Survey("Otter Hole", "x"));
        string[] columns = ["site_id", "site", "controller", "supply", "stations", "last_visit", "battery_v"];
        byte[] table = Encoding.UTF8.GetBytes(
            $"{string.Join(',', columns)}\n{other},Otter Hill,Gate,,,,\n{site},,{controller},{supply},{stations},{visit},{volts}\n");
        long before = running.Entries();
        FleetImport dry = await Sent(table, "text/csv", false);
        TextProblem problem = Assert.Single(dry.Problems);
        Assert.Equal((3, Array.IndexOf(columns, column) + 1, nearest), (problem.Line, problem.Column, problem.Nearest));
        Assert.Single(dry.Changes);
        TextProblem spoken = Assert.Single(
            Json.Read<FleetImport>(
                (await running.Send("POST", "/api/fleet?language=es", Running.Bytes(table, "text/csv"))).Text)!.Problems);
        Assert.NotEqual(problem.Message, spoken.Message);
        Assert.Equal(problem with { Message = "", Expected = "" }, spoken with { Message = "", Expected = "" });
        (await running.Send("POST", "/api/fleet?apply=true", Running.Bytes(table, "text/csv"))).Problem(422, "wrong-text");
        Assert.Equal(before, running.Entries());
    }

    [Fact]
    public async Task Rows_that_contradict_each_other_are_refused()
    {
        Guid site = await running.Site(Writer.Survey("Heron Bank", "x"));
        Assert.Single((await Sent(Encoding.UTF8.GetBytes($"site_id,controller\n{site},Gate\n{site},Gate\n"), "text/csv", false)).Problems);
        Assert.NotEmpty(
            (await Sent(Encoding.UTF8.GetBytes($"site_id,site,controller\n{site},A,Gate\n{site},B,Gate\n"), "text/csv", false)).Problems);
        await running.Site(Writer.Survey("Heron Bank", "y"));
        Assert.Equal("Several sites have this name",
            Assert.Single((await Sent("site,controller\nHeron Bank,Gate\n"u8.ToArray(), "text/csv", false)).Problems).Message);
        Assert.Single((await Sent(Encoding.UTF8.GetBytes($"site_id,controller\n{Ids.New()},Gate\n"), "text/csv", false)).Problems);
    }

    [Theory]
    [InlineData("site,controler\n", 1, 2)]
    [InlineData("site,site,controller\n", 1, 2)]
    [InlineData("site,latitude_deg\n", 1, 0)]
    [InlineData("site,controller\n\"a\"b,c\n", 2, 0)]
    [InlineData("site,controller\nx,\"a\n", 2, 0)]
    public async Task What_is_no_such_table_is_refused_with_where(string table, int line, int column)
    {
        ProblemDocument problem = Json.Read<ProblemDocument>(
            (await running.Send("POST", "/api/fleet", Running.Bytes(Encoding.UTF8.GetBytes(table), "text/csv"))).Text)!;
        Assert.Equal(("wrong-text", line, column), (problem.Kind, problem.Problems![0].Line, problem.Problems[0].Column));
        ProblemDocument spoken = Json.Read<ProblemDocument>(
            (await running.Send("POST", "/api/fleet?language=es", Running.Bytes(Encoding.UTF8.GetBytes(table), "text/csv"))).Text)!;
        Assert.NotEqual(problem.Problems[0].Message, spoken.Problems![0].Message);
    }

    [Fact]
    public async Task Workbooks_that_are_none_are_bombs_or_declare_entities_are_refused()
    {
        byte[] good = (await running.Get("/api/fleet.xlsx")).Bytes;
        await Refused(good[..(good.Length / 2)]);
        await Refused("hello"u8.ToArray());
        await Refused(With(good, "xl/worksheets/sheet1.xml", stream => stream.Write(new byte[70_000_000])));
        await Refused(With(good, "xl/media/a.bin", stream => stream.Write(new byte[70_000_000])));
        await Refused(With(good, "xl/worksheets/sheet1.xml", stream => stream.Write(
            "<!DOCTYPE x [<!ENTITY a SYSTEM \"file:///etc/hostname\">]><worksheet "u8 +
                "xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><sheetData><row r=\"1\"><c r=\"A1\" "u8 +
                    "t=\"inlineStr\"><is><t>&a;</t></is></c></row></sheetData></worksheet>"u8)));
        await Refused(With(good, "xl/worksheets/sheet1.xml", stream => stream.Write(
            "<worksheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><sheetData><row r=\"1\"><c r=\"A1\" "u8 +
                "t=\"inlineStr\"><is><t>site</t></is></c><c r=\"B1\" t=\"inlineStr\"><is><t>controller</t></is></c></row><row "u8 +
                    "r=\"1048576\"><c r=\"A1048576\"><v>1</v></c></row></sheetData></worksheet>"u8)));

        // A cell at the last column there is: a row as wide as that is never made.
        string far = "<worksheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><sheetData><row r=\"1\">"
            + "<c r=\"XFD1\" t=\"inlineStr\"><is><t>site</t></is></c></row></sheetData></worksheet>";
        await Refused(With(good, "xl/worksheets/sheet1.xml", stream => stream.Write(Encoding.UTF8.GetBytes(far))));
    }

    /// <summary>Rows that are far off or without end are not counted out: no more are read than a table may have.</summary>
    [Theory]
    [InlineData(2, Sheet.MostRows + 1)]
    [InlineData(Sheet.MostColumns + 1, 0)]
    public void A_table_without_end_is_read_no_further_than_it_may_be(int columns, int rows)
    {
        int read = 0;
        IEnumerable<SheetRow> Endless()
        {
            while (true)
            {
                yield return new SheetRow(++read, new object?[columns]);
            }
        }

        Assert.Throws<Valvewright.Server.Problems.Refusal>(() => Sheet.Of("fleet.xlsx", Endless(), new Telling(Language.English)));
        Assert.Equal(rows + 1, read);
    }

    private async Task Refused(byte[] workbook) =>
        (await running.Send("POST", "/api/fleet", Running.Bytes(workbook, Workbook))).Problem(422, "wrong-text");

    private async Task<FleetImport> Sent(byte[] bytes, string type, bool apply)
    {
        Reply reply = await running.Send("POST", apply ? "/api/fleet?apply=true&by=Cleo" : "/api/fleet", Running.Bytes(bytes, type));
        Assert.True(reply.Status == 200, reply.Text);
        return Json.Read<FleetImport>(reply.Text)!;
    }

    private static byte[] With(byte[] workbook, string part, Action<Stream> write)
    {
        using MemoryStream stream = new();
        stream.Write(workbook);
        using (ZipArchive zip = new(stream, ZipArchiveMode.Update, leaveOpen: true))
        {
            zip.GetEntry(part)?.Delete();
            using Stream entry = zip.CreateEntry(part).Open();
            write(entry);
        }

        return stream.ToArray();
    }
}
