using System.Globalization;
using NodaTime;
using NodaTime.Text;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Files.Surveys;
using Valvewright.Store;
using Valvewright.Records;

namespace Valvewright.Server.Fleets;

/// <summary>All controllers of all sites, one a row.</summary>
internal static class FleetTable
{
    /// <summary>Headings; units in the name.</summary>
    public static IReadOnlyList<string> Headings { get; } =
    [
        "site", "controller", "supply", "stations", "zones", "latitude_deg", "longitude_deg", "plan_in_force_from", "plan_fits_survey", "percent_now",
        "next_planned_visit", "last_visit", "battery_v", "meter_m3", "site_id",
    ];

    /// <summary>The rows: text, numbers (double), dates (LocalDate), or null.</summary>
    public static IEnumerable<object?[]> Rows(SiteStore store, Instant now)
    {
        foreach (Kept<SiteValue> kept in store.Sites())
        {
            if (SurveyFiles.ParseApart(kept.Value.Survey, "survey").Site is not { } site)
            {
                // A survey that an older version took and this one does not: it is named, so that nobody thinks it lost.
                yield return [kept.Value.Name, null, null, null, null, null, null, null, null, null, null, null, null, null, kept.Id.ToString("D")];
                continue;
            }

            Kept<PlanValue>? plan = store.All<PlanValue>(kept.Id) is { Count: > 0 } plans ? plans[^1] : null;
            Plan? planned = plan is null ? null : Plans.PlanReading.Parse(plan.Value.Plan).Plan;
            ILookup<string, Kept<VisitValue>> visits = store.All<VisitValue>(kept.Id).ToLookup(v => v.Value.Controller);
            foreach (SiteController controller in site.Controllers)
            {
                yield return Row(kept, site, controller, plan, planned?.Controllers.FirstOrDefault(c => c.Controller == controller.Name), visits[controller.Name], now);
            }
        }
    }

    private static object?[] Row(
        Kept<SiteValue> kept, Site site, SiteController controller, Kept<PlanValue>? plan, ControllerPlan? own, IEnumerable<Kept<VisitValue>> visits, Instant now)
    {
        LocalDate today = now.InZone(site.Zone()).Date;
        VisitValue[] byTime = [.. visits.Select(v => v.Value).OrderBy(v => v.At)];
        return
        [
            site.Name, controller.Name, controller.Supply, (double)controller.Profile.Stations, (double)controller.Zones.Count, site.Place.LatitudeDeg, site.Place.LongitudeDeg,
            own is null ? null : plan!.Value.From, own is null ? null : plan!.Value.Survey == kept.Value.Digest ? "yes" : "no",
            own is null ? null : (double)Spell.Of(own, today, today).First().Percent, own is null ? null : NextVisit(own, today),
            byTime.LastOrDefault()?.At.Date, byTime.LastOrDefault(v => v.BatteryVolts is not null)?.BatteryVolts, byTime.LastOrDefault(v => v.MeterM3 is not null)?.MeterM3,
            kept.Id.ToString("D"),
        ];
    }

    private static LocalDate? NextVisit(ControllerPlan plan, LocalDate today) => plan.Visits.Count == 0
        ? null
        : plan.Visits.SelectMany(v => new[] { v.Date.InYear(today.Year), v.Date.InYear(today.Year + 1) }).Where(d => d >= today).Min();

    /// <summary>A cell as text.</summary>
    public static string Text(object? cell) => cell switch
    {
        null => "",
        double number => number.ToString("R", CultureInfo.InvariantCulture),
        LocalDate date => LocalDatePattern.Iso.Format(date),
        _ => cell.ToString() ?? "",
    };
}
