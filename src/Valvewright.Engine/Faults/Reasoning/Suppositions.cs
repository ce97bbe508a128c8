namespace Valvewright.Engine.Faults.Reasoning;

/// <summary>All that is supposed: each cause alone, each pair of causes of different groups, something else.</summary>
internal sealed class Suppositions
{
    private readonly (int First, int Second)[] pairs;

    /// <summary>Singles come first, in the order of the causes; then pairs; the last is something else.</summary>
    public Suppositions(FaultModel model, IReadOnlyList<Cause> causes)
    {
        Causes = causes;
        int n = causes.Count;
        pairs =
        [
            .. Enumerable.Range(0, n)
                .SelectMany(i => Enumerable.Range(i + 1, n - i - 1).Where(j => causes[i].Group != causes[j].Group).Select(j => (i, j))),
        ];
        Prior = new double[Count];
        double sum = causes.Sum(c => c.Weight);
        double pairSum = pairs.Sum(p => causes[p.First].Weight * causes[p.Second].Weight);
        double two = pairs.Length == 0 ? 0 : model.TwoAtOnce;
        for (int i = 0; i < n; i++)
        {
            Prior[i] = (1 - model.SomethingElse - two) * causes[i].Weight / sum;
        }

        for (int p = 0; p < pairs.Length; p++)
        {
            Prior[n + p] = two * causes[pairs[p].First].Weight * causes[pairs[p].Second].Weight / pairSum;
        }

        Prior[^1] = model.SomethingElse;
    }

    public IReadOnlyList<Cause> Causes { get; }

    public int Count => Causes.Count + pairs.Length + 1;

    /// <summary>Probability of each before anything is said.</summary>
    public double[] Prior { get; }

    /// <summary>Index of "something else".</summary>
    public int Other => Count - 1;

    /// <summary>The causes of a supposition; -1 stands for none.</summary>
    public (int First, int Second) Of(int supposition) => supposition < Causes.Count
        ? (supposition, -1)
        : supposition == Other ? (-1, -1) : pairs[supposition - Causes.Count];

    /// <summary>Probability that each cause is present, alone or with another; the last is something else.</summary>
    public double[] Present(ReadOnlySpan<double> probability)
    {
        double[] present = new double[Causes.Count + 1];
        for (int h = 0; h < probability.Length; h++)
        {
            (int first, int second) = Of(h);
            if (first < 0)
            {
                present[^1] += probability[h];
                continue;
            }

            present[first] += probability[h];
            if (second >= 0)
            {
                present[second] += probability[h];
            }
        }

        return present;
    }
}
