namespace Valvewright.Engine.Balance;

/// <summary>The root zone of one spot, moved on step by step.</summary>
/// <remarks>
/// Within a step water and use are set against each other before the store is held between field capacity and wilting point
/// (FAO-56 eq. 85 to 88: percolation follows the day's ET); Ks comes from the depletion at the step's beginning (example 37).
/// </remarks>
public struct SpotStore
{
    private readonly double total, readily, perStress;
    private double stressMm;

    /// <summary>A store at a depletion of 0 (field capacity) to TAW (wilting point).</summary>
    public SpotStore(RootZone root, double depletionMm)
    {
        total = root.TotalMm;
        readily = root.ReadilyMm;
        perStress = root.PerStressMm;
        DepletionMm = depletionMm;
    }

    /// <summary>Depletion below field capacity, mm.</summary>
    public double DepletionMm { get; private set; }

    /// <summary>What has drained below the root zone so far, mm.</summary>
    public double DrainageMm { get; private set; }

    /// <summary>What the plants have used so far, KL x Ks x ETo, mm.</summary>
    public double UseMm { get; private set; }

    /// <summary>Steps past allowed depletion so far, each weighted by (D - RAW) / (TAW - RAW).</summary>
    public readonly double StressSteps => stressMm * perStress;

    /// <summary>Moves on by one step.</summary>
    /// <param name="waterMm">Rain and irrigation that sink in.</param>
    /// <param name="wantedMm">KL x ETo.</param>
    public void Step(double waterMm, double wantedMm)
    {
        double ks = Math.Min(1, (total - DepletionMm) * perStress);
        double after = DepletionMm - waterMm + ks * wantedMm;
        double kept = Math.Max(after, 0);
        DrainageMm += kept - after;
        DepletionMm = Math.Min(kept, total);
        UseMm += ks * wantedMm - (kept - DepletionMm);
        stressMm += Math.Max(DepletionMm - readily, 0);
    }
}
