using Valvewright.Files.Weather.Values;

namespace Valvewright.Files.Weather.Text;

/// <summary>A column of a table with one row a day.</summary>
/// <param name="Field">Its number, from 0.</param>
/// <param name="Name">Its header.</param>
/// <param name="Quantity">What it holds.</param>
/// <param name="Unit">In which unit.</param>
/// <param name="FlagField">The column with its quality flag, if any.</param>
internal sealed record DayColumn(int Field, string Name, Quantity Quantity, Unit Unit, int? FlagField = null)
{
    /// <summary>What a number means that stands for something else; null: as it is.</summary>
    public Func<double, double>? Meant { get; init; }
}
