using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Records.Views;
using Valvewright.Server.Hosting;
using Valvewright.Store;

namespace Valvewright.Server.Fleets;

/// <summary>All controllers as a table.</summary>
internal sealed class FleetEndpoints(SiteStore store, IClock clock) : IEndpoints
{
    private const string WorkbookType = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/fleet.json", List).Gives<ListOf<FleetRow>>("All controllers of all sites.");
        routes.MapGet("/api/fleet.csv", Csv).GivesText("All controllers of all sites, as a table (RFC 4180).", "text/csv");
        routes.MapGet("/api/fleet.xlsx", Xlsx).GivesText("The same as a workbook.", WorkbookType);
    }

    private IResult List() => Answers.Json(FleetTable.Rows(store, clock.GetCurrentInstant()));

    private IResult Csv() => Answers.Text(FleetFiles.Csv(FleetTable.Headings, Table()), "text/csv");

    private IResult Xlsx() => Answers.Bytes(FleetFiles.Xlsx("Fleet", FleetTable.Headings, Table()), WorkbookType, "fleet.xlsx");

    private IEnumerable<object?[]> Table() => FleetTable.Rows(store, clock.GetCurrentInstant()).Select(FleetTable.Cells);
}
