namespace Valvewright.Engine.Balance.Kernel;

/// <summary>The stores of one column under many candidates, as a structure of arrays.</summary>
/// <remarks>Arrays are longer than <see cref="Count"/>, up to whole blocks of the kernel; the rest means nothing.</remarks>
public sealed class BalanceLanes
{
    /// <summary>Lanes that the kernel takes at a time.</summary>
    internal const int Block = 32;

    /// <summary>Room for so many lanes, empty and without water.</summary>
    public BalanceLanes(int count)
    {
        Count = count;
        int length = LengthFor(count);
        (WaterMm, LeftMm, DrainageMm, UnmetMm) = (new double[length], new double[length], new double[length], new double[length]);
    }

    /// <summary>How many lanes are in use.</summary>
    public int Count { get; private set; }

    /// <summary>Irrigation that reaches the column where the share of a step is 1, mm.</summary>
    public double[] WaterMm { get; private set; }

    /// <summary>Water above wilting point, mm: before a run where it starts, after it where it ended.</summary>
    public double[] LeftMm { get; private set; }

    /// <summary>Drainage so far, mm; the kernel adds to it.</summary>
    public double[] DrainageMm { get; private set; }

    /// <summary>Use wanted and not met so far, mm; the kernel adds to it.</summary>
    public double[] UnmetMm { get; private set; }

    /// <summary>Sets every store and clears the sums.</summary>
    public void Reset(double leftMm)
    {
        Array.Fill(LeftMm, leftMm);
        ClearSums();
    }

    /// <summary>Clears the sums, not the stores.</summary>
    public void ClearSums()
    {
        Array.Clear(DrainageMm);
        Array.Clear(UnmetMm);
    }

    /// <summary>Makes room for so many lanes, to be used again and again; stores, water and sums are for the caller to set.</summary>
    public void Begin(int count)
    {
        int length = LengthFor(count);
        if (WaterMm.Length < length)
        {
            (WaterMm, LeftMm, DrainageMm, UnmetMm) = (new double[length], new double[length], new double[length], new double[length]);
        }

        Count = count;
    }

    /// <summary>So many lanes in whole blocks.</summary>
    internal static int LengthFor(int count) => (count + Block - 1) / Block * Block;
}
