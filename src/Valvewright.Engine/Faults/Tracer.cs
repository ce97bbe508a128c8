using System.Collections.Concurrent;
using Valvewright.Engine.Faults.Reasoning;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Faults;

/// <summary>Reasons about the cases of one kind of site: keep one as long as model and facts stay the same.</summary>
public sealed class Tracer
{
    private const double Doubtful = 0.5;
    private const double RuledOutBelow = 0.01;
    private const double Speaks = 1.5;
    private const int StepsForAVisit = 3;
    private readonly AnswerTables tables;
    private readonly StepChoice choice;
    private readonly ConcurrentDictionary<(string Case, Seen Only), double[]> alone = new();

    /// <summary>Compiles the tables; this takes longer than any question after it.</summary>
    public Tracer(FaultModel model, TraceFacts facts)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(facts);
        Model = model;
        Facts = facts;
        tables = new AnswerTables(model, facts);
        choice = new StepChoice(tables);
    }

    /// <summary>The model.</summary>
    public FaultModel Model { get; }

    /// <summary>What is known of the site.</summary>
    public TraceFacts Facts { get; }

    /// <summary>Where a case stands. Answers to steps that the model or the site does not have are left out.</summary>
    /// <exception cref="ArgumentException">The model has no such complaint.</exception>
    public TraceView Look(TraceCase trace)
    {
        ArgumentNullException.ThrowIfNull(trace);
        if (Model.ComplaintNamed(trace.Complaint) is null)
        {
            throw new ArgumentException($"The model has no complaint '{trace.Complaint}'.", nameof(trace));
        }

        List<Seen> seen = [.. trace.Answers.Select(Of).OfType<Seen>()];
        Belief belief = BeliefIn(trace, seen);
        HashSet<int> done = [.. trace.Answers.Select(a => tables.StepOf(a.Step)).Where(s => s >= 0)];
        HashSet<int> closed = [.. done, .. Enumerable.Range(0, tables.Steps.Count).Where(s => !CanDo(tables.Steps[s], trace))];
        HashSet<string> been = [.. seen.Select(s => tables.Steps[s.Step].Place)];
        Candidate? best = null;
        if (!IsSure(belief))
        {
            best = choice.Rank(belief, closed, been) is [{ } first, ..] ? first : null;
        }

        return new TraceView(
            Shares(trace, seen, belief), belief.Present[^1], best is { } chosen ? Ask(belief, chosen) : null,
                best is null ? EndOf(trace, belief) : null, Misfits(belief, seen),
            best is null && !IsSure(belief) && trace.OnPhone ? VisitSteps(belief, done, been, trace) : [], Spent(seen));
    }

    /// <summary>What an answer means to the tables; null where it tells nothing or the site has no such step.</summary>
    private Seen? Of(TraceAnswer answer)
    {
        int step = tables.StepOf(answer.Step);
        if (step < 0 || !answer.Tells)
        {
            return null;
        }

        if (answer.Value is { } value && tables.MeterOf(step) is not null)
        {
            return new Seen(step, -1, value);
        }

        int index = tables.Steps[step].Answers.TakeWhile(a => a.Name != answer.Answer).Count();
        return index < tables.Steps[step].Answers.Count ? new Seen(step, index, 0) : null;
    }

    private Belief BeliefIn(TraceCase trace, IEnumerable<Seen> seen) =>
        Belief.Of(tables, trace.Complaint, seen, trace.Repaired.Select(tables.CauseOf).Where(c => c >= 0));

    /// <summary>What one answer alone, or none, says of each cause; the same as long as the complaint and the repairs are.</summary>
    private double[] PresentWith(TraceCase trace, Seen? seen)
    {
        string key = $"{trace.Complaint}\n{string.Join('\n', trace.Repaired)}";
        return alone.GetOrAdd((key, seen ?? new Seen(-1, -1, 0)), _ => BeliefIn(trace, seen is { } one ? [one] : []).Present);
    }

    private bool IsSure(Belief belief) => belief.Present.Max() >= Model.Sure;

    private static bool CanDo(TraceStep step, TraceCase trace) =>
        !(trace.OnPhone && !step.OnPhone) && !step.Needs.Any(trace.Without.Contains);

    private ListOf<CauseShare> Shares(TraceCase trace, List<Seen> seen, Belief belief)
    {
        double[] before = PresentWith(trace, null);
        double[][] alone = [.. seen.Select(s => PresentWith(trace, s))];
        return Enumerable.Range(0, tables.Causes.Count)
            .Where(c => before[c] > 1e-3)
            .OrderByDescending(c => belief.Present[c])
            .Select(c =>
            {
                (string Step, double Factor)[] factors =
                    [.. seen.Select((s, i) => (tables.Steps[s.Step].Name, OddsOf(alone[i][c]) / OddsOf(before[c])))];
                return new CauseShare(
                    tables.Causes[c].Name, belief.Present[c],
                    factors.Where(f => f.Factor > Speaks).OrderByDescending(f => f.Factor).Select(f => f.Step).ToListOf(),
                    factors.Where(f => f.Factor < 1 / Speaks).OrderBy(f => f.Factor).Select(f => f.Step).ToListOf());
            }).ToListOf();
    }

    private static double OddsOf(double probability) => Math.Max(probability, 1e-12) / Math.Max(1 - probability, 1e-12);

    private NextAsk Ask(Belief belief, Candidate chosen)
    {
        TraceStep step = tables.Steps[chosen.Step];
        double[] predicted = belief.Predict(chosen.Step);
        IEnumerable<Lead> leads = step.Answers.Select((answer, k) =>
        {
            double[] row = tables.BinnedWithSlip(chosen.Step, k), after = new double[row.Length];
            for (int h = 0; h < row.Length; h++)
            {
                after[h] = belief.Probability[h] * row[h];
            }

            double[] present = tables.All.Present(after);
            int leading = Array.IndexOf(present, present.Max());
            return new Lead(answer.Name, predicted[k], leading < tables.Causes.Count ? tables.Causes[leading].Name : null);
        });
        return new NextAsk(step.Name, chosen.Minutes, (Model.WrongMinutes * chosen.Rate * chosen.Minutes) - chosen.Minutes,
            leads.ToListOf());
    }

    private TraceEnd EndOf(TraceCase trace, Belief belief)
    {
        double[] before = PresentWith(trace, null);
        int[] named = [.. Enumerable.Range(0, tables.Causes.Count).Where(c => belief.Present[c] >= TraceEnd.Likely).OrderByDescending(
            c => belief.Present[c])];
        bool sure = named.Length > 0 && belief.Present[named[0]] >= Model.Sure;
        return new TraceEnd(
            sure ? EndKind.Sure : named.Length > 0 ? EndKind.Likely : EndKind.NotFound,
            named.Select(c => tables.Causes[c].Name).ToListOf(),
            Enumerable.Range(0, tables.Causes.Count)
                .Where(c => before[c] >= RuledOutBelow && belief.Present[c] < RuledOutBelow)
                .OrderByDescending(c => before[c]).Select(c => tables.Causes[c].Name).ToListOf());
    }

    /// <summary>Answers that more probably are wrong than not: the part of their likelihood that slips give, over all
    /// suppositions.</summary>
    private ListOf<Misfit> Misfits(Belief belief, List<Seen> seen) => seen
        .Select(s => new Misfit(tables.Steps[s.Step].Name, ShareOfSlip(belief, s)))
        .Where(m => m.Share > Doubtful).OrderByDescending(m => m.Share).ToListOf();

    private double ShareOfSlip(Belief belief, Seen seen)
    {
        double[] likelihood = tables.LikelihoodsOf(seen);
        double slip = tables.SlipOf(seen), sum = 0;
        for (int h = 0; h < likelihood.Length; h++)
        {
            sum += belief.Probability[h] * slip / likelihood[h];
        }

        return sum;
    }

    private ListOf<string> VisitSteps(Belief belief, HashSet<int> done, HashSet<string> been, TraceCase trace)
    {
        HashSet<int> closed = [.. done.Where(s => trace.Answers.Any(a => a.Step == tables.Steps[s].Name && a.Tells))];
        return choice.Rank(belief, closed, been).Take(StepsForAVisit).Select(c => tables.Steps[c.Step].Name).ToListOf();
    }

    private double Spent(List<Seen> seen)
    {
        HashSet<string> been = [];
        double minutes = 0;
        foreach (Seen one in seen)
        {
            minutes += tables.MinutesOf(one.Step, been);
            been.Add(tables.Steps[one.Step].Place);
        }

        return minutes;
    }
}
