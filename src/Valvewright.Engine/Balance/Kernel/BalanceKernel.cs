using System.Runtime.Intrinsics;

namespace Valvewright.Engine.Balance.Kernel;

/// <summary>The root-zone balance of many lanes at once: the sums of <see cref="SpotStore"/>, in the same order.</summary>
/// <remarks>
/// A day depends on the day before, so a single column leaves most of a processor waiting. Lanes do not depend on each other: four
/// registers full of them are in flight at a time, all fed by the same numbers of the day. docs/balance.md has the reasoning and the
/// figures.
/// </remarks>
public static partial class BalanceKernel
{
    /// <summary>Moves every lane on through steps of a zone.</summary>
    /// <param name="root">The root zone that the lanes share.</param>
    /// <param name="days">The zone's days.</param>
    /// <param name="from">First step.</param>
    /// <param name="to">First step after.</param>
    /// <param name="shareOfWater">By step of the zone's days, the part of each lane's water that it gets: 0 without watering.</param>
    /// <param name="lanes">The lanes.</param>
    public static void Run(RootZone root, ZoneDays days, int from, int to, ReadOnlySpan<double> shareOfWater, BalanceLanes lanes)
    {
        ArgumentNullException.ThrowIfNull(lanes);
        Run(root, days, from, to, shareOfWater, lanes, 0, BalanceLanes.LengthFor(lanes.Count), Vector512.IsHardwareAccelerated);
    }

    /// <summary>The same for whole blocks of lanes, so that threads can share the work, and at a width of choice.</summary>
    internal static void Run(
        RootZone root, ZoneDays days, int from, int to, ReadOnlySpan<double> shareOfWater, BalanceLanes lanes, int firstLane,
            int endLane, bool wide)
    {
        ArgumentNullException.ThrowIfNull(days);
        if (shareOfWater.Length != days.Steps)
        {
            throw new ArgumentException($"{days.Steps} steps of a zone, but {shareOfWater.Length} shares of water.");
        }

        int length = to - from;
        if (length <= 0)
        {
            return;
        }

        Steps steps = new(
            days.RootUseMm.AsSpan(from, length), days.RainInMm.AsSpan(from, length), days.LeafRoomMm.AsSpan(from, length),
                days.Slope.AsSpan(from, length),
            shareOfWater.Slice(from, length), root.TotalMm);
        const int Half = BalanceLanes.Block / 2;
        for (int first = firstLane; first < endLane; first += BalanceLanes.Block)
        {
            if (wide)
            {
                Wide.Run(steps, Block.Of(lanes, first, BalanceLanes.Block));
            }
            else
            {
                Narrow.Run(steps, Block.Of(lanes, first, Half));
                if (first + Half < lanes.Count)
                {
                    Narrow.Run(steps, Block.Of(lanes, first + Half, Half));
                }
            }
        }
    }

    /// <summary>What is the same for all lanes.</summary>
    private readonly ref struct Steps(
        ReadOnlySpan<double> use, ReadOnlySpan<double> rain, ReadOnlySpan<double> leaf, ReadOnlySpan<double> slope,
            ReadOnlySpan<double> share, double full)
    {
        public readonly ReadOnlySpan<double> Use = use, Rain = rain, Leaf = leaf, Slope = slope, Share = share;
        public readonly double Full = full;
    }

    /// <summary>The lanes of one block.</summary>
    private readonly ref struct Block(Span<double> water, Span<double> left, Span<double> drained, Span<double> unmet)
    {
        public readonly Span<double> Water = water, Left = left, Drained = drained, Unmet = unmet;

        public static Block Of(BalanceLanes lanes, int first, int count) => new(
            lanes.WaterMm.AsSpan(first, count), lanes.LeftMm.AsSpan(first, count), lanes.DrainageMm.AsSpan(first, count),
                lanes.UnmetMm.AsSpan(first, count));
    }
}
