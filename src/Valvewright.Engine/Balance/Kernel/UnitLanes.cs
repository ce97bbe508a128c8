namespace Valvewright.Engine.Balance.Kernel;

/// <summary>
/// The stores of many lanes in the kernel's own units of TAW - RAW, to be used again and again: what <see cref="BalanceLanes"/> is in mm, without drainage.
/// </summary>
internal sealed class UnitLanes
{
    /// <summary>How many lanes are in use.</summary>
    public int Count { get; private set; }

    /// <summary>Irrigation that sinks in where the share of a day is 1.</summary>
    public double[] Water { get; private set; } = [];

    /// <summary>What is left above wilting.</summary>
    public double[] Left { get; private set; } = [];

    /// <summary>Sum of Ks over the steps so far; the kernel adds to it. Steps less this are stress days.</summary>
    public double[] Unstressed { get; private set; } = [];

    /// <summary>Makes room for so many lanes and clears the sums; stores and water are for the caller to set.</summary>
    public void Begin(int count)
    {
        int length = BalanceLanes.LengthFor(count);
        if (Water.Length < length)
        {
            (Water, Left, Unstressed) = (new double[length], new double[length], new double[length]);
        }

        Count = count;
        Array.Clear(Unstressed, 0, length);
    }
}
