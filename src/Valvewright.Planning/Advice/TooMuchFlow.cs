using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Planning;

/// <summary>Zones that by themselves draw more than their supply gives: no plan can help, and no search is needed to say so.</summary>
internal static class TooMuchFlow
{
    /// <summary>One obstacle for each, in the survey's order.</summary>
    public static ListOf<Obstacle> Of(Site site) =>
    [
        .. from controller in site.Controllers
           let supply = site.SupplyNamed(controller.Supply)
           from zone in controller.Zones
           where Tenths(zone.Emission.FlowLpm, Math.Ceiling, -1e-6) > Tenths(supply.FlowLpm, Math.Floor, 1e-6)
           select Told(site, supply, controller, zone),
    ];

    private static Obstacle Told(Site site, WaterSupply supply, SiteController controller, Zone zone) => new(
        supply.Name,
        $"{zone.Name} on {controller.Name} draws {InWords.Flow(site, zone.Emission.FlowLpm)} and {supply.Name} gives {InWords.Flow(site, supply.FlowLpm)}.",
        []);

    /// <summary>As the models count: zones up to the tenth of a liter, supplies down.</summary>
    private static double Tenths(double lpm, Func<double, double> round, double tolerance) => round((lpm * 10) + tolerance);
}
