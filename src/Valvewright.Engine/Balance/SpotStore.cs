namespace Valvewright.Engine.Balance;

/// <summary>One column of root zone, moved on step by step.</summary>
/// <remarks>
/// Within a step water and use are set against each other before the store is held between field capacity and wilting point (FAO-56 eq. 85
/// to 88: percolation follows the day's ET); Ks comes from the depletion at the step's beginning (example 37). Water on leaves evaporates
/// first, in place of the plants' own use (Burgy and Pomeroy 1958); only what leaves hold beyond the day's use is lost.
/// </remarks>
public struct SpotStore
{
    private readonly RootZone root;

    /// <summary>A store at a depletion of 0 (field capacity) to TAW (wilting point).</summary>
    public SpotStore(RootZone root, double depletionMm)
    {
        this.root = root;
        LeftMm = root.TotalMm - depletionMm;
    }

    /// <summary>Water above wilting point, mm.</summary>
    public double LeftMm { get; private set; }

    /// <summary>Depletion below field capacity, mm.</summary>
    public readonly double DepletionMm => Math.Max(root.TotalMm - LeftMm, 0);

    /// <summary>What has drained below the root zone so far, mm.</summary>
    public double DrainageMm { get; private set; }

    /// <summary>What plants and wet leaves have used so far of what was wanted, mm.</summary>
    public double UseMm { get; private set; }

    /// <summary>Use that was wanted and not met so far, (1 - Ks) of the roots' use, mm.</summary>
    public double UnmetMm { get; private set; }

    /// <summary>What leaves held beyond the step's use so far, mm.</summary>
    public double LeafLossMm { get; private set; }

    /// <summary>Moves on by one step of a zone.</summary>
    /// <param name="days">The zone's days.</param>
    /// <param name="step">Which.</param>
    /// <param name="irrigationMm">Irrigation that reaches this column, net of runoff and loss.</param>
    public void Step(ZoneDays days, int step, double irrigationMm)
    {
        double onLeaves = Math.Min(irrigationMm, days.LeafRoomMm[step]);
        double rest = Math.Max(days.RootUseMm[step] - onLeaves, 0);
        double fromLeaves = days.RootUseMm[step] - rest;
        UseMm += days.WantedMm[step] - days.RootUseMm[step] + fromLeaves;
        LeafLossMm += onLeaves - fromLeaves;
        Step(days.RainInMm[step] + (irrigationMm - onLeaves), rest, days.Slope[step]);
    }

    /// <summary>Moves on by one step.</summary>
    /// <param name="waterMm">Rain and irrigation that sink in.</param>
    /// <param name="wantedMm">KL x ETo.</param>
    /// <param name="slope">1 / (TAW - RAW), 1/mm; null takes the root zone's own RAW.</param>
    public void Step(double waterMm, double wantedMm, double? slope = null)
    {
        double ks = Math.Min(1, LeftMm * (slope ?? root.SlopeFrom(root.ReadilyMm)));
        double use = ks * wantedMm;
        double after = LeftMm + waterMm - use;
        double kept = Math.Min(after, root.TotalMm);
        DrainageMm += after - kept;
        LeftMm = Math.Max(kept, 0);
        UseMm += use - (LeftMm - kept);
        UnmetMm += wantedMm - use + (LeftMm - kept);
    }
}
