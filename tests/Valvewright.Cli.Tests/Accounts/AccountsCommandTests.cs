using System.IO.Compression;
using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Records;
using Valvewright.Store;

namespace Valvewright.Cli.Tests.Accounts;

public sealed class AccountsCommandTests
{
    private const string Daily = "A: starts 5:00; days every day; stations 1=10\nB: no starts; no days; no run times\npercent 100";

    /// <summary>By hand: 30 mornings x 10 min x 18 L/min = 5.4 m3; the meter of the only supply shows 90 m3.</summary>
    [Fact]
    public async Task A_store_has_settings_and_meter_with_its_visits()
    {
        using Scratch scratch = new();
        string text = await File.ReadAllTextAsync(Path.Combine(Scratch.Demo("quarry-hill"), "site.yaml"));
        Site site = SurveyFiles.ParseApart(text, "survey").Site!;
        using (SiteStore store = SiteStore.Open(scratch["sites.db"]))
        {
            Stamp ana = new("Ana", Instant.FromUtc(2026, 1, 1, 0, 0));
            Guid id = Ids.New();
            store.PutSite(id, new SiteValue(site.Name, text, SavedPlan.DigestOf(site)), null, ana);
            foreach (VisitValue visit in new[]
                { Visit("Terrace", new(2025, 10, 15), "off", null), Visit("Gate", new(2026, 3, 1), Daily, 100),
                    Visit("Gate", new(2026, 3, 31), "off", 190), Visit("Gate", new(2026, 4, 1), "", null) })
            {
                store.Put(id, Ids.New(), visit, null, ana);
            }
        }

        string[] line = ["accounts", "--store", scratch["sites.db"], "--year", "2026", "--today", "2026-11-28", "--json"];
        Command.Outcome outcome = await Command.Run(line);
        Assert.Equal("", outcome.Error);
        Assert.Equal(1, outcome.ExitCode);
        using JsonDocument answer = JsonDocument.Parse(outcome.Output);
        JsonElement account = Assert.Single(answer.RootElement.GetProperty("sites").EnumerateArray());
        Assert.Equal(5.4, account.GetProperty("expectedM3").GetDouble(), 9);
        Assert.Equal(90, account.GetProperty("meteredM3").GetDouble(), 9);
        Assert.Equal("meteredFarAbove", Assert.Single(account.GetProperty("flags").EnumerateArray()).GetString());
        Assert.Equal(JsonValueKind.Null, account.GetProperty("plannedM3").ValueKind);
    }

    /// <summary>A US site in gallons, the sum over both systems of units in m3; the same line gives the same bytes.</summary>
    [Fact]
    public async Task Workbook_and_paper_have_a_line_for_each_site_in_its_units()
    {
        using Scratch scratch = new();
        string[] line = ["accounts", Scratch.Demo("thin-creek"), Scratch.Demo("polder-green"), "--year", "2012", "--today", "2026-11-28"];
        foreach (string folder in new[] { "one", "two" })
        {
            Assert.Equal(0, (await Command.Run([.. line, "--out", scratch[folder]])).ExitCode);
        }

        foreach (string file in new[] { "accounts.xlsx", "accounts.pdf" })
        {
            Assert.Equal(await File.ReadAllBytesAsync(scratch[$"one/{file}"]), await File.ReadAllBytesAsync(scratch[$"two/{file}"]));
        }

        using ZipArchive book = ZipFile.OpenRead(scratch["one/accounts.xlsx"]);
        using StreamReader sites = new(book.GetEntry("xl/worksheets/sheet2.xml")!.Open());
        string rows = await sites.ReadToEndAsync();
        Assert.Contains(
            "<t>Thin Creek picnic ground</t></is></c><c r=\"B3\" t=\"inlineStr\"><is><t>gal</t>", rows, StringComparison.Ordinal);
        Assert.Contains("<t>Polder Green</t></is></c><c r=\"B2\" t=\"inlineStr\"><is><t>m3</t>", rows, StringComparison.Ordinal);
        using JsonDocument answer = JsonDocument.Parse((await Command.Run([.. line, "--json"])).Output);
        double sum = answer.RootElement.GetProperty("sites").EnumerateArray().Sum(s => s.GetProperty("minimumM3").GetDouble());
        Assert.Equal(sum, answer.RootElement.GetProperty("minimum").GetProperty("m3").GetDouble(), 9);
    }

    [Fact]
    public async Task A_year_that_has_not_begun_is_refused_and_nothing_is_written()
    {
        using Scratch scratch = new();
        Command.Outcome outcome = await Command.Run(
            ["accounts", Scratch.Demo("thin-creek"), "--year", "2027", "--today", "2026-11-28", "--out", scratch["out"]]);
        Assert.Equal(65, outcome.ExitCode);
        Assert.Contains("1901 to 2026", outcome.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(scratch["out"]));
    }

    private static VisitValue Visit(string controller, LocalDate on, string left, double? m3) =>
        new(controller, on.At(LocalTime.Noon), "", left, null, [], m3, "");
}
