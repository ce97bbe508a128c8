using Valvewright.Engine.Values;

namespace Valvewright.Engine.Hydraulics;

/// <summary>A gauge reading at a supply while it gives a flow.</summary>
/// <param name="FlowLpm">The flow; 0 for the static pressure.</param>
/// <param name="PressureKpa">The gauge at that flow.</param>
public sealed record FlowTestPoint(double FlowLpm, double PressureKpa);

/// <summary>The pressure that a supply has left at any flow: a curve through the points of a flow test, or a pump's curve.</summary>
/// <remarks>
/// Between points the pressure falls in a straight line over flow^1.852, as friction does; with a static and one flowing reading this is
/// the relation of flow tests, flow proportional to (pressure lost)^0.54 (common practice). Beyond the last point the last
/// stretch goes on. Pressure cannot rise with flow: readings that do are averaged with their neighbors, and questioned.
/// </remarks>
public sealed record SupplyCurve
{
    private readonly double[] powers;
    private readonly double[] pressures;

    /// <summary>A curve through points; one point is a supply whose pressure never changes.</summary>
    /// <exception cref="ArgumentException">No points, a flow twice, or a figure that is negative or not a number.</exception>
    public SupplyCurve(ListOf<FlowTestPoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        Points = points.OrderBy(point => point.FlowLpm).ToListOf();
        if (Points.Count == 0) throw new ArgumentException("A supply curve needs at least one reading.", nameof(points));
        if (Points.Any(p => !(p.FlowLpm >= 0) || !(p.PressureKpa >= 0) || !double.IsFinite(p.FlowLpm + p.PressureKpa)))
        {
            throw new ArgumentException("Flow and pressure of a reading are 0 or more.", nameof(points));
        }

        if (Points.Zip(Points.Skip(1)).Any(pair => pair.First.FlowLpm == pair.Second.FlowLpm))
        {
            throw new ArgumentException("Two readings have the same flow; average them.", nameof(points));
        }

        powers = [.. Points.Select(point => Math.Pow(point.FlowLpm, HazenWilliams.FlowPower))];
        pressures = Falling([.. Points.Select(point => point.PressureKpa)]);
    }

    /// <summary>The readings, by rising flow.</summary>
    public ListOf<FlowTestPoint> Points { get; }

    /// <summary>Whether pressure rises with flow somewhere among the readings, which no supply does by itself.</summary>
    public bool Rises => Points.Zip(Points.Skip(1)).Any(pair => pair.Second.PressureKpa > pair.First.PressureKpa);

    /// <summary>The largest flow that was measured; beyond it the curve is extended.</summary>
    public double LargestMeasuredFlowLpm => Points[^1].FlowLpm;

    /// <summary>Pressure left at a flow; below zero where the supply cannot give it.</summary>
    public double PressureKpa(double flowLpm)
    {
        double x = Math.Pow(Math.Max(0, flowLpm), HazenWilliams.FlowPower);
        return PressureAt(x, out _);
    }

    /// <summary>The largest flow that leaves at least a pressure; infinite where pressure never falls so low, 0 where it is never so
    /// high.</summary>
    public double LargestFlowLpm(double leastPressureKpa)
    {
        if (PressureKpa(0) < leastPressureKpa) return 0;
        int last = powers.Length - 1;
        for (int i = 0; i < last; i++)
        {
            if (pressures[i + 1] < leastPressureKpa) return FlowWithin(i, leastPressureKpa);
        }

        return last > 0 && pressures[last - 1] > pressures[last] ? FlowWithin(last - 1, leastPressureKpa) : double.PositiveInfinity;
    }

    /// <summary>Pressure over x = flow^1.852, and its slope; before the first point the first stretch goes on.</summary>
    internal double PressureAt(double x, out double slope)
    {
        if (powers.Length == 1)
        {
            slope = 0;
            return pressures[0];
        }

        int i = 0;
        while (i < powers.Length - 2 && x > powers[i + 1]) i++;
        slope = (pressures[i + 1] - pressures[i]) / (powers[i + 1] - powers[i]);
        return pressures[i] + (slope * (x - powers[i]));
    }

    private double FlowWithin(int i, double pressureKpa)
    {
        double share = (pressures[i] - pressureKpa) / (pressures[i] - pressures[i + 1]);
        return Math.Pow(Math.Max(0, powers[i] + (share * (powers[i + 1] - powers[i]))), 1 / HazenWilliams.FlowPower);
    }

    /// <summary>The nearest falling values by least squares: neighbors that rise are averaged (pool adjacent violators).</summary>
    private static double[] Falling(double[] values)
    {
        List<(double Mean, int Count)> blocks = [];
        foreach (double value in values)
        {
            (double mean, int count) = (value, 1);
            while (blocks.Count > 0 && blocks[^1].Mean < mean)
            {
                (double before, int many) = blocks[^1];
                mean = ((before * many) + (mean * count)) / (many + count);
                count += many;
                blocks.RemoveAt(blocks.Count - 1);
            }

            blocks.Add((mean, count));
        }

        return [.. blocks.SelectMany(block => Enumerable.Repeat(block.Mean, block.Count))];
    }
}
