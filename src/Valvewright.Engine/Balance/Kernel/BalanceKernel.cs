using System.Runtime.Intrinsics;

namespace Valvewright.Engine.Balance.Kernel;

/// <summary>The root-zone balance of many lanes at once: the sums of <see cref="SpotStore"/>, in other units.</summary>
/// <remarks>
/// A day depends on the day before, so a single spot leaves most of a processor waiting. Lanes do not depend on each other: four
/// registers full of them are in flight at a time, all fed by the same three numbers of the day. Water is counted in units of TAW - RAW,
/// with w = (TAW - D) / (TAW - RAW) what is left above wilting: then Ks is min(w, 1), and the stress of a day, (D - RAW) / (TAW - RAW)
/// where positive, is 1 - Ks of the next. docs/balance.md has the reasoning and the figures.
/// </remarks>
public static partial class BalanceKernel
{
    /// <summary>Moves every lane on through days (or hours, or any stretch of them).</summary>
    /// <param name="root">The root zone that the lanes share.</param>
    /// <param name="wantedMm">KL x ETo by step, mm.</param>
    /// <param name="rainInMm">Rain that sinks in, by step, mm.</param>
    /// <param name="shareOfWater">By step, the part of each lane's water that it gets: 0 without watering.</param>
    /// <param name="lanes">The lanes.</param>
    /// <exception cref="ArgumentException">The series differ in length.</exception>
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
            throw new ArgumentException($"{wantedMm.Length} steps of use, {rainInMm.Length} of rain and {shareOfWater.Length} of shares.");
        }

        Steps steps = new(wantedMm, rainInMm, shareOfWater, root.PerStressMm, root.TotalMm * root.PerStressMm);
        for (int first = from; first < to; first += BalanceLanes.Block)
        {
            RunBlock(root, steps, lanes, first, Vector512.IsHardwareAccelerated);
        }
    }

    /// <summary>The same for lanes that stay in the kernel's own units: searches that stop at many days convert nothing in between.</summary>
    internal static void Run(RootZone root, ReadOnlySpan<double> wantedMm, ReadOnlySpan<double> rainInMm, ReadOnlySpan<double> shareOfWater, UnitLanes lanes)
    {
        Steps steps = new(wantedMm, rainInMm, shareOfWater, root.PerStressMm, root.TotalMm * root.PerStressMm);
        Span<double> drained = stackalloc double[BalanceLanes.Block];
        for (int first = 0; first < lanes.Count; first += BalanceLanes.Block)
        {
            RunUnits(
                steps,
                lanes.Water.AsSpan(first, BalanceLanes.Block), lanes.Left.AsSpan(first, BalanceLanes.Block), drained, lanes.Unstressed.AsSpan(first, BalanceLanes.Block),
                Vector512.IsHardwareAccelerated);
        }
    }

    /// <summary>Stores move on, sums of Ks are added to one step after the other (so that it does not matter where a run is broken off and taken up), and drainage is of this run.</summary>
    private static void RunUnits(Steps steps, Span<double> water, Span<double> left, Span<double> drained, Span<double> unstressed, bool wide)
    {
        if (wide)
        {
            Wide.Run(steps, water, left, drained, unstressed);
        }
        else
        {
            const int Half = BalanceLanes.Block / 2;
            Narrow.Run(steps, water[..Half], left[..Half], drained[..Half], unstressed[..Half]);
            Narrow.Run(steps, water[Half..], left[Half..], drained[Half..], unstressed[Half..]);
        }
    }

    /// <summary>One block of lanes through all steps.</summary>
    internal static void RunBlock(RootZone root, Steps steps, BalanceLanes lanes, int first, bool wide)
    {
        Span<double> water = stackalloc double[BalanceLanes.Block], left = stackalloc double[BalanceLanes.Block];
        Span<double> drained = stackalloc double[BalanceLanes.Block], unstressed = stackalloc double[BalanceLanes.Block];
        drained.Clear();
        unstressed.Clear();
        for (int lane = 0; lane < BalanceLanes.Block; lane++)
        {
            water[lane] = lanes.WaterMm[first + lane] * root.PerStressMm;
            left[lane] = (root.TotalMm - lanes.DepletionMm[first + lane]) * root.PerStressMm;
        }

        RunUnits(steps, water, left, drained, unstressed, wide);
        for (int lane = 0; lane < BalanceLanes.Block; lane++)
        {
            lanes.DepletionMm[first + lane] = Math.Max(root.TotalMm - left[lane] / root.PerStressMm, 0);
            lanes.DrainageMm[first + lane] += drained[lane] / root.PerStressMm;
            lanes.StressSteps[first + lane] += steps.WantedMm.Length - unstressed[lane];
        }
    }

    /// <summary>What is the same for all lanes.</summary>
    internal readonly ref struct Steps(
        ReadOnlySpan<double> wantedMm, ReadOnlySpan<double> rainInMm, ReadOnlySpan<double> shareOfWater, double perUnit, double full)
    {
        public readonly ReadOnlySpan<double> WantedMm = wantedMm;
        public readonly ReadOnlySpan<double> RainInMm = rainInMm;
        public readonly ReadOnlySpan<double> ShareOfWater = shareOfWater;
        public readonly double PerUnit = perUnit;
        public readonly double Full = full;
    }
}
