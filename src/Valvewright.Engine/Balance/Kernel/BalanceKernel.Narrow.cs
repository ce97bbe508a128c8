using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Valvewright.Engine.Balance.Kernel;

/// <content>The loop for 256-bit registers.</content>
public static partial class BalanceKernel
{
    /// <summary>Registers of four, for machines without wider ones: line for line the loop of <see cref="Wide"/>.</summary>
    private static class Narrow
    {
        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public static void Run(Steps steps, Block lanes)
        {
            Vector256<double> full = Vector256.Create(steps.Full), zero = Vector256<double>.Zero, one = Vector256<double>.One;
            Vector256<double> waterA = At(lanes.Water, 0), waterB = At(lanes.Water, 4);
            Vector256<double> waterC = At(lanes.Water, 8), waterD = At(lanes.Water, 12);
            Vector256<double> leftA = At(lanes.Left, 0), leftB = At(lanes.Left, 4);
            Vector256<double> leftC = At(lanes.Left, 8), leftD = At(lanes.Left, 12);
            Vector256<double> drainedA = At(lanes.Drained, 0), drainedB = At(lanes.Drained, 4);
            Vector256<double> drainedC = At(lanes.Drained, 8), drainedD = At(lanes.Drained, 12);
            Vector256<double> unmetA = At(lanes.Unmet, 0), unmetB = At(lanes.Unmet, 4);
            Vector256<double> unmetC = At(lanes.Unmet, 8), unmetD = At(lanes.Unmet, 12);
            for (int step = 0; step < steps.Use.Length; step++)
            {
                Vector256<double> use = Vector256.Create(steps.Use[step]);
                Vector256<double> rain = Vector256.Create(steps.Rain[step]);
                Vector256<double> leaf = Vector256.Create(steps.Leaf[step]);
                Vector256<double> slope = Vector256.Create(steps.Slope[step]);
                Vector256<double> share = Vector256.Create(steps.Share[step]);
                Move(ref leftA, ref drainedA, ref unmetA, waterA * share, use, rain, leaf, slope, full, zero, one);
                Move(ref leftB, ref drainedB, ref unmetB, waterB * share, use, rain, leaf, slope, full, zero, one);
                Move(ref leftC, ref drainedC, ref unmetC, waterC * share, use, rain, leaf, slope, full, zero, one);
                Move(ref leftD, ref drainedD, ref unmetD, waterD * share, use, rain, leaf, slope, full, zero, one);
            }

            Save(lanes.Left, leftA, leftB, leftC, leftD);
            Save(lanes.Drained, drainedA, drainedB, drainedC, drainedD);
            Save(lanes.Unmet, unmetA, unmetB, unmetC, unmetD);
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private static void Move(
            ref Vector256<double> left, ref Vector256<double> drained, ref Vector256<double> unmet, Vector256<double> water,
                Vector256<double> use, Vector256<double> rain, Vector256<double> leaf,
            Vector256<double> slope, Vector256<double> full, Vector256<double> zero, Vector256<double> one)
        {
            Vector256<double> onLeaves = Vector256.MinNative(water, leaf);
            Vector256<double> rest = Vector256.MaxNative(use - onLeaves, zero);
            Vector256<double> used = Vector256.MinNative(left * slope, one) * rest;
            Vector256<double> after = left + (rain + (water - onLeaves)) - used;
            Vector256<double> kept = Vector256.MinNative(after, full);
            drained += after - kept;
            left = Vector256.MaxNative(kept, zero);
            unmet += rest - used + (left - kept);
        }

        private static Vector256<double> At(Span<double> lanes, int first) => Vector256.LoadUnsafe(ref lanes[first]);

        private static void Save(Span<double> lanes, Vector256<double> a, Vector256<double> b, Vector256<double> c, Vector256<double> d)
        {
            a.CopyTo(lanes);
            b.CopyTo(lanes[4..]);
            c.CopyTo(lanes[8..]);
            d.CopyTo(lanes[12..]);
        }
    }
}
