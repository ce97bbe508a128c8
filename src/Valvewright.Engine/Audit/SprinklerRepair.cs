using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Audit;

/// <summary>What fixing the worst sprinklers would change.</summary>
/// <param name="Cans">Cans that would be lifted, from 0, the driest first.</param>
/// <param name="UniformityBefore">Low-quarter uniformity now.</param>
/// <param name="UniformityAfter">After the repair.</param>
/// <param name="WaterFactor">Water for the same result afterwards, as a share of now.</param>
public sealed record SprinklerRepair(ListOf<int> Cans, double UniformityBefore, double UniformityAfter, double WaterFactor)
{
    /// <summary>Cans below this share of the mean are worth a repair: nozzle, tilt, height, arc, spacing.</summary>
    public const double WorstShare = 0.75;

    /// <summary>Lifts the cans below three quarters of the mean to the mean of the others.</summary>
    /// <remarks>The driest quarter decides run time: its share of the water is 0.4 + 0.6 DUlq, so water goes as one over that
    /// share.</remarks>
    public static SprinklerRepair Of(CatchCans cans)
    {
        ArgumentNullException.ThrowIfNull(cans);
        int[] worst = [.. Enumerable.Range(0, cans.Readings.Count).Where(i => cans.Readings[i] < WorstShare * cans.Mean)
            .OrderBy(i => cans.Readings[i]).ThenBy(i => i)];
        if (worst.Length == 0) return new SprinklerRepair([], cans.LowQuarterUniformity, cans.LowQuarterUniformity, 1);
        double others = cans.Readings.Where((_, i) => !worst.Contains(i)).Average();
        CatchCans after = cans with { Readings = cans.Readings.Select((r, i) => worst.Contains(i) ? others : r).ToListOf() };
        double before = cans.LowQuarterUniformity;
        return new SprinklerRepair(
            worst.ToListOf(), before, after.LowQuarterUniformity,
            LowQuarter.RunTimeMultiplier(after.LowQuarterUniformity) / LowQuarter.RunTimeMultiplier(before));
    }
}
