using System.Runtime.Intrinsics;

namespace Valvewright.Engine.Balance;

/// <summary>A handful of doubles that the kernel works on side by side; one implementation a register width.</summary>
/// <remarks>
/// Only operations that IEEE 754 rounds alike everywhere, and no fused multiply-add: a spot's numbers are then the same to the last bit
/// in every lane, at every width and in the scalar <see cref="SpotStore"/>.
/// </remarks>
internal interface ILane<T>
    where T : struct, ILane<T>
{
    static abstract int Count { get; }

    static abstract T All(double value);

    static abstract T Load(ref readonly double source);

    static abstract T Max(T a, T b);

    static abstract T Min(T a, T b);

    static abstract T operator +(T a, T b);

    static abstract T operator -(T a, T b);

    static abstract T operator *(T a, T b);

    void Store(ref double target);
}

/// <summary>Eight doubles.</summary>
internal readonly struct Lane8(Vector512<double> value) : ILane<Lane8>
{
    private readonly Vector512<double> value = value;

    public static int Count => 8;

    public static Lane8 All(double value) => new(Vector512.Create(value));

    public static Lane8 Load(ref readonly double source) => new(Vector512.LoadUnsafe(in source));

    public static Lane8 Max(Lane8 a, Lane8 b) => new(Vector512.MaxNative(a.value, b.value));

    public static Lane8 Min(Lane8 a, Lane8 b) => new(Vector512.MinNative(a.value, b.value));

    public static Lane8 operator +(Lane8 a, Lane8 b) => new(a.value + b.value);

    public static Lane8 operator -(Lane8 a, Lane8 b) => new(a.value - b.value);

    public static Lane8 operator *(Lane8 a, Lane8 b) => new(a.value * b.value);

    public void Store(ref double target) => value.StoreUnsafe(ref target);
}

/// <summary>Four doubles; on machines with 128-bit registers the runtime uses two of them.</summary>
internal readonly struct Lane4(Vector256<double> value) : ILane<Lane4>
{
    private readonly Vector256<double> value = value;

    public static int Count => 4;

    public static Lane4 All(double value) => new(Vector256.Create(value));

    public static Lane4 Load(ref readonly double source) => new(Vector256.LoadUnsafe(in source));

    public static Lane4 Max(Lane4 a, Lane4 b) => new(Vector256.MaxNative(a.value, b.value));

    public static Lane4 Min(Lane4 a, Lane4 b) => new(Vector256.MinNative(a.value, b.value));

    public static Lane4 operator +(Lane4 a, Lane4 b) => new(a.value + b.value);

    public static Lane4 operator -(Lane4 a, Lane4 b) => new(a.value - b.value);

    public static Lane4 operator *(Lane4 a, Lane4 b) => new(a.value * b.value);

    public void Store(ref double target) => value.StoreUnsafe(ref target);
}
