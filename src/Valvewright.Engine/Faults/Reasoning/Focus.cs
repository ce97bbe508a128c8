namespace Valvewright.Engine.Faults.Reasoning;

/// <summary>The suppositions that still matter, gathered so that the answers of a step can be weighed quickly.</summary>
internal sealed class Focus
{
    private readonly int causes;
    private readonly int[] first, second;
    private readonly double[][][] rows;
    private readonly double[] shares;

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
        for (int s = 0; s < rows.Length; s++)
        {
            int n = tables.Steps[s].Answers.Count;
            rows[s] = new double[n][];
            for (int k = 0; k < n; k++)
            {
                double[] row = tables.Binned(s, k);
                double[] gathered = rows[s][k] = new double[kept.Length];
                for (int i = 0; i < gathered.Length; i++)
                {
                    gathered[i] = tables.WithSlip(row[kept[i]], n);
                }
            }
        }
    }

    /// <summary>Probability of the suppositions kept.</summary>
    public double[] Probability { get; }

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

    /// <summary>
    /// Chance that a cause drawn from the belief is not the one that another draw gives: 0 where all is on one cause. A pair counts half
    /// for each
    /// of its causes.
    /// </summary>
    public double Doubt(double[] probability)
    {
        Array.Clear(shares);
        for (int i = 0; i < probability.Length; i++)
        {
            if (second[i] < 0)
            {
                shares[first[i]] += probability[i];
            }
            else
            {
                shares[first[i]] += probability[i] / 2;
                shares[second[i]] += probability[i] / 2;
            }
        }

        double same = 0;
        foreach (double share in shares)
        {
            same += share * share;
        }

        return 1 - same;
    }
}
