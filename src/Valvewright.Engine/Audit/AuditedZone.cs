using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Audit;

/// <summary>A zone with what its cans say in place of what was assumed.</summary>
public static class AuditedZone
{
    /// <summary>Losses between these are believed; outside, the cans' rate is taken for the whole.</summary>
    private const double LargestLoss = 0.4;

    /// <summary>The cans become the zone's spots. Flow over area stays the gross rate, and what the cans did not catch of it is loss.</summary>
    public static Zone With(Zone zone, CatchCans cans)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(cans);
        double gross = PrecipitationRate.FromFlowAndArea(zone.Emission.FlowLpm, zone.AreaM2);
        double loss = 1 - (cans.NetRateMmPerHour / gross);
        bool isLoss = loss is > 0 and < LargestLoss;
        return zone with
        {
            Emission = zone.Emission with
            {
                Spots = cans.Spots(),
                PrecipitationRateMmPerHour = isLoss ? gross : cans.NetRateMmPerHour,
                ApplicationLossFraction = isLoss ? loss : 0,
            },
        };
    }

    /// <summary>The site with one zone audited.</summary>
    /// <exception cref="KeyNotFoundException">No such controller or station.</exception>
    public static Site With(Site site, string controller, int station, CatchCans cans)
    {
        ArgumentNullException.ThrowIfNull(site);
        _ = site.ControllerNamed(controller).ZoneAt(station);
        return site with
        {
            Controllers = site.Controllers.Select(c => c.Name != controller
                ? c
                : c with { Zones = c.Zones.Select(z => z.Station == station ? With(z, cans) : z).ToListOf() }).ToListOf(),
        };
    }
}
