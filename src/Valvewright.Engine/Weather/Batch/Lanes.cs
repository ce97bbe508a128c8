using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Valvewright.Engine.Weather.Batch;

/// <summary>
/// Elementary functions on eight lanes at once, over just the ranges that daily evapotranspiration needs.
/// </summary>
/// <remarks>
/// Polynomials are Chebyshev fits over their range, with the largest relative error said beside each; together with rounding every
/// function stays within 1e-12 of the exact value. Only additions, multiplications, divisions, square roots and fused
/// multiply-adds occur, all of which IEEE 754 defines to the last bit: every machine gives the same bits, whatever its vector width.
/// </remarks>
internal static class Lanes
{
    /// <summary>How many lanes.</summary>
    public static int Count => Vector512<double>.Count;

    // Adding it to a small number leaves the nearest whole number in the low bits of the sum.
    private const double Rounder = 6755399441055744.0;
    private const int ExponentBits = 52;

    /// <summary>One number in all lanes.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> All(double value) => Vector512.Create(value);

    /// <summary>a * b + c, rounded once.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> MulAdd(Vector512<double> a, Vector512<double> b, Vector512<double> c) =>
        Vector512.FusedMultiplyAdd(a, b, c);

    /// <summary>The value where it is at least a limit, else the limit; NaN stays NaN.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> AtLeast(Vector512<double> value, Vector512<double> limit) =>
        Vector512.ConditionalSelect(Vector512.LessThan(value, limit), limit, value);

    /// <summary>The value where it is at most a limit, else the limit; NaN stays NaN.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> AtMost(Vector512<double> value, Vector512<double> limit) =>
        Vector512.ConditionalSelect(Vector512.GreaterThan(value, limit), limit, value);

    /// <summary>2 to a power of at most 1000 in size (polynomial 1.8e-14).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Exp2(Vector512<double> power)
    {
        Vector512<double> shifted = power + All(Rounder);
        Vector512<double> f = power - (shifted - All(Rounder));
        Vector512<double> p = MulAdd(f, All(1.0205905413765595e-07), All(1.325964524488711e-06));
        p = MulAdd(p, f, All(1.5252672924850737e-05));
        p = MulAdd(p, f, All(0.0001540343375125101));
        p = MulAdd(p, f, All(0.0013333558200794592));
        p = MulAdd(p, f, All(0.009618129193934313));
        p = MulAdd(p, f, All(0.05550410866465167));
        p = MulAdd(p, f, All(0.2402265069564034));
        p = MulAdd(p, f, All(0.6931471805599462));
        p = MulAdd(p, f, All(1.0000000000000135));
        return (p.AsInt64() + Vector512.ShiftLeft(shifted.AsInt64(), ExponentBits)).AsDouble();
    }

    /// <summary>Sine and cosine of half a turn times x, for x from -1/2 to 1/2 (polynomials 7.8e-14 and 2e-15).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Vector512<double> Sin, Vector512<double> Cos) SinCosHalfTurns(Vector512<double> x)
    {
        Vector512<double> z = x * x;
        Vector512<double> s = MulAdd(z, All(0.0004474920849077101), All(-0.007364005472115722));
        Vector512<double> c = MulAdd(z, All(-0.0001004164642205389), All(0.0019278700526981333));
        s = MulAdd(s, z, All(0.08214479467064854));
        c = MulAdd(c, z, All(-0.025806531975921563));
        s = MulAdd(s, z, All(-0.5992644339357286));
        c = MulAdd(c, z, All(0.23533058831317874));
        s = MulAdd(s, z, All(2.550164035906745));
        c = MulAdd(c, z, All(-1.3352627661817635));
        s = MulAdd(s, z, All(-5.167712779987959));
        c = MulAdd(c, z, All(4.058712126333295));
        s = MulAdd(s, z, All(3.141592653589635));
        c = MulAdd(c, z, All(-4.934802200543686));
        return (s * x, MulAdd(c, z, All(0.9999999999999981)));
    }

    /// <summary>Sine and cosine of a number of half turns of any moderate size.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Vector512<double> Sin, Vector512<double> Cos) SinCosAnyHalfTurns(Vector512<double> halfTurns)
    {
        Vector512<double> shifted = halfTurns + All(Rounder);
        (Vector512<double> sin, Vector512<double> cos) = SinCosHalfTurns(halfTurns - (shifted - All(Rounder)));
        Vector512<long> oddIsNegative = Vector512.ShiftLeft(shifted.AsInt64(), 63);
        return ((sin.AsInt64() ^ oddIsNegative).AsDouble(), (cos.AsInt64() ^ oddIsNegative).AsDouble());
    }

    /// <summary>Sine and cosine of an angle of at most 0.41 radians in size, which no declination exceeds (polynomials 6.7e-15 and
    /// 7.8e-14).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static (Vector512<double> Sin, Vector512<double> Cos) SinCosDeclination(Vector512<double> angle)
    {
        Vector512<double> z = angle * angle;
        Vector512<double> s = MulAdd(z, All(2.74522218922615e-06), All(-0.00019841115342508365));
        Vector512<double> c = MulAdd(z, All(2.4686017027772862e-05), All(-0.001388871901159423));
        s = MulAdd(s, z, All(0.008333333240602111));
        c = MulAdd(c, z, All(0.041666665647097874));
        s = MulAdd(s, z, All(-0.16666666666471838));
        c = MulAdd(c, z, All(-0.4999999999785792));
        s = MulAdd(s, z, All(0.9999999999999934));
        return (s * angle, MulAdd(c, z, All(0.999999999999928)));
    }

    /// <summary>Arc cosine of x from -1 to 1 (polynomial 4e-15): by the arc sine below 1/2, by that of the half angle above.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Acos(Vector512<double> x)
    {
        Vector512<double> size = Vector512.Abs(x);
        Vector512<double> isLarge = Vector512.GreaterThan(size, All(0.5));
        Vector512<double> half = MulAdd(size, All(-0.5), All(0.5));
        Vector512<double> z = Vector512.ConditionalSelect(isLarge, half, x * x);
        Vector512<double> root = Vector512.ConditionalSelect(isLarge, Vector512.Sqrt(half), size);
        Vector512<double> p = MulAdd(z, All(0.03150097858285519), All(-0.007309161310274521));
        p = MulAdd(p, z, All(0.017924305774952437));
        p = MulAdd(p, z, All(0.012550386671737955));
        p = MulAdd(p, z, All(0.01755004624569455));
        p = MulAdd(p, z, All(0.02235471795166217));
        p = MulAdd(p, z, All(0.03038289742013321));
        p = MulAdd(p, z, All(0.04464282695575735));
        p = MulAdd(p, z, All(0.07500000048801558));
        p = MulAdd(p, z, All(0.1666666666636023));
        p = MulAdd(p, z, All(1.000000000000003));
        Vector512<double> arcSine = p * root;

        // Of |x|: pi/2 - asin, or twice the half angle; then acos(-x) = pi - acos(x).
        Vector512<double> ofSize = Vector512.ConditionalSelect(isLarge, arcSine + arcSine, All(Math.PI / 2) - arcSine);
        return Vector512.ConditionalSelect(Vector512.LessThan(x, Vector512<double>.Zero), All(Math.PI) - ofSize, ofSize);
    }

    /// <summary>(1 - u) to the power 5.26, for u from -0.0125 to 0.205 (polynomial 2.3e-14): air pressure from -560 to 9240 m.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> PressurePower(Vector512<double> u)
    {
        Vector512<double> p = MulAdd(u, All(0.002287539702350441), All(0.007728930310072702));
        p = MulAdd(p, u, All(0.07515667326877494));
        p = MulAdd(p, u, All(-1.7334517205010618));
        p = MulAdd(p, u, All(6.878759978169046));
        p = MulAdd(p, u, All(-12.174796005892494));
        p = MulAdd(p, u, All(11.20380000001496));
        p = MulAdd(p, u, All(-5.259999999998972));
        return MulAdd(p, u, All(0.9999999999999979));
    }
}
