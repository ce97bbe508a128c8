using System.IO.Compression;
using System.Text.Json;
using System.Xml.Linq;
using NodaTime;
using UglyToad.PdfPig;
using Valvewright.Server.Archives;
using Valvewright.Records;
using Valvewright.Tests.Serving;

namespace Valvewright.Server.Tests;

public sealed class PlanTests(Running running) : IClassFixture<Running>
{
    private const string Script = "<script>alert(1)</script>";

    [Fact]
    public async Task A_plan_that_does_not_fit_the_site_is_refused()
    {
        Guid site = await running.Site();
        string address = $"/api/sites/{site}/plans/{Ids.New()}", text = Running.PlanText("Heron Bank", "0");
        (await running.Put(address, Running.AsJson(text.Replace("Gate", "Other", StringComparison.Ordinal))))
            .Problem(422, "plan-does-not-fit");
        (await running.Put(address, Running.AsJson(text.Replace("\"station\": 1", "\"station\": 9", StringComparison.Ordinal))))
            .Problem(422, "plan-does-not-fit");
        (await running.Put(address, Running.AsJson("{}"))).Problem(422, "wrong-text");
        Assert.Equal(0, (await running.Get($"/api/sites/{site}/plans")).Json.GetArrayLength());
    }

    [Fact]
    public async Task Cards_and_timelines_refuse_what_they_cannot_do()
    {
        (Guid site, Guid plan) = await running.Planned();
        string address = $"/api/sites/{site}/plans/{plan}";
        foreach (string wrong in new[] { "cards.pdf?paper=a3", "cards.txt?language=fr", "cards.pdf?controller=Nobody",
            "cards.txt?from=soon", "timeline.csv?from=2026-01-01&to=2025-01-01", "timeline.ics?to=2199-12-31",
                "timeline.svg?from=1800-01-01" })
        {
            (await running.Get($"{address}/{wrong}")).Problem(400, "wrong-input");
        }
    }

    [Fact]
    public async Task A_name_with_script_in_it_is_text_everywhere()
    {
        (Guid site, Guid plan) = await running.Planned(Script);
        string address = $"/api/sites/{site}/plans/{plan}";
        foreach (string json in new[] { $"/api/sites/{site}", "/api/sites", $"{address}/timeline.json", $"/api/sites/{site}/history" })
        {
            Reply reply = await running.Get(json);
            Assert.StartsWith("application/json", reply.Type, StringComparison.Ordinal);
            Assert.Contains("alert(1)", reply.Text, StringComparison.Ordinal);
        }

        using (PdfDocument pdf = PdfDocument.Open((await running.Get($"{address}/cards.pdf")).Bytes))
        {
            Assert.Contains("<script>", string.Concat(pdf.GetPage(1).Letters.Select(l => l.Value)), StringComparison.Ordinal);
        }

        Reply svg = await running.Get($"{address}/timeline.svg");
        Assert.Equal("image/svg+xml", svg.Type.Split(';')[0]);
        Assert.DoesNotContain(XDocument.Parse(svg.Text).Descendants(), e => e.Name.LocalName == "script");
        Reply calendar = await running.Get($"{address}/timeline.ics");
        Assert.Contains("BEGIN:VCALENDAR", calendar.Text, StringComparison.Ordinal);
        Assert.Contains("text/plain", (await running.Get($"{address}/cards.txt")).Type, StringComparison.Ordinal);
        Assert.Contains(Script, (await running.Get("/api/fleet.csv")).Text, StringComparison.Ordinal);
        XDocument sheet = Sheet((await running.Get("/api/fleet.xlsx")).Bytes);
        Assert.Contains(sheet.Descendants(), e => e.Name.LocalName == "t" && e.Value == Script);
    }

    [Fact]
    public async Task The_fleet_has_a_row_a_controller_with_what_was_last_seen()
    {
        (Guid site, _) = await running.Planned("=1+2");
        await running.Put($"/api/sites/{site}/visits/{Ids.New()}", Running.AsJson(Running.Visit()));
        string row = (await running.Get("/api/fleet.csv")).Text.Split("\r\n")
            .Single(l => l.Contains(site.ToString(), StringComparison.Ordinal));
        Assert.StartsWith("'=1+2,Gate,Tank,4,1,", row, StringComparison.Ordinal);
        Assert.Contains(",2026-04-01,yes,100,,,2026-04-01,8.7,12.5,", row, StringComparison.Ordinal);
        XDocument sheet = Sheet((await running.Get("/api/fleet.xlsx")).Bytes);
        XElement[] cells = [.. sheet.Descendants().Where(e => e.Name.LocalName == "row")
            .Single(r => r.Value.Contains(site.ToString(), StringComparison.Ordinal)).Elements()];
        Assert.Equal("inlineStr", cells[0].Attribute("t")!.Value);
        XElement date = cells.Single(c => c.Attribute("r")!.Value.StartsWith('M'));
        Assert.Equal(new LocalDate(1899, 12, 30).PlusDays(int.Parse(date.Value, System.Globalization.CultureInfo.InvariantCulture)),
            new LocalDate(2026, 4, 1));
    }

    private static XDocument Sheet(byte[] workbook)
    {
        using ZipArchive zip = new(new MemoryStream(workbook));
        foreach (ZipArchiveEntry part in zip.Entries)
        {
            using Stream each = part.Open();
            XDocument.Load(each);
        }

        using Stream sheet = zip.GetEntry("xl/worksheets/sheet1.xml")!.Open();
        return XDocument.Load(sheet);
    }
}
