using System.Diagnostics;
using System.Globalization;
using NodaTime;
using Valvewright.Engine.Faults;
using Valvewright.Engine.Faults.Reasoning;
using Valvewright.Files.Faults;
using Valvewright.Tests.Faults;

namespace Valvewright.Bench;

/// <summary>
/// Traces of simulated cases: share diagnosed and minutes, beside a fixed checklist and the exhaustive order on the same cases with the
/// same end; and the time to the next question. Arguments: cases from the model (10000), cases from perturbed models (2000).
/// </summary>
internal static class TraceBenchmark
{
    private const int Seed = 20261127;
    private const int CasesPerWorld = 50;

    public static int Run(string[] arguments)
    {
        int plain = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 10_000;
        int perturbed = arguments.Length > 1 ? int.Parse(arguments[1], CultureInfo.InvariantCulture) : 2_000;
        Questions();
        Play("cases of the model", plain, 1, FaultModelFiles.Shipped.WrongAnswers, Seed);
        Play("perturbed up to 3 times, 5 % wrong", perturbed, 3, 0.05, Seed + 1);
        return 0;
    }

    private static void Play(string what, int cases, double factor, double wrong, int seed)
    {
        Random random = new(seed);
        FaultModel model = FaultModelFiles.Shipped;
        (string Name, Tally Tally, Func<Procedures, SimulatedCase, CaseRun> Run)[] procedures =
        [
            ("trace", new Tally(), (p, c) => p.Chosen(c)), ("checklist", new Tally(), (p, c) => p.Checklist(c)),
            ("checklist with sense", new Tally(), (p, c) => p.ChecklistWithSense(c)),
                ("exhaustive", new Tally(), (p, c) => p.Exhaustive(c)),
        ];
        AnswerTables[] known = [.. SimulatedSites.All.Select(f => new AnswerTables(model, f))];
        Procedures[] own = [.. known.Select(t => new Procedures(t))];
        for (int i = 0; i < cases; i += CasesPerWorld)
        {
            int site = i / CasesPerWorld % known.Length;
            AnswerTables truth = factor > 1
                ? new AnswerTables(PerturbedModel.Of(model, random, factor), SimulatedSites.All[site]) : known[site];
            SimulatedCase[] played = [.. Enumerable.Range(0, CasesPerWorld).Select(_ => new SimulatedCase(truth, random, wrong))];
            foreach ((_, Tally tally, Func<Procedures, SimulatedCase, CaseRun> run) in procedures)
            {
                foreach (SimulatedCase one in played)
                {
                    tally.Add(run(own[site], one), one);
                }
            }
        }

        Console.WriteLine($"{what}: {cases} cases, seed {seed}");
        foreach ((string name, Tally tally, _) in procedures)
        {
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"  {name,-21} right {100 * tally.Right:0.0} %, all causes named {100 * tally.Whole:0.0} %, {tally.Minutes:0.0} min, {tally.Steps:0.0} steps; minutes beside the checklist {tally.Minutes / procedures[1].Tally.Minutes:0.00}"));
        }
    }

    /// <summary>The time from an answer to the next question, over traces that are answered at random.</summary>
    private static void Questions()
    {
        FaultModel model = FaultModelFiles.Shipped;
        TraceFacts facts = SimulatedSites.All[^1];
        long start = Stopwatch.GetTimestamp();
        Tracer tracer = new(model, facts);
        Console.WriteLine(
            $"tables of {model.Causes.Count} causes and {model.Steps.Count} steps: {Stopwatch.GetElapsedTime(start).TotalMilliseconds:0} ms");
        List<double> milliseconds = [];
        Random random = new(Seed);
        for (int pass = 0; pass < 6; pass++)
        {
            foreach (Complaint complaint in model.Complaints)
            {
                TraceCase trace = new() { Site = "x", Controller = "x", Complaint = complaint.Name,
                    Began = new LocalDateTime(2026, 7, 1, 8, 0), Facts = facts };
                for (int steps = 0; steps < 12; steps++)
                {
                    start = Stopwatch.GetTimestamp();
                    TraceView view = tracer.Look(trace);
                    if (pass > 0)
                    {
                        milliseconds.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
                    }

                    if (view.Next is not { } next)
                    {
                        break;
                    }

                    trace = trace.With(new TraceAnswer(next.Step, next.Leads[random.Next(next.Leads.Count)].Answer));
                }
            }
        }

        milliseconds.Sort();
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"next question: median {milliseconds[milliseconds.Count / 2]:0.0} ms, 95 of 100 under {milliseconds[milliseconds.Count * 95 / 100]:0.0} ms, slowest {milliseconds[^1]:0.0} ms, of {milliseconds.Count}"));
    }
}
