using System.Globalization;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Needs;

/// <summary>A number that can say where it comes from.</summary>
/// <param name="Value">The number; infinity where there is no limit.</param>
/// <param name="Unit">Its unit, SI.</param>
/// <param name="From">The formula with its inputs, and its source: measured, published, rule of thumb or common practice.</param>
public sealed record Figure(double Value, string Unit, Sentence From)
{
    /// <summary>The number alone.</summary>
    public static implicit operator double(Figure figure) => figure?.Value ?? throw new ArgumentNullException(nameof(figure));

    /// <summary>The number alone.</summary>
    public double ToDouble() => Value;

    /// <inheritdoc/>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Value:0.##} {Unit} ({From})");
}
