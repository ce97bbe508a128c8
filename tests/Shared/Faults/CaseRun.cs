using Valvewright.Engine.Faults;
using Valvewright.Engine.Faults.Reasoning;

namespace Valvewright.Tests.Faults;

/// <summary>What came of a procedure on a case.</summary>
/// <param name="Named">Index of the cause that it ends with; -1 for "not found".</param>
/// <param name="All">All causes that it names.</param>
/// <param name="Minutes">Minutes spent, with the ways to where steps are done.</param>
/// <param name="Order">Steps done, in order.</param>
internal sealed record CaseRun(int Named, IReadOnlyList<int> All, double Minutes, IReadOnlyList<int> Order)
{
    /// <summary>Whether the cause it ends with is one of the case's; "not found" is right where the cause is not in the model.</summary>
    public bool IsRight(SimulatedCase played) => Named < 0 ? played.First < 0 : Named == played.First || Named == played.Second;

    /// <summary>Whether it names all causes of the case and no other.</summary>
    public bool IsWhole(SimulatedCase played) =>
        All.Order().SequenceEqual(new[] { played.First, played.Second }.Where(c => c >= 0).Order());
}

/// <summary>Plays procedures on cases: the same steps, the same minutes, the same reasoning and the same end for all; only the order
/// differs.</summary>
internal sealed class Procedures(AnswerTables tables)
{
    private const int RememberedSteps = 5;
    private readonly StepChoice choice = new(tables);
    private readonly Dictionary<string, int> remembered = [];

    /// <summary>The order that saves most minutes; first steps are remembered, because many cases share them.</summary>
    public CaseRun Chosen(SimulatedCase played)
    {
        List<int> way = [];
        return Play(played, (belief, done, been) =>
        {
            string path = $"{played.Complaint}:{string.Join(',', way.Select(s => $"{s}={played.StateAt(s)}"))}";
            bool shared = way.Count < RememberedSteps && way.All(s => tables.MeterOf(s) is null);
            if (!shared || !remembered.TryGetValue(path, out int step))
            {
                step = choice.Rank(belief, done, been) is [{ } best, ..] ? best.Step : -1;
                if (shared)
                {
                    remembered[path] = step;
                }
            }

            way.Add(step);
            return step;
        });
    }

    /// <summary>The fixed checklist of the complaint, to its end.</summary>
    public CaseRun Checklist(SimulatedCase played) => Play(played, (_, done, _) => NextOnList(played, done, _ => true));

    /// <summary>The same by somebody who leaves out what the answers have made pointless: steps that no longer pay for their
    /// minutes.</summary>
    public CaseRun ChecklistWithSense(SimulatedCase played) => Play(played, (belief, done, been) =>
    {
        HashSet<int> paying = [.. choice.Rank(belief, done, been).Select(c => c.Step)];
        return NextOnList(played, done, paying.Contains);
    });

    /// <summary>Every step in the order of the model.</summary>
    public CaseRun Exhaustive(SimulatedCase played) =>
        Play(played, (_, done, _) => Enumerable.Range(0, tables.Steps.Count).Where(s => !done.Contains(s)).DefaultIfEmpty(-1).First());

    private int NextOnList(SimulatedCase played, HashSet<int> done, Func<int, bool> wanted)
    {
        int bleedStep = tables.StepOf("bleed");
        string? bleed = done.Contains(bleedStep) ? tables.Steps[bleedStep].Answers[played.StateAt(bleedStep)].Name : null;
        return Faults.Checklist.StepsFor(played.Complaint, bleed).Select(tables.StepOf).Where(s => s >= 0 && !done.Contains(s) && wanted(s))
            .DefaultIfEmpty(-1).First();
    }

    private CaseRun Play(SimulatedCase played, Func<Belief, HashSet<int>, HashSet<string>, int> next)
    {
        List<Seen> seen = [];
        HashSet<int> done = [];
        HashSet<string> been = [];
        double minutes = 0;
        while (true)
        {
            Belief belief = Belief.Of(tables, played.Complaint, seen, []);
            int leading = belief.Leading;
            int step = belief.Present[leading] >= tables.Model.Sure ? -1 : next(belief, done, been);
            if (step < 0)
            {
                bool found = leading < tables.Causes.Count && belief.Present[leading] >= TraceEnd.Likely;
                return new CaseRun(found ? leading : -1,
                    [.. Enumerable.Range(0, tables.Causes.Count).Where(c => belief.Present[c] >= TraceEnd.Likely)], minutes,
                        [.. seen.Select(s => s.Step)]);
            }

            minutes += tables.MinutesOf(step, been);
            been.Add(tables.Steps[step].Place);
            done.Add(step);
            seen.Add(played.At(step));
        }
    }
}
