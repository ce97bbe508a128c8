using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof;

/// <summary>How a zone fares under a plan over the years of a replay. Depths are gross, mean over the zone, mm a year.</summary>
public sealed record ZoneProof
{
    /// <summary>The controller's name.</summary>
    public required string Controller { get; init; }

    /// <summary>The station.</summary>
    public required int Station { get; init; }

    /// <summary>The zone's name.</summary>
    public required string Zone { get; init; }

    /// <summary>Water applied.</summary>
    public required double AppliedMm { get; init; }

    /// <summary>Least possible water.</summary>
    public required double LeastMm { get; init; }

    /// <summary>Water applied over least possible water; NaN where none is needed at all.</summary>
    public double WaterRatio => LeastMm > 0 ? AppliedMm / LeastMm : double.NaN;

    /// <summary>Adequacy, mean over the spots by area: the part of the plants' demand that was met (SWAT protocol).</summary>
    public required double Adequacy { get; init; }

    /// <summary>Adequacy of the spot that fares worst.</summary>
    public required double WorstSpotAdequacy { get; init; }

    /// <summary>Excess, mean over the spots by area: irrigation that ran off or drained, over the plants' demand (SWAT protocol).</summary>
    public required double Excess { get; init; }

    /// <summary>Stress, mean over the spots by area: days past allowed depletion, weighted by depth, a year.</summary>
    public required double StressDays { get; init; }

    /// <summary>The same for the spot that fares worst.</summary>
    public required double WorstSpotStressDays { get; init; }

    /// <summary>Irrigation that ran off.</summary>
    public required double RunoffMm { get; init; }

    /// <summary>Water that drained below the root zone, rain and irrigation.</summary>
    public required double DrainageMm { get; init; }

    /// <summary>Rain that fell.</summary>
    public required double RainMm { get; init; }

    /// <summary>Rain that ran off.</summary>
    public required double RainRunoffMm { get; init; }

    /// <summary>What the plants would have used without stress.</summary>
    public required double DemandMm { get; init; }

    /// <summary>Days of a year that were replayed: all, but for a seedbed of known sowing date only those in which it is one.</summary>
    public required double DaysAYear { get; init; }

    /// <summary>Irrigated area, for sums over the site.</summary>
    public required double AreaM2 { get; init; }

    /// <summary>Year by year.</summary>
    public required ListOf<ZoneYear> Years { get; init; }

    /// <summary>Whether every spot had at least <see cref="Verdict.LeastAdequacy"/> of its demand met.</summary>
    public bool IsServed => WorstSpotAdequacy >= Verdict.LeastAdequacy;
}

/// <summary>One zone in one year.</summary>
/// <param name="Year">The calendar year in which it begins.</param>
/// <param name="AppliedMm">Water applied.</param>
/// <param name="LeastMm">Least possible water.</param>
/// <param name="Adequacy">Mean over the spots.</param>
/// <param name="WorstSpotAdequacy">Of the spot that fares worst that year.</param>
/// <param name="StressDays">Mean over the spots.</param>
/// <param name="WorstSpotStressDays">Of the spot that fares worst that year.</param>
public sealed record ZoneYear(int Year, double AppliedMm, double LeastMm, double Adequacy, double WorstSpotAdequacy, double StressDays, double WorstSpotStressDays);
