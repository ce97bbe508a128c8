using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Readings;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks.Seen;

/// <summary>One way in which what was seen can have come about.</summary>
/// <param name="Share">Its share of all explanations that fit, 0 to 1; by how common its slips are, not a measured probability.</param>
/// <param name="Slips">The slips, explained, with what fixes them; none: it does as planned (or as read).</param>
public sealed record Explanation(double Share, ListOf<Finding> Slips);

/// <summary>What explains what was seen.</summary>
/// <param name="Explanations">Those that produce exactly what was seen, the likeliest first.</param>
/// <param name="Next">The one question that separates them best; null where there is none left to ask.</param>
/// <param name="Tried">How many single slips and pairs were emulated.</param>
public sealed record SymptomResult(ListOf<Explanation> Explanations, NextQuestion? Next, int Tried);

/// <summary>A step of a search.</summary>
/// <param name="Done">How much is done, 0 to 1.</param>
/// <param name="Result">The result; null before the last step.</param>
public sealed record SymptomStep(double Done, SymptomResult? Result);

/// <summary>From what the owner saw to the settings that would do it, by emulating every slip worth trying (docs/checks.md).</summary>
public static class Symptoms
{
    /// <summary>What is as planned is seen rightly more often than any slip is made.</summary>
    private const double WeightOfNoSlip = 20;

    /// <summary>So many of the commonest slips are tried in pairs.</summary>
    private const int TriedInPairs = 70;

    /// <summary>The same where a year and more must be emulated.</summary>
    private const int TriedInPairsFarBack = 30;

    private const int MostExplanations = 6;

    /// <summary>Ranks the slips that would have produced exactly what was seen.</summary>
    /// <param name="site">The survey.</param>
    /// <param name="controller">The controller.</param>
    /// <param name="plan">The plan; without one for this controller, what was read is what slips are tried on.</param>
    /// <param name="observations">What was seen, all of it to be explained.</param>
    /// <param name="context">The time of the call and the language.</param>
    /// <param name="reading">What has been read so far: no slip is tried on a part that was read.</param>
    public static SymptomResult Rank(
        Site site, SiteController controller, Plan? plan, ListOf<Observation> observations, CheckContext context, Reading? reading = null)
    {
        SymptomResult? result = null;
        foreach (SymptomStep step in Search(site, controller, plan, observations, context, reading))
        {
            result = step.Result;
        }

        return result!;
    }

    /// <summary>The same step by step, for anyone who has other things to do between: each step tries one slip or pair.</summary>
    /// <returns>Steps with how much is done; the last one holds the result.</returns>
    public static IEnumerable<SymptomStep> Search(
        Site site, SiteController controller, Plan? plan, ListOf<Observation> observations, CheckContext context, Reading? reading = null)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(controller);
        ArgumentNullException.ThrowIfNull(observations);
        ArgumentNullException.ThrowIfNull(context);
        return observations.Count == 0
            ? [new SymptomStep(1, new SymptomResult([], null, 0))]
            : Tried(new Inspection(site, controller, plan, reading ?? new Reading(), context), site, controller, plan,
                observations, context);
    }

    private static IEnumerable<SymptomStep> Tried(
        Inspection on, Site site, SiteController controller, Plan? plan, ListOf<Observation> observations, CheckContext context)
    {
        List<PossibleSlip> slips = Unread(
            on, new PossibleSlips(controller, on.Found, on.Planned, on.At, on.RightClock, observations).All());
        Trial trial = new(on, observations);
        List<(double Weight, PossibleSlip[] Slips)> fitting = [];
        double asPlanned = trial.Fit([]);
        if (asPlanned > 0)
        {
            fitting.Add((WeightOfNoSlip * asPlanned, []));
        }

        // Should no slip alone explain it, pairs follow: they are the larger part of the work.
        int pairs = PairsOf(trial, slips).Count();
        double all = slips.Count + pairs + 1;
        for (int i = 0; i < slips.Count; i++)
        {
            // A slip that makes what was seen no likelier has nothing to do with it.
            if (trial.Fit([slips[i]]) is var fit && fit > asPlanned)
            {
                fitting.Add((slips[i].Weight * fit, [slips[i]]));
            }

            yield return new SymptomStep((i + 1) / (fitting.Count > 0 ? slips.Count + 1.0 : all), null);
        }

        // Two slips explain little that one explains (Occam).
        if (fitting.Count == 0)
        {
            int done = slips.Count;
            foreach (PossibleSlip[] pair in PairsOf(trial, slips))
            {
                if (trial.Fit(pair) is > 0 and var fit)
                {
                    fitting.Add((pair[0].Weight * pair[1].Weight * fit, pair));
                }

                yield return new SymptomStep(++done / all, null);
            }
        }

        yield return new SymptomStep(
            1, new SymptomResult(Explained(on, site, controller, plan, context, fitting), Question(on, fitting), trial.Count));
    }

    private static IEnumerable<PossibleSlip[]> PairsOf(Trial trial, List<PossibleSlip> slips)
    {
        PossibleSlip[] common = [.. slips.OrderByDescending(s => s.Weight).Take(trial.ReachesFar ? TriedInPairsFarBack : TriedInPairs)];
        return common.SelectMany((one, i) => common.Skip(i + 1).Where(other => !one.Touches(other)).Select(other => new[] { one, other }));
    }

    private static List<PossibleSlip> Unread(Inspection on, List<PossibleSlip> slips)
    {
        HashSet<(ReadPart, char?)> open = [.. Questions.Unread(on.Reading, on.Profile, on.Found.Settings.Programs.Select(p => p.Letter))];
        return [.. slips.Where(s => open.Contains((s.About, s.Program)))];
    }

    private static ListOf<Explanation> Explained(
        Inspection on, Site site, SiteController controller, Plan? plan, CheckContext context,
            List<(double Weight, PossibleSlip[] Slips)> fitting)
    {
        double sum = fitting.Sum(f => f.Weight);
        List<Explanation> explanations = [];
        foreach ((double weight, PossibleSlip[] slips) in fitting.OrderByDescending(f => f.Weight))
        {
            Reading reading = SupposedReading.Of(on, slips);
            ListOf<Finding> findings = slips.Length == 0 ? [] : Check.Of(site, controller, plan, reading, context).Findings;
            if (slips.Length > 0 && findings.Count == 0)
            {
                continue;
            }

            // Slips of one family, such as the length of a rain delay, are one explanation to anyone who has to look for it.
            int same = explanations.FindIndex(e => AreAlike(e.Slips, findings));
            if (same >= 0)
            {
                explanations[same] = explanations[same] with { Share = explanations[same].Share + weight / sum };
            }
            else
            {
                explanations.Add(new Explanation(weight / sum, findings));
            }

            if (explanations.Count > 4 * MostExplanations)
            {
                break;
            }
        }

        return explanations.OrderByDescending(e => e.Share).Take(MostExplanations).ToListOf();
    }

    private static bool AreAlike(ListOf<Finding> one, ListOf<Finding> other) =>
        one.Count == other.Count && one.Zip(other).All(p =>
            p.First.Kind == p.Second.Kind && p.First.Program == p.Second.Program && p.First.Stations.Equals(p.Second.Stations)
            && (p.First.Kind is FindingKind.RainHoldLeft or FindingKind.PercentOutOfSeason or FindingKind.IntervalWrongDay
                || p.First.FromOutside == p.Second.FromOutside));

    /// <summary>The part whose answer splits the explanations most evenly.</summary>
    private static NextQuestion? Question(Inspection on, List<(double Weight, PossibleSlip[] Slips)> fitting)
    {
        double sum = fitting.Sum(f => f.Weight);
        (ReadPart About, char? Program)[] parts = [.. fitting.SelectMany(f => f.Slips).Select(s => (s.About, s.Program)).Distinct()];
        if (parts.Length == 0)
        {
            return Questions.Next(on);
        }

        (ReadPart About, char? Program) best = parts.MaxBy(p =>
        {
            double share = fitting.Where(f => f.Slips.Any(s => (s.About, s.Program) == p)).Sum(f => f.Weight) / sum;
            return share * (1.0001 - share);
        });
        return new NextQuestion(best.About, best.Program, Questions.Words(on.Words, best.About, best.Program));
    }
}
