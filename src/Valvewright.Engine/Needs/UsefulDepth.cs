using Valvewright.Engine.Balance;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Needs;

/// <summary>The least that is worth giving at a time: less wets leaves and little else, or a run ends before the pipe is full.</summary>
/// <remarks>Rules of thumb, without a published source; docs/needs.md.</remarks>
public static class UsefulDepth
{
    /// <summary>The least overhead depth, mm (0.1 in).</summary>
    public const double LeastOverheadMm = 2.5;

    /// <summary>The part of the readily available water that a watering gives at least.</summary>
    public const double PartOfReadily = 0.25;

    /// <summary>The least gross depth of a date with water, mm.</summary>
    public static double GrossMm(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        double net = PartOfReadily * RootZone.Of(zone).ReadilyMm;
        bool leaves = zone.Emission.IsOverhead && zone.Planting.Stage != PlantStage.NewlySeeded;
        return (leaves ? Math.Max(LeastOverheadMm, net) : net) / (1 - zone.Emission.ApplicationLossFraction);
    }

    /// <summary>The shortest run of one cycle, s: until pipe and heads are full and turning.</summary>
    public static int LeastRunSeconds(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return zone.Emission.Kind switch
        {
            EmissionKind.Rotor => 5 * 60,
            EmissionKind.Drip => 10 * 60,
            EmissionKind.Spray when zone.Planting.Stage != PlantStage.NewlySeeded => 2 * 60,
            _ => 60,
        };
    }

    /// <summary>Whether a depth, given in so many cycles, is worth giving.</summary>
    public static bool Serves(Zone zone, double depthMm, int cycles)
    {
        ArgumentNullException.ThrowIfNull(zone);
        double seconds = cycles > 0 ? depthMm / zone.Emission.PrecipitationRateMmPerHour * 3600 / cycles : 0;
        return depthMm >= GrossMm(zone) - 1e-6 && seconds >= LeastRunSeconds(zone) - 1e-6;
    }
}
