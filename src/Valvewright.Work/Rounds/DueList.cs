using Valvewright.Engine.Metering;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;

namespace Valvewright.Work.Rounds;

/// <summary>What is due at all sites.</summary>
public static class DueList
{
    private const int FaultDays = 2;
    private const int AlarmDays = 3;
    private const int MisreadDays = 28;
    private const int AdviceDays = 7;
    private const int BatteryDays = 28;

    /// <summary>Days without water after which a plant begins to suffer soon.</summary>
    private const int SoonDryDays = 7;

    private const double HoursPerWeek = 168;

    /// <summary>Everything with an earliest date up to a date: overdue and urgent first, then by site, controller and kind.</summary>
    /// <param name="sites">What is known of the sites.</param>
    /// <param name="today">The date.</param>
    /// <param name="until">The last date to look at.</param>
    /// <param name="minutes">Minutes of work.</param>
    public static ListOf<DueItem> Of(IEnumerable<SiteFacts> sites, LocalDate today, LocalDate until, DueMinutes minutes)
    {
        ArgumentNullException.ThrowIfNull(sites);
        ArgumentNullException.ThrowIfNull(minutes);
        return sites.SelectMany(s => Faults(s, today).Concat(Meters(s, today)).Concat(Batteries(s, today)).Concat(Seasons(s, today))
                .Concat(Advised(s, today)))
            .Where(i => i.Earliest <= until)
            .Select(i => i with { Minutes = minutes.Of(i.Kind) })
            .OrderBy(i => i.Latest).ThenByDescending(i => i.Risk)
            .ThenBy(i => i.Site, StringComparer.Ordinal).ThenBy(i => i.Controller, StringComparer.Ordinal).ThenBy(i => i.Kind)
            .ThenBy(i => i.Why.Text, StringComparer.Ordinal)
            .ToListOf();
    }

    private static IEnumerable<DueItem> Faults(SiteFacts site, LocalDate today) => site.Faults.Select(f => Item(
        site, f.Controller, DueKind.Fault,
        f.Station is { } station ? (Sentence)$"Open fault, station {station}: {f.Complaint}" : (Sentence)$"Open fault: {f.Complaint}",
        today, LocalDate.Max(f.Since, today.PlusDays(-FaultDays)).PlusDays(FaultDays), null, DueRisk.High));

    private static IEnumerable<DueItem> Meters(SiteFacts site, LocalDate today)
    {
        foreach (MeterSeen meter in site.Meters.Where(m => m.Interval.IsAlarm))
        {
            MeterInterval seen = meter.Interval;
            double perWeek = seen.LitersPerHour * HoursPerWeek;
            (Sentence why, double? worth, DueRisk risk, int days) = seen.Verdict switch
            {
                MeterVerdict.Leak => ((Sentence)$"Water meter {meter.Supply}: a leak", perWeek, DueRisk.High, AlarmDays),
                MeterVerdict.TooMuch => ((Sentence)$"Water meter {meter.Supply}: used more than expected", perWeek, DueRisk.High,
                    AlarmDays),
                MeterVerdict.TooLittle => ((Sentence)$"Water meter {meter.Supply}: used less than expected", (double?)null, DueRisk.High,
                    AlarmDays),
                _ => ((Sentence)$"Water meter {meter.Supply}: read it again", null, DueRisk.Low, MisreadDays),
            };
            string controller = site.Site.Controllers.FirstOrDefault(c => c.Supply == meter.Supply)?.Name ?? meter.Supply;
            yield return Item(site, controller, DueKind.Meter, why, today, today.PlusDays(days), worth, risk);
        }
    }

    private static IEnumerable<DueItem> Batteries(SiteFacts site, LocalDate today) => site.Batteries.Select(b => Item(
        site, b.Controller, DueKind.Battery,
        b.Volts is { } volts ? (Sentence)$"Change the battery: it showed {volts:0.0} V" : (Sentence)"Change the battery",
        b.ChangeBy.PlusDays(-BatteryDays), b.ChangeBy, null, b.ChangeBy <= today.PlusDays(SoonDryDays) ? DueRisk.High : DueRisk.Medium));

    private static IEnumerable<DueItem> Seasons(SiteFacts site, LocalDate today)
    {
        foreach (ControllerPlan plan in site.Plan?.Controllers ?? [])
        {
            if (site.Site.Controllers.All(c => c.Name != plan.Controller) || plan.Settings.Programs.Count == 0
                || SeasonDue.Of(plan, today, LastOf(site, plan.Controller)) is not { } due)
            {
                continue;
            }

            LocalDate latest = due.Date.PlusDays(Visit.SlackDays);
            bool more = due.PercentAfter > due.PercentBefore;
            yield return Item(
                site, plan.Controller, DueKind.Season, Why(due), due.Date.PlusDays(-Visit.SlackDays), latest,
                due.Litres(site.Site, plan, today),
                latest < today && more ? DueRisk.High : more || latest < today ? DueRisk.Medium : DueRisk.Low);
        }
    }

    private static Sentence Why(SeasonDue due) => (due.PercentAfter, due.PercentBefore, due.ChangesPrograms) switch
    {
        (0, _, _) => (Sentence)"Season visit: turn off",
        (var on, 0, false) => (Sentence)$"Season visit: turn on, percent {on}",
        (var on, 0, true) => (Sentence)$"Season visit: new settings, turn on, percent {on}",
        (var to, var from, false) => (Sentence)$"Season visit: percent {from} to {to}",
        (var to, var from, true) when to == from => (Sentence)$"Season visit: new settings, percent {to}",
        (var to, var from, true) => (Sentence)$"Season visit: new settings, percent {from} to {to}",
    };

    private static IEnumerable<DueItem> Advised(SiteFacts site, LocalDate today)
    {
        foreach (InYearAdvice advice in site.Advice.Where(a => a.IsWorthADrive && a.PercentNow != a.PercentToday))
        {
            bool dry = advice.PercentToday > advice.PercentNow && advice.Zones.Any(z => z.DaysLeft <= SoonDryDays);
            yield return Item(
                site, advice.Controller, DueKind.Advice,
                advice.PercentToday == 0 ? (Sentence)$"This year's weather: percent {advice.PercentNow} to off"
                    : advice.PercentNow == 0 ? (Sentence)$"This year's weather: off to percent {advice.PercentToday}"
                    : (Sentence)$"This year's weather: percent {advice.PercentNow} to {advice.PercentToday}",
                today, today.PlusDays(AdviceDays), advice.SavedLitres, dry ? DueRisk.High : DueRisk.Medium);
        }
    }

    private static VisitDone? LastOf(SiteFacts site, string controller) =>
        site.LastVisits.Where(v => v.Controller == controller).OrderBy(v => v.On).LastOrDefault();

    private static DueItem Item(
        SiteFacts site, string controller, DueKind kind, Sentence why, LocalDate earliest, LocalDate latest, double? worth, DueRisk risk) =>
        new(site.Site.Name, controller, kind, why, earliest, latest, 0, worth is { } litres ? Math.Round(litres) : null, risk);
}
