using Valvewright.Engine.Needs;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Proof.Water;

/// <summary>The surface of a zone: what falls faster than the ground takes in stands on it, up to its storage; the rest runs off.</summary>
/// <remarks>
/// Between openings what is goes in at the intake rate. A first cycle on a drained surface runs off after 60 x ASA / (PR - intake)
/// minutes, as the SWAT protocol has it (not checked against the printed source); later cycles sooner when the soak was too short.
/// </remarks>
internal sealed class PondingGround(Zone zone)
{
    private readonly double rate = zone.Emission.PrecipitationRateMmPerHour;
    private readonly double intake = zone.Soil.IntakeMmPerHour;
    private readonly double storage = zone.Soil.SurfaceStorageMm;
    private double standing;
    private long since = long.MinValue;

    /// <summary>Longest cycle on a drained surface, s; infinite where the ground takes all in.</summary>
    public static double LongestCycleSeconds(Zone zone)
    {
        double beyond = zone.Emission.PrecipitationRateMmPerHour - zone.Soil.IntakeMmPerHour;
        return beyond > 0 ? 3600 * zone.Soil.SurfaceStorageMm / beyond : double.PositiveInfinity;
    }

    /// <summary>Waters from one moment to another (Unix seconds, not before the last end).</summary>
    /// <returns>What stood before it began, and what runs off, mm.</returns>
    public (double StandingBeforeMm, double RunoffMm) Water(long from, long to)
    {
        double before = since == long.MinValue ? 0 : Math.Max(0, standing - (intake * (from - since) / 3600));
        double level = before + ((rate - intake) * (to - from) / 3600);
        double runoff = Math.Max(0, level - Math.Max(storage, before));
        standing = Math.Clamp(level, 0, Math.Max(storage, before));
        since = to;
        return (before, runoff);
    }
}
