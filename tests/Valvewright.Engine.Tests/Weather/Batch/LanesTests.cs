using System.Runtime.Intrinsics;
using Valvewright.Engine.Weather.Batch;

namespace Valvewright.Engine.Tests.Weather.Batch;

/// <summary>The vectorised functions against the runtime's own, over the whole of the range each is made for.</summary>
public sealed class LanesTests
{
    private const double Allowed = 1e-12;
    private const int Steps = 20_000;

    [Fact]
    public void Exp2() => AssertRelative(-60, 60, Lanes.Exp2, x => Math.Pow(2, x));

    [Fact]
    public void Sine_of_half_turns() => AssertRelative(-0.5, 0.5, x => Lanes.SinCosHalfTurns(x).Sin, x => Math.Sin(Math.PI * x));

    [Fact]
    public void Cosine_of_half_turns() => AssertAbsolute(-0.5, 0.5, x => Lanes.SinCosHalfTurns(x).Cos, x => Math.Cos(Math.PI * x));

    [Fact]
    public void Sine_of_any_half_turns() => AssertAbsolute(-4, 4, x => Lanes.SinCosAnyHalfTurns(x).Sin, x => Math.Sin(Math.PI * x));

    [Fact]
    public void Cosine_of_any_half_turns() => AssertAbsolute(-4, 4, x => Lanes.SinCosAnyHalfTurns(x).Cos, x => Math.Cos(Math.PI * x));

    [Fact]
    public void Sine_of_a_declination() => AssertRelative(-0.41, 0.41, x => Lanes.SinCosDeclination(x).Sin, Math.Sin);

    [Fact]
    public void Cosine_of_a_declination() => AssertRelative(-0.41, 0.41, x => Lanes.SinCosDeclination(x).Cos, Math.Cos);

    [Fact]
    public void Arc_cosine() => AssertAbsolute(-1, 1, Lanes.Acos, Math.Acos);

    [Fact]
    public void Pressure_power() => AssertRelative(-0.0125, 0.205, Lanes.PressurePower, u => Math.Pow(1 - u, 5.26));

    private static void AssertRelative(
        double from, double to, Func<Vector512<double>, Vector512<double>> lanes, Func<double, double> exact) =>
        AssertClose(from, to, lanes, exact, v => Math.Abs(v));

    private static void AssertAbsolute(
        double from, double to, Func<Vector512<double>, Vector512<double>> lanes, Func<double, double> exact) =>
        AssertClose(from, to, lanes, exact, _ => 1);

    private static void AssertClose(
        double from, double to, Func<Vector512<double>, Vector512<double>> lanes, Func<double, double> exact, Func<double, double> scale)
    {
        for (int i = 0; i <= Steps; i++)
        {
            double x = from + (to - from) * i / Steps;
            double wanted = exact(x);
            double got = lanes(Vector512.Create(x)).GetElement(i % Lanes.Count);
            Assert.True(Math.Abs(got - wanted) <= Allowed * scale(wanted), $"At {x:r}: {got:r} rather than {wanted:r}.");
        }
    }
}
