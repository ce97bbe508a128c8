using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Valvewright.Engine.Weather.Batch;

/// <summary>How actual vapour pressure, kPa, follows from the humidity columns; a type parameter, so that each loop is compiled for
/// one.</summary>
internal interface IVapourReading
{
    /// <summary>Vapour pressure from the two columns and the saturation pressures at Tmax and Tmin.</summary>
    static abstract Vector512<double> Kpa(
        Vector512<double> first, Vector512<double> second, Vector512<double> atMax, Vector512<double> atMin);
}

internal readonly struct FromVapourPressure : IVapourReading
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Kpa(
        Vector512<double> first, Vector512<double> second, Vector512<double> atMax, Vector512<double> atMin) => first;
}

internal readonly struct FromDewPoint : IVapourReading
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Kpa(
        Vector512<double> first, Vector512<double> second, Vector512<double> atMax, Vector512<double> atMin) =>
        EtoBatch.Saturation(Vector512<double>.One / (first + Lanes.All(EtoBatch.SaturationOffset)));
}

internal readonly struct FromHumidityRange : IVapourReading
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Kpa(
        Vector512<double> first, Vector512<double> second, Vector512<double> atMax, Vector512<double> atMin) =>
        Lanes.MulAdd(atMin, first, atMax * second) * Lanes.All(1 / 200.0);
}

internal readonly struct FromHighestHumidity : IVapourReading
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Kpa(
        Vector512<double> first, Vector512<double> second, Vector512<double> atMax, Vector512<double> atMin) =>
        atMin * first * Lanes.All(1 / 100.0);
}

internal readonly struct FromMeanHumidity : IVapourReading
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Kpa(
        Vector512<double> first, Vector512<double> second, Vector512<double> atMax, Vector512<double> atMin) =>
        (atMax + atMin) * first * Lanes.All(1 / 200.0);
}
