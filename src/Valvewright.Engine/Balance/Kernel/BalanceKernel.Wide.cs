using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Valvewright.Engine.Balance.Kernel;

/// <content>The loop for 512-bit registers.</content>
public static partial class BalanceKernel
{
    /// <summary>Registers of eight. Only operations that IEEE 754 rounds alike everywhere: no fused multiply-add, so that every width and
    /// machine gives the same bits.</summary>
    private static class Wide
    {
        // Otherwise the loop runs unoptimized until its calls are counted: a sixth of a plan's processor time.
        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public static void Run(Steps steps, Block lanes)
        {
            Vector512<double> full = Vector512.Create(steps.Full), zero = Vector512<double>.Zero, one = Vector512<double>.One;
            Vector512<double> waterA = At(lanes.Water, 0), waterB = At(lanes.Water, 8);
            Vector512<double> waterC = At(lanes.Water, 16), waterD = At(lanes.Water, 24);
            Vector512<double> leftA = At(lanes.Left, 0), leftB = At(lanes.Left, 8);
            Vector512<double> leftC = At(lanes.Left, 16), leftD = At(lanes.Left, 24);
            Vector512<double> drainedA = At(lanes.Drained, 0), drainedB = At(lanes.Drained, 8);
            Vector512<double> drainedC = At(lanes.Drained, 16), drainedD = At(lanes.Drained, 24);
            Vector512<double> unmetA = At(lanes.Unmet, 0), unmetB = At(lanes.Unmet, 8);
            Vector512<double> unmetC = At(lanes.Unmet, 16), unmetD = At(lanes.Unmet, 24);
            for (int step = 0; step < steps.Use.Length; step++)
            {
                Vector512<double> use = Vector512.Create(steps.Use[step]);
                Vector512<double> rain = Vector512.Create(steps.Rain[step]);
                Vector512<double> leaf = Vector512.Create(steps.Leaf[step]);
                Vector512<double> slope = Vector512.Create(steps.Slope[step]);
                Vector512<double> share = Vector512.Create(steps.Share[step]);
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
            ref Vector512<double> left, ref Vector512<double> drained, ref Vector512<double> unmet, Vector512<double> water,
                Vector512<double> use, Vector512<double> rain, Vector512<double> leaf,
            Vector512<double> slope, Vector512<double> full, Vector512<double> zero, Vector512<double> one)
        {
            Vector512<double> onLeaves = Vector512.MinNative(water, leaf);
            Vector512<double> rest = Vector512.MaxNative(use - onLeaves, zero);
            Vector512<double> used = Vector512.MinNative(left * slope, one) * rest;
            Vector512<double> after = left + (rain + (water - onLeaves)) - used;
            Vector512<double> kept = Vector512.MinNative(after, full);
            drained += after - kept;
            left = Vector512.MaxNative(kept, zero);
            unmet += rest - used + (left - kept);
        }

        private static Vector512<double> At(Span<double> lanes, int first) => Vector512.LoadUnsafe(ref lanes[first]);

        private static void Save(Span<double> lanes, Vector512<double> a, Vector512<double> b, Vector512<double> c, Vector512<double> d)
        {
            a.CopyTo(lanes);
            b.CopyTo(lanes[8..]);
            c.CopyTo(lanes[16..]);
            d.CopyTo(lanes[24..]);
        }
    }
}
