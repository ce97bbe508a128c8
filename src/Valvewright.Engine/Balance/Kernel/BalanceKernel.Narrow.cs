using System.Runtime.Intrinsics;

namespace Valvewright.Engine.Balance.Kernel;

/// <content>The loop for 256-bit registers: line for line that of the wide one.</content>
public static partial class BalanceKernel
{
    /// <summary>The same in registers of four; where a machine has only two, the runtime takes a pair.</summary>
    private static class Narrow
    {
        public static void Run(Steps steps, Span<double> water, Span<double> left, Span<double> drained, Span<double> unstressed)
        {
            const int B = 4, C = 8, D = 12;
            Vector256<double> full = Vector256.Create(steps.Full), zero = Vector256<double>.Zero, one = Vector256<double>.One;
            Vector256<double> waterA = At(water, 0), waterB = At(water, B), waterC = At(water, C), waterD = At(water, D);
            Vector256<double> leftA = At(left, 0), leftB = At(left, B), leftC = At(left, C), leftD = At(left, D);
            Vector256<double> drainedA = zero, drainedB = zero, drainedC = zero, drainedD = zero;
            Vector256<double> freeA = At(unstressed, 0), freeB = At(unstressed, B), freeC = At(unstressed, C), freeD = At(unstressed, D);
            Vector256<double> ksA = Vector256.MinNative(leftA, one), ksB = Vector256.MinNative(leftB, one);
            Vector256<double> ksC = Vector256.MinNative(leftC, one), ksD = Vector256.MinNative(leftD, one);
            for (int step = 0; step < steps.WantedMm.Length; step++)
            {
                Vector256<double> wanted = Vector256.Create(steps.WantedMm[step] * steps.PerUnit);
                Vector256<double> rain = Vector256.Create(steps.RainInMm[step] * steps.PerUnit);
                Vector256<double> share = Vector256.Create(steps.ShareOfWater[step]);
                Vector256<double> afterA = leftA + (rain + share * waterA) - ksA * wanted, afterB = leftB + (rain + share * waterB) - ksB * wanted;
                Vector256<double> afterC = leftC + (rain + share * waterC) - ksC * wanted, afterD = leftD + (rain + share * waterD) - ksD * wanted;
                Vector256<double> keptA = Vector256.MinNative(afterA, full), keptB = Vector256.MinNative(afterB, full);
                Vector256<double> keptC = Vector256.MinNative(afterC, full), keptD = Vector256.MinNative(afterD, full);
                drainedA += afterA - keptA;
                drainedB += afterB - keptB;
                drainedC += afterC - keptC;
                drainedD += afterD - keptD;
                leftA = Vector256.MaxNative(keptA, zero);
                leftB = Vector256.MaxNative(keptB, zero);
                leftC = Vector256.MaxNative(keptC, zero);
                leftD = Vector256.MaxNative(keptD, zero);
                ksA = Vector256.MinNative(leftA, one);
                ksB = Vector256.MinNative(leftB, one);
                ksC = Vector256.MinNative(leftC, one);
                ksD = Vector256.MinNative(leftD, one);
                freeA += ksA;
                freeB += ksB;
                freeC += ksC;
                freeD += ksD;
            }

            Save(left, leftA, leftB, leftC, leftD);
            Save(drained, drainedA, drainedB, drainedC, drainedD);
            Save(unstressed, freeA, freeB, freeC, freeD);
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
