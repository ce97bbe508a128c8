using Valvewright.Engine.Sprinklers;

namespace Valvewright.Engine.Proof;

/// <summary>One spot's water over some time.</summary>
/// <param name="Demand">KL x ETo, mm.</param>
/// <param name="Use">KL x Ks x ETo, mm.</param>
/// <param name="Stress">Days past allowed depletion, weighted by depth.</param>
internal readonly record struct SpotSums(double Demand, double Use, double Stress)
{
    /// <summary>The part of the demand that was met; 1 where nothing was wanted.</summary>
    public double Adequacy => Demand > 0 ? Use / Demand : 1;

    public static SpotSums operator +(SpotSums a, SpotSums b) => new(a.Demand + b.Demand, a.Use + b.Use, a.Stress + b.Stress);

    /// <summary>Mean over the spots by area.</summary>
    public static double Mean(SpotSums[] sums, SpotShares spots, Func<SpotSums, double> figure) =>
        sums.Select((s, i) => spots.Weight[i] * figure(s)).Sum();
}
