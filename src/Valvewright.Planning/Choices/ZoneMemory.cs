using System.Collections.Concurrent;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Choices;

/// <summary>Needs and replays of a site's zones, kept from one planning to the next: a change to a supply or a controller leaves them as they were.</summary>
internal sealed class ZoneMemory(IReadOnlyList<Climate> training, double shareOfYears)
{
    private readonly ConcurrentDictionary<Zone, Remembered> zones = new();

    /// <summary>The zone's need and replay. A zone is known by all that is said of it but its station, so that a moved one is known again.</summary>
    public (ZoneNeed Need, StressReplay Replay) Of(Site site, SiteController controller, Zone zone)
    {
        Remembered known = zones.GetOrAdd(zone with { Station = 0 }, key => new Remembered(ZoneNeeds.Of(site, controller, key, training), new StressReplay(key, training, shareOfYears)));
        return (known.Need with { Controller = controller.Name, Station = zone.Station }, known.Replay);
    }

    private sealed record Remembered(ZoneNeed Need, StressReplay Replay);
}
