using System.Text.Json;
using Valvewright.App.Outbox;
using Valvewright.App.Pages.Visits;
using Valvewright.App.Shelf;
using Valvewright.Engine.Values;
using Valvewright.Files.Texts;
using Valvewright.Files.Visits;
using Valvewright.Records;

namespace Valvewright.App.Ready;

/// <summary>Lays on the device what the work at a site's controllers needs, so that it opens without the engine.</summary>
public sealed class SheetMaker(DeviceShelf shelf, Unsent unsent)
{
    private static MeasuredLimits Limits => new(
        Measured.MostCellVolts, Measured.FreshCellVolts, Measured.LeastCellVolts, Measured.UsualCells, Measured.ShortOhms,
            Measured.UsualOhms.Least, Measured.UsualOhms.Most, Measured.OpenFromOhms);

    /// <summary>Makes it, unless it lies there as it should be.</summary>
    /// <returns>Whether it lies there now; there is none where there is no plan.</returns>
    /// <exception cref="ShelfException">The device does not keep it.</exception>
    public async Task<bool> LayAsync(OpenedSite site, Language language)
    {
        ArgumentNullException.ThrowIfNull(site);
        if (site.BestPlan is not { } plan)
        {
            return false;
        }

        string version =
            $"{site.Carried.ETag} {plan.View.Id} {string.Join(' ', unsent.Records.Where(r => r.Site == site.Id && r.Kind == "visit").Select(r => r.Id))}";
        if (await shelf.SheetAsync(site.Id, language) is not { } there || !IsOf(there, version))
        {
            VisitSheet sheet = new(site.Site, site.Id, version, plan.Saved.Plan, plan.View.From, Limits);
            Dictionary<string, LastVisit> last = VisitLine.Of(site, unsent.Records).GroupBy(v => v.Value.Controller).ToDictionary(
                g => g.Key, g => LastOf([.. g.Select(v => v.Value)]));
            await shelf.PutSheetAsync(site.Id, language, sheet.Write(last, language, site.Carried.FetchedAt, ReadyMaker.Maker));
        }

        return true;
    }

    /// <summary>What the visits to one controller, the latest first, left and measured last.</summary>
    internal static LastVisit LastOf(IReadOnlyList<VisitValue> visits) => LastVisit.Of(
        [.. visits.Select(v => new VisitMade(
            v.At, v.AsLeft, v.BatteryVolts, v.MeterM3, v.CoilOhms.Select(c => (c.Station, c.Ohms)).ToListOf()))], Measured.CellsOf(visits));

    private static bool IsOf(string sheet, string version)
    {
        using JsonDocument read = JsonDocument.Parse(sheet);
        return read.RootElement.GetProperty("form").GetInt32() == VisitSheet.Form && read.RootElement.GetProperty("version")
            .GetString() == version
            && read.RootElement.GetProperty("maker").GetString() == ReadyMaker.Maker;
    }
}
