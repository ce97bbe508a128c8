using NodaTime;
using Valvewright.Server.Hosting;
using Valvewright.Store;

namespace Valvewright.Server.Fleets;

/// <summary>All controllers as a table.</summary>
internal sealed class FleetEndpoints(SiteStore store, IClock clock) : IEndpoints
{
    private const string WorkbookType = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/fleet.csv", Csv).GivesText("All controllers of all sites, as a table (RFC 4180).", "text/csv");
        routes.MapGet("/api/fleet.xlsx", Xlsx).GivesText("The same as a workbook.", WorkbookType);
    }

    private IResult Csv() => Answers.Text(FleetFiles.Csv(FleetTable.Headings, FleetTable.Rows(store, clock.GetCurrentInstant())), "text/csv");

    private IResult Xlsx() => Answers.Bytes(FleetFiles.Xlsx("Fleet", FleetTable.Headings, FleetTable.Rows(store, clock.GetCurrentInstant())), WorkbookType, "fleet.xlsx");
}
