namespace Valvewright.Engine.Balance;

/// <summary>What became of the water of one column of a zone over a run of days, mm over all days.</summary>
/// <remarks>Reached + rain in = use + leaf loss + drainage + store change.</remarks>
public sealed record ZoneOutcome
{
    /// <summary>Days replayed.</summary>
    public required int Days { get; init; }

    /// <summary>Irrigation that left the sprinklers, mean over the zone.</summary>
    public required double AppliedMm { get; init; }

    /// <summary>Irrigation that ran off the surface, mean over the zone.</summary>
    public required double RunoffMm { get; init; }

    /// <summary>Irrigation that reached the column.</summary>
    public required double ReachedMm { get; init; }

    /// <summary>Rain and melted snow that sank in, or evaporated from leaves in place of the plants' use.</summary>
    public required double RainInMm { get; init; }

    /// <summary>Water that drained below the root zone.</summary>
    public required double DrainageMm { get; init; }

    /// <summary>What the plants would have used had they lacked nothing: KL x ETo.</summary>
    public required double DemandMm { get; init; }

    /// <summary>What of it was met.</summary>
    public required double UseMm { get; init; }

    /// <summary>What of it was not: (1 - Ks) of the roots' use.</summary>
    public required double UnmetMm { get; init; }

    /// <summary>Irrigation that leaves held beyond the day's use.</summary>
    public required double LeafLossMm { get; init; }

    /// <summary>Days that ended past allowed depletion.</summary>
    public required int DryDays { get; init; }

    /// <summary>The longest run of such days.</summary>
    public required int LongestDryDays { get; init; }

    /// <summary>Change of the store; positive when it got wetter.</summary>
    public required double StoreChangeMm { get; init; }

    /// <summary>The part of the demand that was met, 0 to 1; 1 where there was none.</summary>
    public double UseMet => DemandMm > 0 ? 1 - (UnmetMm / DemandMm) : 1;
}
