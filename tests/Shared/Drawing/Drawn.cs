using CsCheck;

namespace Valvewright.Tests;

/// <summary>
/// Runs a property over values drawn with CsCheck's generators, the same values on every run: a change is never blamed for what an
/// unlucky draw would have found without it. Other values are drawn with another number in VALVEWRIGHT_DRAWS.
/// </summary>
internal static class Drawn
{
    private const int Usual = 100;

    private static readonly ulong First = ulong
        .TryParse(Environment.GetEnvironmentVariable("VALVEWRIGHT_DRAWS"), out ulong number) ? number : 1;

    public static void ForEvery<T>(this Gen<T> gen, Func<T, bool> holds, int iter = Usual)
    {
        for (int draw = 0; draw < iter; draw++)
        {
            T value = gen.Generate(new PCG((uint)draw, First), null, out _);
            bool held;
            try
            {
                held = holds(value);
            }
            catch (Exception reason)
            {
                throw new InvalidOperationException(Told(draw, value), reason);
            }

            if (!held)
            {
                throw new InvalidOperationException(Told(draw, value));
            }
        }
    }

    public static void ForEvery<T>(this Gen<T> gen, Action<T> holds, int iter = Usual) => gen.ForEvery(Always(holds), iter);

    public static void ForEvery<T1, T2>(this Gen<(T1, T2)> gen, Func<T1, T2, bool> holds, int iter = Usual) =>
        gen.ForEvery(t => holds(t.Item1, t.Item2), iter);

    public static void ForEvery<T1, T2>(this Gen<(T1, T2)> gen, Action<T1, T2> holds, int iter = Usual) =>
        gen.ForEvery(Always<(T1, T2)>(t => holds(t.Item1, t.Item2)), iter);

    public static void ForEvery<T1, T2, T3>(this Gen<(T1, T2, T3)> gen, Func<T1, T2, T3, bool> holds, int iter = Usual) =>
        gen.ForEvery(t => holds(t.Item1, t.Item2, t.Item3), iter);

    public static void ForEvery<T1, T2, T3>(this Gen<(T1, T2, T3)> gen, Action<T1, T2, T3> holds, int iter = Usual) =>
        gen.ForEvery(Always<(T1, T2, T3)>(t => holds(t.Item1, t.Item2, t.Item3)), iter);

    public static void ForEvery<T1, T2, T3, T4>(this Gen<(T1, T2, T3, T4)> gen, Func<T1, T2, T3, T4, bool> holds, int iter = Usual) =>
        gen.ForEvery(t => holds(t.Item1, t.Item2, t.Item3, t.Item4), iter);

    public static void ForEvery<T1, T2, T3, T4>(this Gen<(T1, T2, T3, T4)> gen, Action<T1, T2, T3, T4> holds, int iter = Usual) =>
        gen.ForEvery(Always<(T1, T2, T3, T4)>(t => holds(t.Item1, t.Item2, t.Item3, t.Item4)), iter);

    public static void ForEvery<T1, T2, T3, T4, T5>(
        this Gen<(T1, T2, T3, T4, T5)> gen, Func<T1, T2, T3, T4, T5, bool> holds, int iter = Usual) =>
        gen.ForEvery(t => holds(t.Item1, t.Item2, t.Item3, t.Item4, t.Item5), iter);

    public static void ForEvery<T1, T2, T3, T4, T5>(
        this Gen<(T1, T2, T3, T4, T5)> gen, Action<T1, T2, T3, T4, T5> holds, int iter = Usual) =>
        gen.ForEvery(Always<(T1, T2, T3, T4, T5)>(t => holds(t.Item1, t.Item2, t.Item3, t.Item4, t.Item5)), iter);

    private static Func<T, bool> Always<T>(Action<T> holds) => value =>
    {
        holds(value);
        return true;
    };

    private static string Told<T>(int draw, T value) => $"Draw {draw} (VALVEWRIGHT_DRAWS={First}) does not hold: {Check.Print(value)}";
}
