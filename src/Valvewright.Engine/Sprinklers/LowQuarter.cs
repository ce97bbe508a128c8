namespace Valvewright.Engine.Sprinklers;

/// <summary>The driest quarter of an area, and what is set for its sake.</summary>
public static class LowQuarter
{
    /// <summary>Mean of the lowest quarter of values that each stand for the same area.</summary>
    public static double MeanOf(IReadOnlyCollection<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return MeanOf(values.Select(value => (value, 1.0)), values.Count);
    }

    /// <summary>Low-quarter distribution uniformity of spots: mean share of the driest quarter of the area, 0 to 1.</summary>
    public static double UniformityOf(SpotShares spots)
    {
        ArgumentNullException.ThrowIfNull(spots);
        return MeanOf(spots.Share.Zip(spots.Weight), 1);
    }

    /// <summary>The part of the mean depth that soil and roots even out, unless a survey says otherwise.</summary>
    public const double UsualSoilEvening = 0.4;

    /// <summary>What the low quarter receives of the mean depth: evening + (1 - evening) x DUlq, 0 to 1.</summary>
    /// <remarks>
    /// For normal catches DUlq = 1 - 1.271 CV and the low half DUlh = 1 - 0.798 CV, so DUlh = 0.372 + 0.628 DUlq; the trade's multiplier
    /// rounds it to 0.4 + 0.6 DUlq. Mecham (2010, ASABE IRR10-10040) found DUlq alone to overestimate what landscapes need and the low half
    /// an upper limit.
    /// </remarks>
    public static double ShareOf(double uniformity, double evening) => evening + ((1 - evening) * uniformity);

    /// <summary>How much longer than for perfectly even water a station runs: 1 / (0.4 + 0.6 x low-quarter distribution
    /// uniformity).</summary>
    /// <remarks>Irrigation Association, scheduling multiplier (2005 on); not checked against the printed source.</remarks>
    public static double RunTimeMultiplier(double uniformity) => 1 / (0.4 + (0.6 * uniformity));

    /// <summary>Where a value stands for more than what is left of the quarter it counts in part.</summary>
    /// <remarks>No published worksheet says how; whole cans would make 15 cans jump by a tenth, a part keeps it continuous.</remarks>
    private static double MeanOf(IEnumerable<(double Value, double Area)> parts, double wholeArea)
    {
        double quarter = wholeArea / 4;
        double left = quarter;
        double sum = 0;
        foreach ((double value, double area) in parts.OrderBy(part => part.Value))
        {
            double taken = Math.Min(area, left);
            sum += taken * value;
            left -= taken;
            if (left <= 0) break;
        }

        return sum / quarter;
    }
}
