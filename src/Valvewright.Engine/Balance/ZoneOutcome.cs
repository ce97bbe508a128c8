namespace Valvewright.Engine.Balance;

/// <summary>What became of the water of a zone over a run of days. Depths are means over the zone's area, mm over all days.</summary>
public sealed record ZoneOutcome
{
    /// <summary>Days replayed.</summary>
    public required int Days { get; init; }

    /// <summary>Irrigation that left the sprinklers.</summary>
    public required double AppliedMm { get; init; }

    /// <summary>Irrigation that ran off the surface.</summary>
    public required double RunoffMm { get; init; }

    /// <summary>Rain that fell.</summary>
    public required double RainMm { get; init; }

    /// <summary>Rain that ran off.</summary>
    public required double RainRunoffMm { get; init; }

    /// <summary>Water that drained below the root zone.</summary>
    public required double DrainageMm { get; init; }

    /// <summary>What the plants would have used without stress: KL x ETo.</summary>
    public required double DemandMm { get; init; }

    /// <summary>What they did use: KL x Ks x ETo.</summary>
    public required double UseMm { get; init; }

    /// <summary>
    /// Days past allowed depletion, each weighted by (D - RAW) / (TAW - RAW), mean over the zone's spots by area.
    /// </summary>
    public required double StressDays { get; init; }

    /// <summary>The same for the driest spot alone.</summary>
    public required double WorstSpotStressDays { get; init; }

    /// <summary>Change of the store from the first day's beginning to the last day's end; positive when it got wetter.</summary>
    public required double StoreChangeMm { get; init; }
}
