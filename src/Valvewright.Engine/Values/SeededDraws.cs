namespace Valvewright.Engine.Values;

/// <summary>Draws that are the same on every machine (SplitMix64; Steele, Lea and Flood 2014).</summary>
internal sealed class SeededDraws(ulong seed)
{
    private ulong state = seed;

    internal ulong Next()
    {
        state += 0x9E3779B97F4A7C15;
        ulong z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }

    internal int Below(int count) => (int)(Unit() * count);

    internal double Unit() => (Next() >> 11) * (1.0 / (1UL << 53));

    /// <summary>Standard normal, by Box and Muller.</summary>
    internal double Normal() => Math.Sqrt(-2 * Math.Log(1 - Unit())) * Math.Cos(2 * Math.PI * Unit());
}
