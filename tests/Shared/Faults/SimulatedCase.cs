using Valvewright.Engine.Faults;
using Valvewright.Engine.Faults.Reasoning;

namespace Valvewright.Tests.Faults;

/// <summary>A case drawn from a model: its causes, its complaint, and what every step would show, each drawn once.</summary>
internal sealed class SimulatedCase
{
    private readonly (int Answer, double Value)[] shown;

    /// <summary>Draws a case.</summary>
    /// <param name="truth">The model that the world follows.</param>
    /// <param name="random">Dice.</param>
    /// <param name="wrong">Share of answers that are wrong.</param>
    public SimulatedCase(AnswerTables truth, Random random, double wrong)
    {
        Supposition = Draw(truth.All.Prior, random);
        (First, Second) = truth.All.Of(Supposition);
        Complaint = truth.Model.Complaints[Draw(
            [.. truth.Model.Complaints.Select(c => truth.Complains(c.Name, Supposition))], random)].Name;
        shown = new (int, double)[truth.Steps.Count];
        for (int s = 0; s < shown.Length; s++)
        {
            int count = truth.Steps[s].Answers.Count;
            int state = Draw([.. Enumerable.Range(0, count).Select(k => truth.Plain(s, k)[Supposition])], random);
            if (random.NextDouble() < wrong)
            {
                state = (state + 1 + random.Next(count - 1)) % count;
            }

            bool bell = truth.Steps[s].Answers[state].Reads?.Times is not null;
            shown[s] = (state, truth.MeterOf(s)?.Value(state, bell ? Bell(random) : (2 * random.NextDouble()) - 1) ?? double.NaN);
        }
    }

    public int Supposition { get; }

    /// <summary>Index of the first cause; -1 where it is something else.</summary>
    public int First { get; }

    /// <summary>Index of the second cause; -1 without one.</summary>
    public int Second { get; }

    public string Complaint { get; }

    /// <summary>What a step shows.</summary>
    public Seen At(int step) =>
        double.IsNaN(shown[step].Value) ? new Seen(step, shown[step].Answer, 0) : new Seen(step, -1, shown[step].Value);

    /// <summary>The answer that is drawn, or the state that was measured.</summary>
    public int StateAt(int step) => shown[step].Answer;

    private static double Bell(Random random) =>
        Math.Clamp(Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()), -3.9, 3.9);

    private static int Draw(IReadOnlyList<double> weights, Random random)
    {
        double at = random.NextDouble() * weights.Sum();
        for (int i = 0; i < weights.Count; i++)
        {
            if ((at -= weights[i]) < 0)
            {
                return i;
            }
        }

        return weights.Count - 1;
    }
}
