using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Valvewright.Engine.Balance;

/// <summary>The root-zone balance of many lanes at once: the same sums as <see cref="SpotStore"/>, lane by lane, to the last bit.</summary>
/// <remarks>
/// A day depends on the day before, so a single spot leaves most of a processor waiting. Lanes do not depend on each other: four
/// registers full of them are in flight at a time, all fed by the same three numbers of the day. docs/balance.md has the reasoning and
/// the figures.
/// </remarks>
public static class BalanceKernel
{
    private const int InFlight = 4;

    /// <summary>Moves every lane on through days (or hours, or any stretch of them).</summary>
    /// <param name="root">The root zone that the lanes share.</param>
    /// <param name="wantedMm">KL x ETo by day, mm.</param>
    /// <param name="rainInMm">Rain that sinks in, by day, mm.</param>
    /// <param name="shareOfWater">By day, the part of each lane's water that it gets: 0 on days without watering.</param>
    /// <param name="lanes">The lanes.</param>
    /// <exception cref="ArgumentException">The day series differ in length.</exception>
    public static void Run(
        RootZone root,
        ReadOnlySpan<double> wantedMm,
        ReadOnlySpan<double> rainInMm,
        ReadOnlySpan<double> shareOfWater,
        BalanceLanes lanes)
    {
        ArgumentNullException.ThrowIfNull(lanes);
        Run(root, wantedMm, rainInMm, shareOfWater, lanes, 0, lanes.DepletionMm.Length);
    }

    /// <summary>The same for whole blocks of lanes, so that threads can share the work.</summary>
    internal static void Run(
        RootZone root,
        ReadOnlySpan<double> wantedMm,
        ReadOnlySpan<double> rainInMm,
        ReadOnlySpan<double> shareOfWater,
        BalanceLanes lanes,
        int from,
        int to)
    {
        if (wantedMm.Length != rainInMm.Length || wantedMm.Length != shareOfWater.Length)
        {
            throw new ArgumentException($"{wantedMm.Length} days of use, {rainInMm.Length} of rain and {shareOfWater.Length} of shares.");
        }

        if (Vector512.IsHardwareAccelerated)
        {
            for (int first = from; first < to; first += InFlight * Lane8.Count)
            {
                RunBlock<Lane8>(root, wantedMm, rainInMm, shareOfWater, lanes, first);
            }
        }
        else
        {
            for (int first = from; first < to; first += InFlight * Lane4.Count)
            {
                RunBlock<Lane4>(root, wantedMm, rainInMm, shareOfWater, lanes, first);
            }
        }
    }

    /// <summary>Four registers of lanes through all days.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void RunBlock<T>(
        RootZone root,
        ReadOnlySpan<double> wantedMm,
        ReadOnlySpan<double> rainInMm,
        ReadOnlySpan<double> shareOfWater,
        BalanceLanes lanes,
        int first)
        where T : struct, ILane<T>
    {
        T total = T.All(root.TotalMm), readily = T.All(root.ReadilyMm), perStress = T.All(root.PerStressMm);
        T zero = T.All(0), one = T.All(1);
        Span<double> depletion = lanes.DepletionMm.AsSpan(first, InFlight * T.Count);
        Span<double> drainage = lanes.DrainageMm.AsSpan(first, InFlight * T.Count);
        Span<double> stress = lanes.StressMm.AsSpan(first, InFlight * T.Count);
        ReadOnlySpan<double> water = lanes.WaterMm.AsSpan(first, InFlight * T.Count);
        int b = T.Count, c = 2 * T.Count, d = 3 * T.Count;
        T waterA = T.Load(in water[0]), waterB = T.Load(in water[b]), waterC = T.Load(in water[c]), waterD = T.Load(in water[d]);
        T depA = T.Load(ref depletion[0]), depB = T.Load(ref depletion[b]), depC = T.Load(ref depletion[c]), depD = T.Load(ref depletion[d]);
        T drainA = T.Load(ref drainage[0]), drainB = T.Load(ref drainage[b]), drainC = T.Load(ref drainage[c]), drainD = T.Load(ref drainage[d]);
        T pastA = T.Load(ref stress[0]), pastB = T.Load(ref stress[b]), pastC = T.Load(ref stress[c]), pastD = T.Load(ref stress[d]);
        for (int day = 0; day < wantedMm.Length; day++)
        {
            T wanted = T.All(wantedMm[day]), rain = T.All(rainInMm[day]), share = T.All(shareOfWater[day]);
            Step(waterA, ref depA, ref drainA, ref pastA);
            Step(waterB, ref depB, ref drainB, ref pastB);
            Step(waterC, ref depC, ref drainC, ref pastC);
            Step(waterD, ref depD, ref drainD, ref pastD);

            [MethodImpl(MethodImplOptions.AggressiveInlining)]
            void Step(T waterMm, ref T depletionMm, ref T drainageMm, ref T pastMm)
            {
                T ks = T.Min(one, (total - depletionMm) * perStress);
                T after = depletionMm - (rain + share * waterMm) + ks * wanted;
                T kept = T.Max(after, zero);
                drainageMm += kept - after;
                depletionMm = T.Min(kept, total);
                pastMm += T.Max(depletionMm - readily, zero);
            }
        }

        depA.Store(ref depletion[0]);
        depB.Store(ref depletion[b]);
        depC.Store(ref depletion[c]);
        depD.Store(ref depletion[d]);
        drainA.Store(ref drainage[0]);
        drainB.Store(ref drainage[b]);
        drainC.Store(ref drainage[c]);
        drainD.Store(ref drainage[d]);
        pastA.Store(ref stress[0]);
        pastB.Store(ref stress[b]);
        pastC.Store(ref stress[c]);
        pastD.Store(ref stress[d]);
    }
}
