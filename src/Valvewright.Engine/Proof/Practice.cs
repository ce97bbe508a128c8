using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof;

/// <summary>How a way of watering fares on the replay, over the whole site.</summary>
/// <param name="Name">What it is: the plan, or a common practice.</param>
/// <param name="ShortName">The same in one word.</param>
/// <param name="CubicMetresPerYear">Water applied.</param>
/// <param name="LeastCubicMetresPerYear">Least possible water.</param>
/// <param name="StressDays">Stress, mean over the zones by area, a year.</param>
/// <param name="WorstSpotStressDays">Of the spot that fares worst of all.</param>
/// <param name="Zones">Zone by zone.</param>
public sealed record Practice(
    string Name, string ShortName, double CubicMetresPerYear, double LeastCubicMetresPerYear, double StressDays, double WorstSpotStressDays, ListOf<ZoneProof> Zones)
{
    /// <summary>Water applied over least possible water; NaN where none is needed at all.</summary>
    public double WaterRatio => LeastCubicMetresPerYear > 0 ? CubicMetresPerYear / LeastCubicMetresPerYear : double.NaN;

    internal static Practice Of(string name, string shortName, ListOf<ZoneProof> zones)
    {
        double area = zones.Sum(z => z.AreaM2);
        return new Practice(
            name,
            shortName,
            zones.Sum(z => z.AppliedMm * z.AreaM2) / 1000,
            zones.Sum(z => z.LeastMm * z.AreaM2) / 1000,
            area > 0 ? zones.Sum(z => z.StressDays * z.AreaM2) / area : 0,
            zones.Count == 0 ? 0 : zones.Max(z => z.WorstSpotStressDays),
            zones);
    }
}
