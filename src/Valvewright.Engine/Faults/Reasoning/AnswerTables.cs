namespace Valvewright.Engine.Faults.Reasoning;

/// <summary>How probable each answer is under each supposition, with the facts of one site (docs/faults.md, "How it reasons").</summary>
internal sealed class AnswerTables
{
    /// <summary>Something else is taken to look half like nothing in particular, half like anything.</summary>
    private const double OtherIsUsual = 0.5;

    private readonly double[][][] answers;
    private readonly double[][][] binned;
    private readonly double[][][] binnedWithSlip;
    private readonly double[][][] slipped;
    private readonly Meter?[] meters;
    private readonly double[] wayMinutes;
    private readonly Dictionary<string, double[]> complaining;

    public AnswerTables(FaultModel model, TraceFacts facts)
    {
        Model = model;
        Causes = [.. model.Causes.Where(c => c.When.All(facts.Holds))];
        Steps = [.. model.Steps.Where(s => s.When.All(facts.Holds))];
        All = new Suppositions(model, Causes);
        answers = [.. Steps.Select(Of)];
        meters = [.. Steps.Select(s => s.Measured is { } quantity ? new Meter(s, facts.Of(quantity)) : null)];
        binned = [.. Steps.Select((_, s) => meters[s] is { } meter ? meter.Binned(answers[s]) : answers[s])];
        Slip = model.WrongAnswers;
        slipped = [.. answers.Select(WithSlips)];
        binnedWithSlip = [.. binned.Select((rows, s) => ReferenceEquals(rows, answers[s]) ? slipped[s] : WithSlips(rows))];
        wayMinutes = [.. Steps.Select(s => model.Places.First(p => p.Name == s.Place).Minutes)];
        complaining = model.Complaints.ToDictionary(
            c => c.Name, c => Enumerable.Range(0, All.Count).Select(h => Complains(c.Name, h)).ToArray());
    }

    public FaultModel Model { get; }

    public IReadOnlyList<Cause> Causes { get; }

    public IReadOnlyList<TraceStep> Steps { get; }

    public Suppositions All { get; }

    /// <summary>Share of answers that are wrong.</summary>
    public double Slip { get; }

    /// <summary>Index of a step; -1 where the site has none of that name.</summary>
    public int StepOf(string name) => Steps.TakeWhile(s => s.Name != name).Count() is var i && i < Steps.Count ? i : -1;

    /// <summary>Index of a cause; -1 where the site has none of that name.</summary>
    public int CauseOf(string name) => Causes.TakeWhile(c => c.Name != name).Count() is var i && i < Causes.Count ? i : -1;

    /// <summary>The meter of a step that is measured.</summary>
    public Meter? MeterOf(int step) => meters[step];

    /// <summary>Probability of an answer under every supposition, slips left out.</summary>
    public double[] Plain(int step, int answer) => answers[step][answer];

    /// <summary>Probability under every supposition that a step's answer, or the state that a reading is nearest to, is this one; slips
    /// left out.</summary>
    public double[] Binned(int step, int answer) => binned[step][answer];

    /// <summary>The same with slips: any answer may be given.</summary>
    public double[] BinnedWithSlip(int step, int answer) => binnedWithSlip[step][answer];

    /// <summary>How probable an answer is, or the density of a reading, under every supposition; slips included.</summary>
    public double[] LikelihoodsOf(Seen seen)
    {
        if (seen.Answer >= 0)
        {
            return slipped[seen.Step][seen.Answer];
        }

        double[][] rows = answers[seen.Step];
        Meter meter = meters[seen.Step]!;
        double[] likelihood = new double[All.Count];
        Array.Fill(likelihood, Slip * meter.AnyDensity);
        for (int k = 0; k < rows.Length; k++)
        {
            double density = (1 - Slip) * meter.Density(k, seen.Value);
            for (int h = 0; h < likelihood.Length; h++)
            {
                likelihood[h] += density * rows[k][h];
            }
        }

        return likelihood;
    }

    /// <summary>The part of a likelihood that is owed to slips; the same under every supposition.</summary>
    public double SlipOf(Seen seen) => Slip * (seen.Answer >= 0 ? 1.0 / Steps[seen.Step].Answers.Count : meters[seen.Step]!.AnyDensity);

    /// <summary>Share of callers who complain of this, under every supposition.</summary>
    public double[] Complaining(string complaint) => complaining[complaint];

    /// <summary>Share of callers who complain of this under a supposition: of two faults either may be what they noticed.</summary>
    public double Complains(string complaint, int supposition)
    {
        (int first, int second) = All.Of(supposition);
        if (first < 0)
        {
            return 1.0 / Model.Complaints.Count;
        }

        double share = Share(Causes[first]);
        return second < 0 ? share : (share + Share(Causes[second])) / 2;

        double Share(Cause cause) => cause.Complaints.FirstOrDefault(c => c.Name == complaint)?.Share ?? 0;
    }

    /// <summary>Minutes that a step takes, with the way to its place where no one is there yet.</summary>
    public double MinutesOf(int step, IReadOnlySet<string> been) =>
        Steps[step].Minutes + (been.Contains(Steps[step].Place) ? 0 : wayMinutes[step]);

    /// <summary>The probability of an answer where a share of answers is wrong: then any answer is given.</summary>
    public double WithSlip(double plain, int answerCount) => ((1 - Slip) * plain) + (Slip / answerCount);

    private double[][] WithSlips(double[][] rows)
    {
        double[][] all = new double[rows.Length][];
        for (int k = 0; k < rows.Length; k++)
        {
            double[] row = rows[k], slips = all[k] = new double[row.Length];
            for (int h = 0; h < row.Length; h++)
            {
                slips[h] = WithSlip(row[h], rows.Length);
            }
        }

        return all;
    }

    private double[][] Of(TraceStep step)
    {
        double[] usual = [.. step.Answers.Select(a => a.Usual)];
        double[]?[] shown = [.. Causes.Select(c => c.Shows.FirstOrDefault(s => s.Step == step.Name) is { } row ? Spread(step, row) : null)];
        double[][] table = [.. step.Answers.Select(_ => new double[All.Count])];
        for (int h = 0; h < All.Count; h++)
        {
            (int first, int second) = All.Of(h);
            double[] row = first < 0
                ? [.. usual.Select(u => (OtherIsUsual * u) + ((1 - OtherIsUsual) / usual.Length))]
                : second < 0 ? shown[first] ?? usual : Together(shown[first], shown[second]) ?? usual;
            for (int k = 0; k < row.Length; k++)
            {
                table[k][h] = row[k];
            }
        }

        return table;
    }

    /// <summary>The shares of a row, the rest shared evenly by the answers that it leaves out.</summary>
    public static double[] Spread(TraceStep step, Shown row)
    {
        ArgumentNullException.ThrowIfNull(step);
        ArgumentNullException.ThrowIfNull(row);
        double[] shares = [.. step.Answers.Select(a => row.Answers.FirstOrDefault(o => o.Name == a.Name)?.Share ?? double.NaN)];
        double rest = Math.Max(0, 1 - shares.Where(s => !double.IsNaN(s)).Sum());
        int open = shares.Count(double.IsNaN);
        double given = shares.Where(s => !double.IsNaN(s)).Sum();
        return [.. shares.Select(s => double.IsNaN(s) ? rest / open : open == 0 ? s / given : s)];
    }

    /// <summary>The more telling of two answers, drawn independently: P(at most k) is the product of both.</summary>
    private static double[]? Together(double[]? one, double[]? other)
    {
        if (one is null || other is null)
        {
            return one ?? other;
        }

        double[] both = new double[one.Length];
        double upToOne = 0, upToOther = 0, before = 0;
        for (int k = 0; k < one.Length; k++)
        {
            upToOne += one[k];
            upToOther += other[k];
            both[k] = (upToOne * upToOther) - before;
            before = upToOne * upToOther;
        }

        return both;
    }
}
