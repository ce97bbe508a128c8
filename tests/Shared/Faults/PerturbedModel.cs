using Valvewright.Engine.Faults;
using Valvewright.Engine.Faults.Reasoning;
using Valvewright.Engine.Values;

namespace Valvewright.Tests.Faults;

/// <summary>A world that differs from the model: every weight, share and odds off by up to a factor.</summary>
internal static class PerturbedModel
{
    /// <summary>A model like the given one, with weights times and odds times anything from 1/<paramref name="factor"/> to
    /// <paramref name="factor"/>.</summary>
    public static FaultModel Of(FaultModel model, Random random, double factor)
    {
        Dictionary<string, TraceStep> steps = model.Steps.ToDictionary(s => s.Name);
        return model with
        {
            Steps = model.Steps.Select(s =>
            {
                double[] usual = Shaken([.. s.Answers.Select(a => a.Usual)], random, factor);
                return s with { Answers = s.Answers.Select((a, k) => a with { Usual = usual[k] }).ToListOf() };
            }).ToListOf(),
            Causes = model.Causes.Select(c => c with
            {
                Weight = c.Weight * Off(random, factor),
                Complaints = Named(c.Complaints.Select(o => o.Name), Shaken([.. c.Complaints.Select(o => o.Share)], random, factor)),
                Shows = c.Shows.Select(s => new Shown(
                    s.Step, Named(steps[s.Step].Answers.Select(a => a.Name),
                        Shaken(AnswerTables.Spread(steps[s.Step], s), random, factor)))).ToListOf(),
            }).ToListOf(),
        };
    }

    private static ListOf<Odds> Named(IEnumerable<string> names, double[] shares) =>
        names.Select((n, i) => new Odds(n, shares[i])).ToListOf();

    /// <summary>Every share's odds off by a factor of its own, then brought back to a sum of 1.</summary>
    private static double[] Shaken(double[] shares, Random random, double factor)
    {
        double[] shaken = [.. shares.Select(s =>
        {
            double odds = Math.Clamp(s, 1e-9, 1 - 1e-9) / (1 - Math.Clamp(s, 1e-9, 1 - 1e-9)) * Off(random, factor);
            return odds / (1 + odds);
        })];
        double sum = shaken.Sum();
        return [.. shaken.Select(s => s / sum)];
    }

    private static double Off(Random random, double factor) => Math.Exp(((2 * random.NextDouble()) - 1) * Math.Log(factor));
}
