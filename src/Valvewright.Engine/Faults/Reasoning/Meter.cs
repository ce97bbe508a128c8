namespace Valvewright.Engine.Faults.Reasoning;

/// <summary>Readings of one quantity in each of its states, as densities over the logarithm of the reading.</summary>
internal sealed class Meter
{
    private const double WidestDeviations = 4;
    private const int Points = 161;

    private readonly TraceStep step;
    private readonly double expected;
    private readonly double least, most;

    public Meter(TraceStep step, double expected)
    {
        this.step = step;
        this.expected = expected;
        least = step.Answers.Min(a => Reach(a.Reads!, -1));
        most = step.Answers.Max(a => Reach(a.Reads!, 1));
    }

    /// <summary>Density of a reading in a state.</summary>
    public double Density(int state, double value)
    {
        // A dead battery reads 0, an open coil reads no limit: both count as the end of the range.
        double within = Math.Clamp(value, least, most);
        Readout reads = step.Answers[state].Reads!;
        if (reads.Times is not { } times)
        {
            return within >= reads.From && within <= reads.To ? 1 / Math.Log(reads.To / reads.From) : 0;
        }

        double deviations = Math.Log(within / (times * expected)) / reads.Spread;
        return Math.Exp(-deviations * deviations / 2) / (reads.Spread * Math.Sqrt(2 * Math.PI));
    }

    /// <summary>Density of a reading that was misread: any value between the least and the largest of the states.</summary>
    public double AnyDensity => 1 / Math.Log(most / least);

    /// <summary>The state that a reading is nearest to.</summary>
    public int Nearest(double value)
    {
        int nearest = 0;
        double best = -1;
        for (int k = 0; k < step.Answers.Count; k++)
        {
            if (Density(k, value) is var density && density > best)
            {
                (nearest, best) = (k, density);
            }
        }

        return nearest;
    }

    /// <summary>A reading at a place of the state's distribution, in standard deviations (or from -1 to 1 between two values).</summary>
    public double Value(int state, double place)
    {
        Readout reads = step.Answers[state].Reads!;
        return reads.Times is { } times
            ? times * expected * Math.Exp(reads.Spread * place)
            : reads.From * Math.Pow(reads.To / reads.From, (place + 1) / 2);
    }

    /// <summary>The table of states, turned into a table of the states that readings are nearest to.</summary>
    public double[][] Binned(double[][] states)
    {
        int n = step.Answers.Count, count = states[0].Length;
        double[][] binned = [.. Enumerable.Range(0, n).Select(_ => new double[count])];
        for (int k = 0; k < n; k++)
        {
            double[] share = Shares(k, n);
            for (int j = 0; j < n; j++)
            {
                for (int h = 0; share[j] > 0 && h < count; h++)
                {
                    binned[j][h] += share[j] * states[k][h];
                }
            }
        }

        return binned;
    }

    private double[] Shares(int state, int n)
    {
        double[] share = new double[n];
        bool bell = step.Answers[state].Reads!.Times is not null;
        double sum = 0;
        for (int i = 0; i < Points; i++)
        {
            double place = ((2.0 * i / (Points - 1)) - 1) * (bell ? WidestDeviations : 1);
            double weight = bell ? Math.Exp(-place * place / 2) : 1;
            share[Nearest(Value(state, place))] += weight;
            sum += weight;
        }

        return [.. share.Select(s => s / sum)];
    }

    private double Reach(Readout reads, int side) => reads.Times is { } times
        ? times * expected * Math.Exp(side * WidestDeviations * reads.Spread)
        : side < 0 ? reads.From : reads.To;
}
