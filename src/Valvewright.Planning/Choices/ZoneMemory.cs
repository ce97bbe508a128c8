using System.Collections.Concurrent;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Season;

namespace Valvewright.Planning.Choices;

/// <summary>Needs and depths of a site's zones, kept from one planning to the next: a change to a supply or a controller leaves them as
/// they were.</summary>
internal sealed class ZoneMemory(IReadOnlyList<Climate> training, YearsOfZones years)
{
    private readonly ConcurrentDictionary<Zone, Remembered> zones = new();
    private readonly WateringDates dates = new(training);

    /// <summary>The zone's need and the depths that suit it. A zone is known by all that is said of it but its station, so that a moved one
    /// is known again.</summary>
    public (ZoneNeed Need, DepthSearch Depths) Of(Site site, SiteController controller, Zone zone)
    {
        Remembered known = zones.GetOrAdd(zone with { Station = 0 }, key =>
            new Remembered(ZoneNeeds.Of(site, controller, key, training), new DepthSearch(key, years.Of(key), dates, site.UnmetUseWeight)));
        return (known.Need with { Controller = controller.Name, Station = zone.Station }, known.Depths);
    }

    private sealed record Remembered(ZoneNeed Need, DepthSearch Depths);
}
