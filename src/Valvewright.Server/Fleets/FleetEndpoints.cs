using Valvewright.Files.Tables;
using Valvewright.Files.Texts;
using Valvewright.Records;
using Valvewright.Records.Views;
using Valvewright.Server.Fleets.Import;
using Valvewright.Server.Hosting;
using Valvewright.Server.People;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Store;

namespace Valvewright.Server.Fleets;

/// <summary>All controllers as a table.</summary>
internal sealed class FleetEndpoints(SiteStore store, IClock clock) : IEndpoints
{
    private const int LargestBytes = 10_000_000;
    private const string CsvType = "text/csv";
    private const string WorkbookType = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/fleet.json", List).Gives<ListOf<FleetRow>>("All controllers of all sites.");
        routes.MapGet("/api/fleet.csv", Csv).GivesText("All controllers of all sites, as a table (RFC 4180).", "text/csv");
        routes.MapPost("/api/fleet", Post).Takes<byte[]>(LargestBytes, CsvType, WorkbookType).Gives<FleetImport>(
            "What a table of controllers says that the store does not; with apply=true it is stored, all of it or nothing.");
        routes.MapGet("/api/fleet.xlsx", Xlsx).GivesText("The same as a workbook.", WorkbookType);
    }

    private async Task<IResult> Post(string? by, bool? apply, string? language, HttpContext http)
    {
        Stamp stamp = Given.Stamp(by, clock);
        Language spoken = Given.Word(language, "language", "en", "es") == "es" ? Language.Spanish : Language.English;
        byte[] bytes = await Body.Bytes(http, LargestBytes, CsvType, WorkbookType);
        Sheet sheet = Body.TypeOf(http.Request) == WorkbookType ? WorkbookSheet.Read(bytes, spoken)
            : CsvSheet.Read(Body.Text(bytes), spoken);
        (FleetImport import, IReadOnlyList<Change> records) = FleetReading.Of(
            store, sheet, stamp, site => OwnSites.Sees(http, site));
        if (apply != true)
        {
            return Answers.Json(import);
        }

        if (import.Problems.Count > 0)
        {
            throw new Refusal(StatusCodes.Status422UnprocessableEntity, "wrong-text",
                "The table cannot be used as it is. Nothing was stored.").With("problems", import.Problems);
        }

        IReadOnlyList<Outcome> outcomes = store.PutAll(records);
        return outcomes.Count == records.Count && outcomes.All(o => o is Outcome.Made or Outcome.Changed or Outcome.Same)
            ? Answers.Json(import with { Applied = true })
            : throw new Refusal(StatusCodes.Status409Conflict, "changed-since",
                "A site was changed while the table was read. Nothing was stored; send it again.");
    }

    private IResult List(HttpContext http) => Answers.Json(Rows(http));

    private IResult Csv(HttpContext http) => Answers.Text(FleetFiles.Csv(FleetTable.Headings, Table(http)), "text/csv");

    private IResult Xlsx(HttpContext http) =>
        Answers.Bytes(Workbook.Of(new RowsOfSheet("Fleet", FleetTable.Headings, Table(http))), WorkbookType, "fleet.xlsx");

    private IEnumerable<object?[]> Table(HttpContext http) => Rows(http).Select(FleetTable.Cells);

    private ListOf<FleetRow> Rows(HttpContext http) =>
        FleetTable.Rows(store, clock.GetCurrentInstant(), site => OwnSites.Sees(http, site));
}
