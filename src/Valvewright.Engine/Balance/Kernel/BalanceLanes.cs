namespace Valvewright.Engine.Balance.Kernel;

/// <summary>The stores of many spots (or of one spot under many candidates) of one root zone, as a structure of arrays.</summary>
/// <remarks>Arrays are longer than <see cref="Count"/>, up to whole blocks of the kernel; what stands in the rest means nothing.</remarks>
public sealed class BalanceLanes
{
    /// <summary>Lanes that the kernel takes at a time.</summary>
    internal const int Block = 32;

    /// <summary>Room for so many lanes, all at field capacity and without water.</summary>
    public BalanceLanes(int count)
        : this(count, new double[LengthFor(count)])
    {
    }

    /// <summary>The same with the water of other lanes: what years have in common.</summary>
    internal BalanceLanes(int count, double[] waterMm)
    {
        Count = count;
        int length = LengthFor(count);
        WaterMm = waterMm;
        DepletionMm = new double[length];
        DrainageMm = new double[length];
        StressSteps = new double[length];
    }

    /// <summary>How many lanes are in use.</summary>
    public int Count { get; }

    /// <summary>Irrigation that sinks in where the share of a day is 1, mm: gross depth x spot share x part that reaches the ground.</summary>
    public double[] WaterMm { get; }

    /// <summary>Depletion, mm: before a run where it starts, after it where it ended.</summary>
    public double[] DepletionMm { get; }

    /// <summary>Drainage so far, mm; the kernel adds to it.</summary>
    public double[] DrainageMm { get; }

    /// <summary>Sum over days of the depth past allowed depletion, mm; the kernel adds to it. Times <see cref="RootZone.PerStressSteps"/>: stress days.</summary>
    public double[] StressSteps { get; }

    /// <summary>Sets every store to a depletion and clears the sums.</summary>
    public void Reset(double depletionMm = 0)
    {
        Array.Fill(DepletionMm, depletionMm);
        Array.Clear(DrainageMm);
        Array.Clear(StressSteps);
    }

    /// <summary>So many lanes in whole blocks.</summary>
    internal static int LengthFor(int count) => (count + Block - 1) / Block * Block;
}
