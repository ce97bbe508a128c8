using System.Globalization;
using NodaTime.Text;
using Valvewright.Engine.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Records;
using Valvewright.Records.Views;
using Valvewright.Store;

namespace Valvewright.Server.Fleets;

/// <summary>All controllers of all sites, one a row.</summary>
internal static class FleetTable
{
    /// <summary>Headings; units in the name.</summary>
    public static IReadOnlyList<string> Headings { get; } =
    [
        "site", "controller", "supply", "stations", "zones", "latitude_deg", "longitude_deg", "plan_in_force_from",
            "plan_fits_survey", "percent_now",
        "next_planned_visit", "overdue_visit", "last_visit", "battery_v", "meter_m3", "site_id",
    ];

    /// <summary>A row under the headings: text, numbers (double), dates (LocalDate), or null.</summary>
    public static object?[] Cells(FleetRow row) =>
    [
        row.Site, row.Controller, row.Supply, (double?)row.Stations, (double?)row.Zones, row.LatitudeDeg, row.LongitudeDeg,
            row.PlanInForceFrom,
        row.PlanFitsSurvey is { } fits ? fits ? "yes" : "no" : null, (double?)row.PercentNow, row.NextPlannedVisit, row.OverdueVisit,
            row.LastVisit,
            row.BatteryVolts, row.MeterM3, row.SiteId.ToString("D"),
    ];

    /// <summary>The rows of sites that the one who asks sees.</summary>
    public static ListOf<FleetRow> Rows(SiteStore store, Instant now, Func<Guid, bool> sees) =>
        store.Sites().Where(s => sees(s.Id)).SelectMany(kept => RowsOf(store, kept, now)).ToListOf();

    private static IEnumerable<FleetRow> RowsOf(SiteStore store, Kept<SiteValue> kept, Instant now)
    {
        if (SurveyFiles.ParseApart(kept.Value.Survey, "survey").Site is not { } site)
        {
            // A survey that an older version took and this one does not: it is named, so that no one thinks it lost.
            yield return new FleetRow(
                kept.Id, kept.Value.Name, null, null, null, null, null, null, null, null, null, null, null, null, null, null);
            yield break;
        }

        Kept<PlanValue>? plan = store.All<PlanValue>(kept.Id) is { Count: > 0 } plans ? plans[^1] : null;
        Plan? planned = plan is null ? null : Plans.PlanReading.Parse(plan.Value.Plan).Plan;
        ILookup<string, Kept<VisitValue>> visits = store.All<VisitValue>(kept.Id).ToLookup(v => v.Value.Controller);
        foreach (SiteController controller in site.Controllers)
        {
            yield return Row(kept, site, controller, plan, planned?.Controllers.FirstOrDefault(c => c.Controller == controller.Name),
                visits[controller.Name], now);
        }
    }

    private static FleetRow Row(
        Kept<SiteValue> kept, Site site, SiteController controller, Kept<PlanValue>? plan, ControllerPlan? own,
            IEnumerable<Kept<VisitValue>> visits, Instant now)
    {
        LocalDate today = now.InZone(site.Zone()).Date;
        VisitValue[] byTime = [.. visits.Select(v => v.Value).OrderBy(v => v.At)];
        return new FleetRow(
            kept.Id, site.Name, controller.Name, controller.Supply, controller.Profile.Stations, controller.Zones.Count,
                site.Place.LatitudeDeg, site.Place.LongitudeDeg,
            own is null ? null : plan!.Value.From, own is null ? null : plan!.Value.Survey == kept.Value.Digest,
            own is null ? null : Spell.Of(own, today, today).First().Percent, own?.NextVisit(today),
            own?.OverdueVisit(today, plan!.Value.From, byTime.LastOrDefault()?.At.Date),
            byTime.LastOrDefault()?.At.Date, byTime.LastOrDefault(v => v.BatteryVolts is not null)?.BatteryVolts,
                byTime.LastOrDefault(v => v.MeterM3 is not null)?.MeterM3);
    }

    /// <summary>A cell as text.</summary>
    public static string Text(object? cell) => cell switch
    {
        null => "",
        double number => number.ToString("R", CultureInfo.InvariantCulture),
        LocalDate date => LocalDatePattern.Iso.Format(date),
        _ => cell.ToString() ?? "",
    };
}
