namespace Valvewright.Engine.Faults.Reasoning;

/// <summary>What is believed after a complaint and some answers: an exact posterior over every supposition.</summary>
internal sealed class Belief
{
    private readonly AnswerTables tables;

    private Belief(AnswerTables tables, double[] probability)
    {
        this.tables = tables;
        Probability = probability;
        Present = tables.All.Present(probability);
    }

    /// <summary>Probability of every supposition.</summary>
    public double[] Probability { get; }

    /// <summary>Probability that each cause is present; the last is something else.</summary>
    public double[] Present { get; }

    /// <summary>The cause most probably present; the last index means something else.</summary>
    public int Leading => Array.IndexOf(Present, Present.Max());

    /// <summary>The belief after some answers.</summary>
    /// <param name="tables">The tables.</param>
    /// <param name="complaint">What the caller complains of; null for none.</param>
    /// <param name="answers">Answers and readings, by index of step.</param>
    /// <param name="repaired">Causes put right after which the trouble stayed, by index.</param>
    public static Belief Of(AnswerTables tables, string? complaint, IEnumerable<Seen> answers, IEnumerable<int> repaired)
    {
        Suppositions all = tables.All;
        double[] probability = [.. all.Prior];
        double[]? complaining = complaint is null ? null : tables.Complaining(complaint);
        for (int h = 0; complaining is not null && h < probability.Length; h++)
        {
            probability[h] *= complaining[h];
        }

        foreach (Seen seen in answers)
        {
            double[] likelihood = tables.LikelihoodsOf(seen);
            for (int h = 0; h < probability.Length; h++)
            {
                probability[h] *= likelihood[h];
            }
        }

        foreach (int cause in repaired)
        {
            for (int h = 0; h < probability.Length; h++)
            {
                (int first, int second) = all.Of(h);
                if (first == cause && second < 0)
                {
                    // It was put right and the trouble stayed: alone it no longer explains anything, unless the repair failed.
                    probability[h] *= tables.Slip;
                }
            }
        }

        return Of(tables, probability);
    }

    private static Belief Of(AnswerTables tables, double[] weights)
    {
        double sum = weights.Sum();
        if (sum <= 0)
        {
            throw new InvalidOperationException("Nothing in the model can explain the complaint at all.");
        }

        for (int h = 0; h < weights.Length; h++)
        {
            weights[h] /= sum;
        }

        return new Belief(tables, weights);
    }

    /// <summary>Probability of each answer to a step, slips included.</summary>
    public double[] Predict(int step)
    {
        int n = tables.Steps[step].Answers.Count;
        double[] predicted = new double[n];
        for (int k = 0; k < n; k++)
        {
            double[] row = tables.Binned(step, k);
            double sum = 0;
            for (int h = 0; h < row.Length; h++)
            {
                sum += row[h] * Probability[h];
            }

            predicted[k] = tables.WithSlip(sum, n);
        }

        return predicted;
    }
}

/// <summary>An answer to a step, or a reading.</summary>
/// <param name="Step">Index of the step.</param>
/// <param name="Answer">Index of the answer; -1 where a value was read.</param>
/// <param name="Value">The reading.</param>
internal readonly record struct Seen(int Step, int Answer, double Value);
