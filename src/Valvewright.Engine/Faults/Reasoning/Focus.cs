namespace Valvewright.Engine.Faults.Reasoning;

/// <summary>The suppositions that still matter, gathered so that the answers of a step can be weighed quickly.</summary>
internal sealed class Focus
{
    private readonly int causes;
    private readonly int[] first, second;
    private readonly double[][][] rows;
    private readonly double[] shares;
    private readonly bool[] tells;

    public Focus(AnswerTables tables, double[] all, double negligible)
    {
        int[] kept = [.. Enumerable.Range(0, all.Length).Where(h => all[h] > negligible)];
        double sum = kept.Sum(h => all[h]);
        Probability = [.. kept.Select(h => all[h] / sum)];
        causes = tables.Causes.Count;
        first = [.. kept.Select(h => tables.All.Of(h).First is >= 0 and var cause ? cause : causes)];
        second = [.. kept.Select(h => tables.All.Of(h).Second)];
        shares = new double[causes + 1];
        rows = new double[tables.Steps.Count][][];
        tells = new bool[rows.Length];
        for (int s = 0; s < rows.Length; s++)
        {
            int n = tables.Steps[s].Answers.Count;
            rows[s] = new double[n][];
            for (int k = 0; k < n; k++)
            {
                double[] row = tables.BinnedWithSlip(s, k), gathered = rows[s][k] = new double[kept.Length];
                bool differs = false;
                for (int i = 0; i < gathered.Length; i++)
                {
                    double value = gathered[i] = row[kept[i]];
                    differs |= value != gathered[0];
                }

                tells[s] |= differs;
            }
        }
    }

    /// <summary>Probability of the suppositions kept.</summary>
    public double[] Probability { get; }

    /// <summary>Whether any answer to a step is more probable under one of them than under another.</summary>
    public bool Tells(int step) => tells[step];

    /// <summary>Probabilities after an answer, into <paramref name="after"/>; returns the probability of the answer.</summary>
    public double After(double[] before, int step, int answer, double[] after)
    {
        double[] row = rows[step][answer];
        double sum = 0;
        for (int i = 0; i < row.Length; i++)
        {
            sum += after[i] = before[i] * row[i];
        }

        double scale = 1 / sum;
        for (int i = 0; i < after.Length; i++)
        {
            after[i] *= scale;
        }

        return sum;
    }

    /// <summary>The doubt after an answer, and the probability of the answer; <paramref name="after"/> is room to work in.</summary>
    public double DoubtAfter(double[] before, int step, int answer, double[] after, out double weight)
    {
        ReadOnlySpan<double> row = rows[step][answer], from = before.AsSpan(0, row.Length);
        Span<double> to = after.AsSpan(0, row.Length);
        double sum = 0;
        for (int i = 0; i < row.Length; i++)
        {
            sum += to[i] = from[i] * row[i];
        }

        weight = sum;
        return Doubt(after, 1 / sum);
    }

    /// <summary>
    /// Chance that a cause drawn from the belief is not the one that another draw gives: 0 where all is on one cause. A pair counts half
    /// for each of its causes.
    /// </summary>
    public double Doubt(double[] probability) => Doubt(probability, 1);

    /// <remarks>Suppositions of one first cause stand together: their sum stays out of the memory until the next cause. Each share is added
    /// up in the order of the suppositions, so the result is the same to the last bit.</remarks>
    private double Doubt(double[] weights, double scale)
    {
        Array.Clear(shares);
        int at = -1;
        double sum = 0;
        for (int i = 0; i < weights.Length; i++)
        {
            if (first[i] != at)
            {
                if (at >= 0) shares[at] = sum;
                at = first[i];
                sum = shares[at];
            }

            double share = weights[i] * scale;
            if (second[i] < 0)
            {
                sum += share;
            }
            else
            {
                share *= 0.5;
                sum += share;
                shares[second[i]] += share;
            }
        }

        if (at >= 0) shares[at] = sum;

        double same = 0;
        foreach (double share in shares)
        {
            same += share * share;
        }

        return 1 - same;
    }
}
