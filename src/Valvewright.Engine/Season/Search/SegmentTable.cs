namespace Valvewright.Engine.Season.Search;

/// <summary>Water and stress of stretches by beginning, end, variant and percent.</summary>
/// <remarks>Beginnings and ends are counted alike: 0 is the year's beginning, then come the possible days, then the year's end.</remarks>
internal sealed class SegmentTable
{
    /// <summary>Water since the year's beginning, L, by point, variant and percent: it does not depend on stores, so that differences tell a stretch's.</summary>
    private readonly double[] water;

    /// <summary>Stress days x m2 by beginning, end, variant and percent.</summary>
    private readonly double[] stress;
    private readonly int width, ends, percents;

    public SegmentTable(int points, int variants, int percents)
    {
        (Variants, this.percents, width, ends) = (variants, percents, variants * percents, points + 2);
        water = new double[ends * width];
        stress = new double[ends * ends * width];
    }

    private SegmentTable(SegmentTable same) => (Variants, percents, width, ends, water, stress) = (1, same.percents, same.width, same.ends, same.water, same.stress);

    public int Variants { get; }

    public int Percents => percents;

    /// <summary>The same with the first variant alone.</summary>
    public SegmentTable First() => new(this);

    public double Cost(int from, int to, int variant, int percent, double stressWeightMm)
    {
        int at = (variant * percents) + percent;
        return water[(to * width) + at] - water[(from * width) + at] + (stressWeightMm * stress[(((from * ends) + to) * width) + at]);
    }

    /// <summary>Adds to the water up to a point.</summary>
    public void AddWater(int point, int variant, int percent, double litres) => water[(point * width) + (variant * percents) + percent] += litres;

    /// <summary>The stress of a stretch under one variant, by percent.</summary>
    public Span<double> Stress(int from, int to, int variant) => stress.AsSpan((((from * ends) + to) * width) + (variant * percents), percents);

    /// <summary>Marks stretches that are not worked out.</summary>
    public void LeaveOut(int from, int firstEnd) => stress.AsSpan(((from * ends) + firstEnd) * width, (ends - firstEnd) * width).Fill(double.PositiveInfinity);
}
