using Valvewright.Engine.Readings.Rules;
using Valvewright.Engine.Readings.Spoken;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Readings.Dictation;

/// <summary>The best way to understand a whole text, step by step, every token accounted for; with what comes too near it.</summary>
internal static class Interpretation
{
    /// <summary>Another way to understand some words that costs no more than this on top of the best is asked about.</summary>
    private const double TooNear = 0.3;

    private sealed record Reached(double Cost, Step? Step, Spot Before);

    /// <summary>The best steps in order. Each that another way of understanding comes near asks about that.</summary>
    public static List<Step> Of(Grammar grammar, int tokens)
    {
        Dictionary<Spot, Reached>[] forward = [.. Enumerable.Range(0, tokens + 1).Select(_ => new Dictionary<Spot, Reached>())];
        List<(Spot Before, Spot After, Step Step)>[] edges = [.. Enumerable.Range(0, tokens).Select(_ => new List<(Spot, Spot, Step)>())];
        forward[0][new Spot(false, Topic.None)] = new Reached(0, null, default);
        for (int at = 0; at < tokens; at++)
        {
            foreach ((Spot spot, Reached reached) in forward[at].ToArray())
            {
                foreach (Step step in grammar.Steps(at, spot))
                {
                    Spot after = new(spot.HasProgram || step.Says.Any(s => s is OpensProgram), step.After);
                    edges[at].Add((spot, after, step));
                    double cost = reached.Cost + step.Cost;
                    if (!forward[step.End].TryGetValue(after, out Reached? known) || cost < known.Cost - 1e-9)
                    {
                        forward[step.End][after] = new Reached(cost, step, spot);
                    }
                }
            }
        }

        List<Step> best = [];
        Spot here = forward[tokens].MinBy(r => r.Value.Cost).Key;
        double least = forward[tokens][here].Cost;
        for (int at = tokens; at > 0;)
        {
            Reached reached = forward[at][here];
            best.Add(reached.Step!);
            (at, here) = (reached.Step!.From, reached.Before);
        }

        best.Reverse();
        return WithNear(best, least, forward, edges, tokens);
    }

    /// <summary>A step elsewhere on a path that is nearly as good, and says something else about the same words, is asked about.</summary>
    private static List<Step> WithNear(
        List<Step> best, double least, Dictionary<Spot, Reached>[] forward, List<(Spot Before, Spot After, Step Step)>[] edges, int tokens)
    {
        Dictionary<Spot, double>[] onward = [.. Enumerable.Range(0, tokens + 1).Select(_ => new Dictionary<Spot, double>())];
        foreach (Spot spot in forward[tokens].Keys)
        {
            onward[tokens][spot] = 0;
        }

        Dictionary<int, HashSet<ReadPart>> doubtful = [];
        for (int at = tokens - 1; at >= 0; at--)
        {
            foreach ((Spot before, Spot after, Step step) in edges[at])
            {
                if (onward[step.End].TryGetValue(after, out double rest))
                {
                    double through = step.Cost + rest;
                    onward[at][before] = onward[at].TryGetValue(before, out double known) ? Math.Min(known, through) : through;
                    if (forward[at][before].Cost + through <= least + TooNear && step.Says.Count > 0 && Differs(step, best) is { } other)
                    {
                        HashSet<ReadPart> parts = doubtful.TryGetValue(other, out HashSet<ReadPart>? found) ? found : doubtful[other] = [];
                        parts.UnionWith(step.Says.Select(s => s.Part).OfType<ReadPart>());
                    }
                }
            }
        }

        return [.. best.Select((step, i) =>
            doubtful.TryGetValue(i, out HashSet<ReadPart>? parts) ? step with { Asks = [.. step.Asks, Ambiguous(parts)] } : step)];
    }

    private static Question Ambiguous(HashSet<ReadPart> parts) =>
        new("", "", "This can be understood in more than one way", parts.Order().ToListOf());

    /// <summary>The best step that covers the same words and says something else; null where none does.</summary>
    private static int? Differs(Step step, List<Step> best)
    {
        bool Same(Said one, Said other) =>
            one.Equals(other) || (one is OpensProgram a && other is OpensProgram b && a.Letters.All(b.Letters.Contains));
        Step[] covering = [.. best.Where(b => b.From < step.End && b.End > step.From)];
        Said[] said = [.. covering.SelectMany(b => b.Says)];
        return step.Says.All(s => said.Any(b => Same(s, b))) ? null
            : best.FindIndex(b => b.From < step.End && b.End > step.From && b.Says.Count > 0) is >= 0 and var found ? found
            : best.FindIndex(b => b.From < step.End && b.End > step.From);
    }
}
