using CsCheck;
using NodaTime;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Values;

namespace Valvewright.Files.Tests.Faults;

/// <summary>The belief equals that of enumerating every way in which the answers can come about.</summary>
public sealed class ReasoningIsExact
{
    [Fact]
    public void Shares_equal_those_of_brute_force() =>
        Gen.Select(Gen.Int[2, 5], Gen.Int[1, 4], Gen.Double[0.02, 1].Array[400], Gen.Int[0, 1_000_000]).Sample(
            (causes, steps, well, picks) =>
            {
                SmallModel small = new(causes, steps, well);
                TraceCase trace = small.Case(picks);
                TraceView view = new Tracer(small.Model, new TraceFacts()).Look(trace);
                double[] expected = small.Enumerate(trace);
                for (int c = 0; c < causes; c++)
                {
                    double share = view.Causes.FirstOrDefault(s => s.Name == $"c{c}")?.Share ?? 0;
                    Assert.True(Math.Abs(expected[c] - share) < 1e-9 || (share == 0 && expected[c] < 1e-3),
                        $"c{c}: {share} for {expected[c]}");
                }

                Assert.Equal(expected[^1], view.SomethingElse, 9);
            },
            iter: 400);

    [Fact]
    public void An_answer_left_out_tells_nothing_and_one_changed_is_as_if_it_had_been_said_first()
    {
        Gen.Select(Gen.Int[2, 5], Gen.Int[2, 4], Gen.Double[0.02, 1].Array[400], Gen.Int[0, 1_000_000]).Sample(
            (causes, steps, well, picks) =>
            {
                SmallModel small = new(causes, steps, well);
                Tracer tracer = new(small.Model, new TraceFacts());
                TraceCase trace = small.Case(picks);
                TraceAnswer first = trace.Answers[0];
                string other = small.Model.StepNamed(first.Step)!.Answers.First(a => a.Name != first.Answer).Name;
                Assert.Equal(tracer.Look(trace).Causes, tracer.Look(trace.With(first with { Answer = other }).With(first)).Causes);
                Assert.Equal(
                    tracer.Look(trace.Forget(first.Step)).Causes.Select(c => (c.Name, c.Share)),
                    tracer.Look(trace.With(first with { Answer = null })).Causes.Select(c => (c.Name, c.Share)));
            },
            iter: 100);
    }

    /// <summary>A model of a few causes and steps, with figures drawn from a well.</summary>
    private sealed class SmallModel
    {
        private readonly double[] well;
        private int at;

        public SmallModel(int causes, int steps, double[] well)
        {
            this.well = well;
            BothTongues text = new("x", "x");
            TraceStep[] asked = [.. Enumerable.Range(0, steps).Select(s =>
            {
                double[] usual = Shares(2 + (s % 2));
                return new TraceStep($"s{s}", text, text, "here", 1, true, [], [], [], null,
                    usual.Select((u, k) => new StepAnswer($"a{k}", text, u, [], null)).ToListOf());
            })];
            Model = new FaultModel(
                "small", "test", 100, 0.1 * Draw(), 0.3 * Draw(), 0.2 * Draw(), 0.999, 1000, [new TracePlace("here", 0, text)], [], [],
                [new Complaint("it", text, []), new Complaint("that", text, [])],
                Enumerable.Range(0, causes).Select(c =>
                {
                    double said = Draw();
                    return new Cause(
                        $"c{c}", text, Draw(), $"g{c % 3}", [], [new Odds("it", said), new Odds("that", 1 - said)],
                        asked.Where(_ => Draw() > 0.4).Select(
                            s => new Shown(s.Name, Shares(s.Answers.Count).Select((p, k) => new Odds($"a{k}", p)).ToListOf())).ToListOf(),
                        text, text, [], 1);
                }).ToListOf(),
                asked.ToListOf());
        }

        public FaultModel Model { get; }

        public TraceCase Case(int picks) => new()
        {
            Site = "x", Controller = "x", Complaint = "it", Began = new LocalDateTime(2026, 7, 1, 8, 0),
            Answers = Model.Steps
                .Select((s, i) => new TraceAnswer(s.Name, s.Answers[(picks >> (2 * i)) % s.Answers.Count].Name)).ToListOf(),
        };

        /// <summary>Every cause or pair, every answer of each of them, every slip; summed.</summary>
        public double[] Enumerate(TraceCase trace)
        {
            int n = Model.Causes.Count;
            double[] present = new double[n + 1];
            double weights = Model.Causes.Sum(c => c.Weight);
            (int I, int J)[] pairs = [.. from i in Enumerable.Range(0, n) from j in Enumerable.Range(0, n) where i < j
                && Model.Causes[i].Group != Model.Causes[j].Group select (i, j)];
            double pairWeights = pairs.Sum(p => Model.Causes[p.I].Weight * Model.Causes[p.J].Weight);
            double two = pairs.Length == 0 ? 0 : Model.TwoAtOnce;
            for (int i = 0; i < n; i++)
            {
                present[i] += (1 - two - Model.SomethingElse) * Model.Causes[i].Weight / weights * Says(i) * All([i]);
            }

            foreach ((int i, int j) in pairs)
            {
                double joint = two * Model.Causes[i].Weight * Model.Causes[j].Weight / pairWeights * (
                    (Says(i) + Says(j)) / 2) * All([i, j]);
                present[i] += joint;
                present[j] += joint;
            }

            present[n] = Model.SomethingElse * 0.5 * trace.Answers.Aggregate(1.0, (product, a) =>
            {
                TraceStep step = Model.StepNamed(a.Step)!;
                double plain = (0.5 * step.AnswerNamed(a.Answer!)!.Usual) + (0.5 / step.Answers.Count);
                return product * (((1 - Model.WrongAnswers) * plain) + (Model.WrongAnswers / step.Answers.Count));
            });
            double sum = present.Sum() - pairs.Sum(p =>
                two * Model.Causes[p.I].Weight * Model.Causes[p.J].Weight / pairWeights * ((Says(p.I) + Says(p.J)) / 2) * All([p.I, p.J]));
            return [.. present.Select(p => p / sum)];

            double Says(int c) => Model.Causes[c].Complaints[0].Share;

            double All(int[] causes) =>
                trace.Answers.Aggregate(1.0, (product, a) => product * Answered(Model.StepNamed(a.Step)!, a.Answer!, causes));
        }

        private double Answered(TraceStep step, string answer, int[] causes)
        {
            double[][] touching = [.. causes.Select(c => Model.Causes[c].Shows.FirstOrDefault(s => s.Step == step.Name)).OfType<Shown>()
                .Select(s => s.Answers.Select(o => o.Share).ToArray())];
            int n = step.Answers.Count, said = step.Answers.TakeWhile(a => a.Name != answer).Count();
            double sum = 0;
            foreach ((int shown, double p) in Ways(touching, [.. step.Answers.Select(a => a.Usual)]))
            {
                for (int slip = -1; slip < n; slip++)
                {
                    // -1: no slip; else the slip gives any answer, the right one too.
                    double chance = slip < 0 ? 1 - Model.WrongAnswers : Model.WrongAnswers / n;
                    sum += (slip < 0 ? shown : slip) == said ? p * chance : 0;
                }
            }

            return sum;
        }

        private static IEnumerable<(int Shown, double P)> Ways(double[][] touching, double[] usual) => touching.Length switch
        {
            0 => usual.Select((p, k) => (k, p)),
            1 => touching[0].Select((p, k) => (k, p)),
            _ => from a in Enumerable.Range(0, usual.Length) from b in Enumerable.Range(0, usual.Length) select (
                Math.Max(a, b), touching[0][a] * touching[1][b]),
        };

        private double Draw() => well[at++ % well.Length];

        private double[] Shares(int n)
        {
            double[] raw = [.. Enumerable.Range(0, n).Select(_ => Draw())];
            return [.. raw.Select(r => r / raw.Sum())];
        }
    }
}
