namespace Valvewright.Engine.Faults.Reasoning;

/// <summary>A step that may come next.</summary>
/// <param name="Step">Index of the step.</param>
/// <param name="Minutes">What it takes, with the way there where no one is there yet.</param>
/// <param name="Removes">Doubt that it removes on average (<see cref="Focus.Doubt"/>).</param>
/// <param name="Rate">Doubt removed a minute, with the step that may follow where that is better.</param>
internal readonly record struct Candidate(int Step, double Minutes, double Removes, double Rate);

/// <summary>Chooses the step that saves most expected minutes to a sure diagnosis (docs/faults.md, "The next step").</summary>
internal sealed class StepChoice(AnswerTables tables)
{
    /// <summary>Suppositions less probable than this do not sway the choice of a step; they stay in the belief.</summary>
    private const double Negligible = 1e-4;

    /// <summary>So many steps, as long as their rate is this share of the best one's, are looked at two steps deep.</summary>
    private const int LookedAhead = 4;
    private const double Near = 0.7;

    /// <summary>Doubt that sums may be off by.</summary>
    private const double Rounding = 1e-12;

    /// <summary>The candidates that save minutes, best first.</summary>
    /// <param name="belief">What is believed.</param>
    /// <param name="closed">Steps that are done or cannot be done.</param>
    /// <param name="been">Places where a person is already.</param>
    public IReadOnlyList<Candidate> Rank(Belief belief, IReadOnlySet<int> closed, IReadOnlySet<string> been)
    {
        Focus focus = new(tables, belief.Probability, Negligible);
        List<Candidate> found = Around(focus, focus.Probability, closed, been);
        found.Sort((a, b) => a.Rate != b.Rate ? b.Rate.CompareTo(a.Rate) : a.Step.CompareTo(b.Step));

        // Steps that tell most now are likely to tell most after an answer: weighed first, they rule the others out sooner.
        int[] order = [.. found.Select(c => c.Step)];
        found.RemoveAll(c => c.Removes <= 0);
        int close = found.TakeWhile(c => c.Rate >= found[0].Rate * Near).Take(LookedAhead).Count();
        if (close > 1)
        {
            for (int i = 0; i < close; i++)
            {
                found[i] = LookAhead(focus, found[i], order, been);
            }

            found.Sort((a, b) => a.Rate != b.Rate ? b.Rate.CompareTo(a.Rate) : a.Step.CompareTo(b.Step));
        }

        found.RemoveAll(c => c.Rate * tables.Model.WrongMinutes <= 1);
        return found;
    }

    private List<Candidate> Around(Focus focus, double[] probability, IReadOnlySet<int> closed, IReadOnlySet<string> been)
    {
        double before = focus.Doubt(probability);
        List<Candidate> found = [];
        double[] after = new double[probability.Length];
        for (int s = 0; s < tables.Steps.Count; s++)
        {
            if (closed.Contains(s) || !focus.Tells(s))
            {
                continue;
            }

            double minutes = tables.MinutesOf(s, been);
            double gain = Removes(focus, probability, after, before, s, double.NegativeInfinity)!.Value;
            found.Add(new Candidate(s, minutes, gain, gain / minutes));
        }

        return found;
    }

    /// <summary>The step that removes doubt fastest, if it does so faster than <paramref name="above"/>.</summary>
    private Candidate? Fastest(
        Focus focus, double[] probability, double[] after, int[] order, IReadOnlySet<string> been, int but, double above)
    {
        double before = focus.Doubt(probability);
        Candidate? best = null;
        foreach (int s in order)
        {
            if (s == but)
            {
                continue;
            }

            double minutes = tables.MinutesOf(s, been);
            if (Removes(focus, probability, after, before, s, above * minutes) is { } gain && gain / minutes > above)
            {
                best = new Candidate(s, minutes, gain, gain / minutes);
                above = gain / minutes;
            }
        }

        return best;
    }

    /// <summary>The doubt that a step removes on average; null as soon as it can't be more than <paramref name="enough"/>: what is left of
    /// the doubt only grows from answer to answer.</summary>
    private double? Removes(Focus focus, double[] probability, double[] after, double before, int step, double enough)
    {
        double left = 0;
        int answers = tables.Steps[step].Answers.Count;
        for (int k = 0; k < answers; k++)
        {
            if (before - left < enough - Rounding) return null;
            left += focus.DoubtAfter(probability, step, k, after, out double weight) * weight;
        }

        return before - left;
    }

    /// <summary>The step with the one that would follow each answer, where that one removes doubt faster.</summary>
    private Candidate LookAhead(Focus focus, Candidate first, int[] order, IReadOnlySet<string> been)
    {
        HashSet<string> there = [.. been, tables.Steps[first.Step].Place];
        double removes = first.Removes, minutes = first.Minutes;
        double[] after = new double[focus.Probability.Length], further = new double[after.Length];
        for (int k = 0; k < tables.Steps[first.Step].Answers.Count; k++)
        {
            double weight = focus.After(focus.Probability, first.Step, k, after);
            if (Fastest(focus, after, further, order, there, first.Step, first.Rate) is { } next)
            {
                removes += weight * next.Removes;
                minutes += weight * next.Minutes;
            }
        }

        return first with { Rate = Math.Max(first.Rate, removes / minutes) };
    }
}
