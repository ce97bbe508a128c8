using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof;

/// <summary>How a way of watering fares on the replay, over the whole site.</summary>
/// <param name="Name">What it is: the plan, or a common practice.</param>
/// <param name="ShortName">The same in one word.</param>
/// <param name="CubicMetresPerYear">Water applied.</param>
/// <param name="MinimumCubicMetresPerYear">Minimum water.</param>
/// <param name="UseMet">The part of their use that low quarters had met, mean over the zones by area.</param>
/// <param name="LeastUseMet">The same of the zone that fares worst.</param>
/// <param name="Zones">Zone by zone.</param>
public sealed record Practice(
    string Name, string ShortName, double CubicMetresPerYear, double MinimumCubicMetresPerYear, double UseMet, double LeastUseMet,
        ListOf<ZoneProof> Zones)
{
    /// <summary>Water applied over minimum water; NaN where none is needed at all.</summary>
    public double WaterRatio => MinimumCubicMetresPerYear > 0 ? CubicMetresPerYear / MinimumCubicMetresPerYear : double.NaN;

    internal static Practice Of(string name, string shortName, ListOf<ZoneProof> zones)
    {
        double demand = zones.Sum(z => z.DemandMm * z.AreaM2);
        return new Practice(
            name,
            shortName,
            zones.Sum(z => z.AppliedMm * z.AreaM2) / 1000,
            zones.Sum(z => z.MinimumMm * z.AreaM2) / 1000,
            demand > 0 ? 1 - (zones.Sum(z => z.UnmetMm * z.AreaM2) / demand) : 1,
            zones.Count == 0 ? 1 : zones.Min(z => z.UseMet),
            zones);
    }
}
