using System.Runtime.Intrinsics;

namespace Valvewright.Engine.Balance.Kernel;

/// <content>The loop for 512-bit registers.</content>
public static partial class BalanceKernel
{
    /// <summary>Registers of eight. Only operations that IEEE 754 rounds alike everywhere: no fused multiply-add, so that every width and machine gives the same bits.</summary>
    private static class Wide
    {
        public static void Run(Steps steps, Span<double> water, Span<double> left, Span<double> drained, Span<double> unstressed)
        {
            const int B = 8, C = 16, D = 24;
            Vector512<double> full = Vector512.Create(steps.Full), zero = Vector512<double>.Zero, one = Vector512<double>.One;
            Vector512<double> waterA = At(water, 0), waterB = At(water, B), waterC = At(water, C), waterD = At(water, D);
            Vector512<double> leftA = At(left, 0), leftB = At(left, B), leftC = At(left, C), leftD = At(left, D);
            Vector512<double> drainedA = zero, drainedB = zero, drainedC = zero, drainedD = zero;
            Vector512<double> freeA = At(unstressed, 0), freeB = At(unstressed, B), freeC = At(unstressed, C), freeD = At(unstressed, D);
            Vector512<double> ksA = Vector512.MinNative(leftA, one), ksB = Vector512.MinNative(leftB, one);
            Vector512<double> ksC = Vector512.MinNative(leftC, one), ksD = Vector512.MinNative(leftD, one);
            for (int step = 0; step < steps.WantedMm.Length; step++)
            {
                Vector512<double> wanted = Vector512.Create(steps.WantedMm[step] * steps.PerUnit);
                Vector512<double> rain = Vector512.Create(steps.RainInMm[step] * steps.PerUnit);
                Vector512<double> share = Vector512.Create(steps.ShareOfWater[step]);
                Vector512<double> afterA = leftA + (rain + share * waterA) - ksA * wanted, afterB = leftB + (rain + share * waterB) - ksB * wanted;
                Vector512<double> afterC = leftC + (rain + share * waterC) - ksC * wanted, afterD = leftD + (rain + share * waterD) - ksD * wanted;
                Vector512<double> keptA = Vector512.MinNative(afterA, full), keptB = Vector512.MinNative(afterB, full);
                Vector512<double> keptC = Vector512.MinNative(afterC, full), keptD = Vector512.MinNative(afterD, full);
                drainedA += afterA - keptA;
                drainedB += afterB - keptB;
                drainedC += afterC - keptC;
                drainedD += afterD - keptD;
                leftA = Vector512.MaxNative(keptA, zero);
                leftB = Vector512.MaxNative(keptB, zero);
                leftC = Vector512.MaxNative(keptC, zero);
                leftD = Vector512.MaxNative(keptD, zero);
                ksA = Vector512.MinNative(leftA, one);
                ksB = Vector512.MinNative(leftB, one);
                ksC = Vector512.MinNative(leftC, one);
                ksD = Vector512.MinNative(leftD, one);
                freeA += ksA;
                freeB += ksB;
                freeC += ksC;
                freeD += ksD;
            }

            Save(left, leftA, leftB, leftC, leftD);
            Save(drained, drainedA, drainedB, drainedC, drainedD);
            Save(unstressed, freeA, freeB, freeC, freeD);
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
