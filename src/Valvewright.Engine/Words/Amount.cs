using System.Globalization;

namespace Valvewright.Engine.Words;

/// <summary>What an amount in a sentence measures, and so in which unit it is said.</summary>
public enum Measure
{
    /// <summary>Depth of water, mm.</summary>
    Depth,

    /// <summary>Water held in a depth of soil, mm/m.</summary>
    WaterPerDepth,

    /// <summary>Depth of roots, m.</summary>
    Roots,

    /// <summary>Depth of water in time, mm/h.</summary>
    Rate,
}

/// <summary>An amount in a sentence; it is said in the units of anyone who reads it.</summary>
/// <param name="Value">The number, SI.</param>
/// <param name="Measure">What it measures.</param>
public readonly record struct Amount(double Value, Measure Measure)
{
    /// <summary>As it stands in English, SI.</summary>
    public override string ToString() => Measure switch
    {
        Measure.Depth => string.Create(CultureInfo.InvariantCulture, $"{Value:0.#} mm"),
        Measure.WaterPerDepth => string.Create(CultureInfo.InvariantCulture, $"{Value:0.#} mm/m"),
        Measure.Roots => string.Create(CultureInfo.InvariantCulture, $"{Value:0.###} m"),
        Measure.Rate => string.Create(CultureInfo.InvariantCulture, $"{Value:0.#} mm/h"),
        _ => throw new NotSupportedException($"Amounts of {Measure}."),
    };
}
