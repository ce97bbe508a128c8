namespace Valvewright.Engine.Faults.Reasoning;

/// <summary>A step that may come next.</summary>
/// <param name="Step">Index of the step.</param>
/// <param name="Minutes">What it takes, with the way there where nobody is there yet.</param>
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

    /// <summary>The candidates that save minutes, best first.</summary>
    /// <param name="belief">What is believed.</param>
    /// <param name="closed">Steps that are done or cannot be done.</param>
    /// <param name="been">Places where somebody is already.</param>
    public IReadOnlyList<Candidate> Rank(Belief belief, IReadOnlySet<int> closed, IReadOnlySet<string> been)
    {
        Focus focus = new(tables, belief.Probability, Negligible);
        List<Candidate> found = Around(focus, focus.Probability, closed, been, -1);
        found.RemoveAll(c => c.Removes <= 0);
        found.Sort((a, b) => a.Rate != b.Rate ? b.Rate.CompareTo(a.Rate) : a.Step.CompareTo(b.Step));
        int close = found.TakeWhile(c => c.Rate >= found[0].Rate * Near).Take(LookedAhead).Count();
        if (close > 1)
        {
            for (int i = 0; i < close; i++)
            {
                found[i] = LookAhead(focus, found[i], closed, been);
            }

            found.Sort((a, b) => a.Rate != b.Rate ? b.Rate.CompareTo(a.Rate) : a.Step.CompareTo(b.Step));
        }

        found.RemoveAll(c => c.Rate * tables.Model.WrongMinutes <= 1);
        return found;
    }

    private List<Candidate> Around(Focus focus, double[] probability, IReadOnlySet<int> closed, IReadOnlySet<string> been, int but)
    {
        double before = focus.Doubt(probability);
        List<Candidate> found = [];
        double[] after = new double[probability.Length];
        for (int s = 0; s < tables.Steps.Count; s++)
        {
            if (s == but || closed.Contains(s))
            {
                continue;
            }

            double left = 0;
            for (int k = 0; k < tables.Steps[s].Answers.Count; k++)
            {
                double weight = focus.After(probability, s, k, after);
                left += weight * focus.Doubt(after);
            }

            double minutes = tables.MinutesOf(s, been);
            found.Add(new Candidate(s, minutes, before - left, (before - left) / minutes));
        }

        return found;
    }

    /// <summary>The step with the one that would follow each answer, where that one removes doubt faster.</summary>
    private Candidate LookAhead(Focus focus, Candidate first, IReadOnlySet<int> closed, IReadOnlySet<string> been)
    {
        HashSet<string> there = [.. been, tables.Steps[first.Step].Place];
        double removes = first.Removes, minutes = first.Minutes;
        double[] after = new double[focus.Probability.Length];
        for (int k = 0; k < tables.Steps[first.Step].Answers.Count; k++)
        {
            double weight = focus.After(focus.Probability, first.Step, k, after);
            Candidate next = Around(focus, after, closed, there, first.Step).MaxBy(c => c.Rate);
            if (next.Rate > first.Rate)
            {
                removes += weight * next.Removes;
                minutes += weight * next.Minutes;
            }
        }

        return first with { Rate = Math.Max(first.Rate, removes / minutes) };
    }
}
