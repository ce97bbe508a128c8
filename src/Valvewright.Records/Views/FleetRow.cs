namespace Valvewright.Records.Views;

/// <summary>A controller in the list of all controllers of all sites.</summary>
/// <param name="SiteId">The site's id.</param>
/// <param name="Site">The site's name.</param>
/// <param name="Controller">The controller's name; null where the site's survey can no longer be read.</param>
/// <param name="Supply">The supply that it drinks from.</param>
/// <param name="Stations">Stations that it has.</param>
/// <param name="Zones">Stations that water something.</param>
/// <param name="LatitudeDeg">Latitude of the site, degrees north.</param>
/// <param name="LongitudeDeg">Longitude of the site, degrees east.</param>
/// <param name="PlanInForceFrom">First date of its latest plan; null where there is none.</param>
/// <param name="PlanFitsSurvey">Whether that plan was made for the survey as it stands.</param>
/// <param name="PercentNow">Percent that the plan has today.</param>
/// <param name="NextPlannedVisit">Date of the next visit that the plan wants.</param>
/// <param name="OverdueVisit">Date of the latest planned visit that is not on record.</param>
/// <param name="LastVisit">Date of the last visit recorded.</param>
/// <param name="BatteryVolts">Battery when last measured, V.</param>
/// <param name="MeterM3">Water meter when last read, m3.</param>
public sealed record FleetRow(
    Guid SiteId, string Site, string? Controller, string? Supply, int? Stations, int? Zones, double? LatitudeDeg, double? LongitudeDeg,
        LocalDate? PlanInForceFrom,
    bool? PlanFitsSurvey, int? PercentNow, LocalDate? NextPlannedVisit, LocalDate? OverdueVisit, LocalDate? LastVisit, double? BatteryVolts,
        double? MeterM3);
