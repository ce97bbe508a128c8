using Valvewright.Engine.Values;

namespace Valvewright.Engine.Needs;

/// <summary>A figure over the years of record.</summary>
/// <param name="Mean">Mean of the years.</param>
/// <param name="EightInTen">What 8 years in 10 do not go past, towards the side that asks more of a schedule.</param>
/// <param name="Worst">The year that asks most.</param>
public sealed record YearRange(double Mean, double EightInTen, double Worst)
{
    /// <summary>Over values of which the larger asks more: demand, water.</summary>
    public static YearRange LargerIsWorse(IReadOnlyList<double> years) => new(MeanOf(years), Quantile(years, 0.8), years.Max());

    /// <summary>Over values of which the smaller asks more: gaps between waterings.</summary>
    public static YearRange SmallerIsWorse(IReadOnlyList<double> years) => new(MeanOf(years), Quantile(years, 0.2), years.Min());

    /// <summary>Every value scaled.</summary>
    public YearRange Times(double factor) => new(Mean * factor, EightInTen * factor, Worst * factor);

    /// <summary>The quantile of a sample, by straight lines between its sorted values (the first at 0, the last at 1).</summary>
    public static double Quantile(IReadOnlyList<double> values, double share)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (values.Count == 0)
        {
            throw new ArgumentException("No values.", nameof(values));
        }

        double[] sorted = [.. values.Order()];
        double position = share * (sorted.Length - 1);
        int below = (int)Math.Floor(position);
        int above = Math.Min(below + 1, sorted.Length - 1);
        return sorted[below] + (position - below) * (sorted[above] - sorted[below]);
    }

    private static double MeanOf(IReadOnlyList<double> values) => values.Average();
}
