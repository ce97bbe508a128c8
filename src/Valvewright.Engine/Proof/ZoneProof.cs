using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof;

/// <summary>How a zone fares under a plan over the years of a replay. Depths are gross, mean over the zone, mm per year.</summary>
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

    /// <summary>Minimum water: perfect foresight, evenly watered.</summary>
    public required double MinimumMm { get; init; }

    /// <summary>The auditor's schedule: the net requirement, by the run-time multiplier, over the part that reaches the ground.</summary>
    public required double AuditorMm { get; init; }

    /// <summary>Water applied over minimum water; NaN where none is needed at all.</summary>
    public double WaterRatio => MinimumMm > 0 ? AppliedMm / MinimumMm : double.NaN;

    /// <summary>What the plants would use if they lacked nothing.</summary>
    public required double DemandMm { get; init; }

    /// <summary>What of it the low quarter lacked.</summary>
    public required double UnmetMm { get; init; }

    /// <summary>The part of its use that the low quarter had met, 0 to 1.</summary>
    public required double UseMet { get; init; }

    /// <summary>The part that the zone's quality asks for.</summary>
    public required double LeastUseMet { get; init; }

    /// <summary>The part of its use that the driest spot had met; information, not a goal.</summary>
    public required double DriestUseMet { get; init; }

    /// <summary>Days on which the low quarter ended past allowed depletion.</summary>
    public required double DryDays { get; init; }

    /// <summary>The longest run of such days in any year.</summary>
    public required int LongestDryDays { get; init; }

    /// <summary>Adequacy of the low quarter by the SWAT protocol.</summary>
    public required double Adequacy { get; init; }

    /// <summary>Excess over the low quarter by the SWAT protocol: irrigation that ran off or drained, over the use.</summary>
    public required double Excess { get; init; }

    /// <summary>Irrigation that ran off.</summary>
    public required double RunoffMm { get; init; }

    /// <summary>Water that drained below the low quarter's roots, rain and irrigation.</summary>
    public required double DrainageMm { get; init; }

    /// <summary>Irrigation that leaves held beyond the day's use.</summary>
    public required double LeafLossMm { get; init; }

    /// <summary>Rain that fell.</summary>
    public required double RainMm { get; init; }

    /// <summary>Rain that served: it sank in, or evaporated from leaves in place of the plants' use.</summary>
    public required double RainInMm { get; init; }

    /// <summary>Distribution uniformity of the low quarter; below 0.65 repair comes first.</summary>
    public required double Uniformity { get; init; }

    /// <summary>Days per year that were replayed: all, but for a seedbed of known sowing date only those in which it is one.</summary>
    public required double DaysAYear { get; init; }

    /// <summary>Irrigated area, for sums over the site.</summary>
    public required double AreaM2 { get; init; }

    /// <summary>Year by year.</summary>
    public required ListOf<ZoneYear> Years { get; init; }

    /// <summary>Whether the low quarter had what the zone's quality asks for.</summary>
    public bool IsServed => UseMet >= LeastUseMet;
}

/// <summary>One zone in one year.</summary>
/// <param name="Year">The calendar year in which it begins.</param>
/// <param name="AppliedMm">Water applied.</param>
/// <param name="MinimumMm">Minimum water.</param>
/// <param name="UseMet">The part of its use that the low quarter had met.</param>
/// <param name="LongestDryDays">The longest run of days past allowed depletion.</param>
public sealed record ZoneYear(int Year, double AppliedMm, double MinimumMm, double UseMet, int LongestDryDays);
