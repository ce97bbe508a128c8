using Valvewright.App.Pages.Visits;
using Valvewright.App.Shelf;
using Valvewright.App.Texts;
using Valvewright.Engine.Plans;
using Valvewright.Records;
using Valvewright.Records.Views;

namespace Valvewright.App.Pages.Fleet;

/// <summary>What is to be done at a controller.</summary>
public enum Due
{
    /// <summary>The site's survey can't be read any more.</summary>
    Unreadable,

    /// <summary>The battery should be changed.</summary>
    Battery,

    /// <summary>A visit is planned within the next two weeks, or overdue.</summary>
    Visit,

    /// <summary>The survey has changed since its plan was made.</summary>
    OldPlan,

    /// <summary>It has no plan.</summary>
    NoPlan,
}

/// <summary>What the list of controllers is ordered by.</summary>
public enum FleetOrder
{
    /// <summary>Site, then controller.</summary>
    Site,

    /// <summary>Controller.</summary>
    Controller,

    /// <summary>Next planned visit, the nearest first.</summary>
    NextVisit,

    /// <summary>Last visit, the longest ago first.</summary>
    LastVisit,

    /// <summary>Battery, the lowest first.</summary>
    Battery,
}

/// <summary>A controller in the list, with what is due there.</summary>
/// <param name="Row">The controller.</param>
/// <param name="Dues">What is due, the most pressing first.</param>
public sealed record FleetLine(FleetRow Row, ListOf<Due> Dues)
{
    /// <summary>A planned visit is named so many days ahead: time enough to put it into a round.</summary>
    public const int DaysAhead = 14;

    /// <summary>Judges a controller.</summary>
    /// <param name="row">The controller.</param>
    /// <param name="today">Today.</param>
    public static FleetLine Of(FleetRow row, LocalDate today)
    {
        List<Due> dues = [];
        if (row.Controller is null)
        {
            return new FleetLine(row, [Due.Unreadable]);
        }

        if (row.BatteryVolts is { } volts && Measured
            .OfBattery(volts, Measured.CellsOf([new VisitValue("", default, "", "", volts, [], null, "")])) == BatteryState.Change)
        {
            dues.Add(Due.Battery);
        }

        if (row.OverdueVisit is not null || row.NextPlannedVisit <= today.PlusDays(DaysAhead))
        {
            dues.Add(Due.Visit);
        }

        if (row.PlanInForceFrom is null)
        {
            dues.Add(Due.NoPlan);
        }
        else if (row.PlanFitsSurvey == false)
        {
            dues.Add(Due.OldPlan);
        }

        return new FleetLine(row, dues.Order().ToListOf());
    }

    /// <summary>The lines in an order.</summary>
    public static ListOf<FleetLine> Sorted(IEnumerable<FleetLine> lines, FleetOrder order, bool descending)
    {
        IOrderedEnumerable<FleetLine> sorted = order switch
        {
            FleetOrder.Controller => lines.OrderBy(l => l.Row.Controller, StringComparer.CurrentCultureIgnoreCase),
            FleetOrder.NextVisit => lines.OrderBy(l => l.Row.OverdueVisit ?? l.Row.NextPlannedVisit ?? LocalDate.MaxIsoValue),
            FleetOrder.LastVisit => lines.OrderBy(l => l.Row.LastVisit ?? LocalDate.MinIsoValue),
            FleetOrder.Battery => lines.OrderBy(l => l.Row.BatteryVolts ?? double.PositiveInfinity),
            _ => lines.OrderBy(l => l.Row.Site, StringComparer.CurrentCultureIgnoreCase),
        };
        FleetLine[] all = [.. sorted.ThenBy(l => l.Row.Site, StringComparer.CurrentCultureIgnoreCase)
            .ThenBy(l => l.Row.Controller, StringComparer.CurrentCultureIgnoreCase)];
        return descending ? all.Reverse().ToListOf() : all.ToListOf();
    }

    /// <summary>The controllers of a site that lies on this device.</summary>
    /// <param name="carried">The site.</param>
    /// <param name="now">Now.</param>
    /// <param name="words">The page's words.</param>
    public static IEnumerable<FleetRow> Of(CarriedSite carried, Instant now, PageWords words)
    {
        OpenedSite site = new(carried, words);
        LocalDate today = now.InZone(site.Site.Zone()).Date;
        OpenedPlan? latest = site.Plans.Count > 0 ? site.Plans[0] : null;
        foreach (SiteController controller in site.Site.Controllers)
        {
            ControllerPlan? own = latest?.Saved.Plan.Controllers.FirstOrDefault(c => c.Controller == controller.Name);
            VisitValue[] visits =
                [.. carried.All.Visits.Select(v => v.Value).Where(v => v.Controller == controller.Name).OrderBy(v => v.At)];
            yield return new FleetRow(
                carried.Id, site.Site.Name, controller.Name, controller.Supply, controller.Profile.Stations, controller.Zones.Count,
                    site.Site.Place.LatitudeDeg, site.Site.Place.LongitudeDeg,
                own is null ? null : latest!.View.From, own is null ? null : latest!.View.FitsSurvey,
                    own is null ? null : Spell.Of(own, today, today).First().Percent, own?.NextVisit(today),
                    own?.OverdueVisit(today, latest!.View.From, visits.LastOrDefault()?.At.Date),
                visits.LastOrDefault()?.At.Date, visits.LastOrDefault(v => v.BatteryVolts is not null)?.BatteryVolts,
                    visits.LastOrDefault(v => v.MeterM3 is not null)?.MeterM3);
        }
    }
}
