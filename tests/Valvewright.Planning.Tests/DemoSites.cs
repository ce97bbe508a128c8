using System.Diagnostics;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Surveys;
using Valvewright.Files.Texts;
using Valvewright.Tests;
using Xunit.Abstractions;

namespace Valvewright.Planning.Tests;

/// <summary>Every demo site on its own weather.</summary>
public sealed class DemoSites(ITestOutputHelper output)
{
    public static TheoryData<string> Names()
    {
        TheoryData<string> names = [];
        foreach (string folder in Directory.GetDirectories(Path.Combine(Checkout.Root, "demo")).Order(StringComparer.Ordinal))
        {
            names.Add(Path.GetFileName(folder));
        }

        return names;
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void A_demo_site_is_planned_or_explained(string name)
    {
        (Site site, YearSplit split, BuiltClimate built) = Load(name);
        ListOf<Climate> training = [.. split.Training.Select(y => y.Of(built.Climate))];
        Stopwatch watch = Stopwatch.StartNew();
        PlanResult result = Planner.Plan(site, training, progress: new Say(output, watch));
        output.WriteLine(
            $"{name}: {result.Report.Status}, {watch.Elapsed.TotalSeconds:0.0} s, effort {result.Report.EffortSeconds:0.00}, trials {result.Report.Programs}, gap {result.Report.Gap:0.000}");
        foreach (AimReached level in result.Report.Levels)
        {
            output.WriteLine($"  {level.Aim}: {level.Value:0.##} (bound {level.Bound:0.##}) {level.Unit}");
        }

        if (result.Plan is null)
        {
            Obstacle obstacle = Assert.Single(result.Obstacles);
            output.WriteLine(obstacle.What);
            Assert.True(Sentences.IsWorded(obstacle.What), obstacle.What.Pattern);
            Assert.NotEmpty(obstacle.Advice);
            Assert.Equal(obstacle.Advice.OrderBy(a => a.Size), obstacle.Advice);
            foreach (SiteChange change in obstacle.Advice)
            {
                output.WriteLine($"  {change.Size:0.0} {change.What}");
            }

            Site freed = obstacle.Advice[0].ApplyTo(site);
            PlanResult possible = Planner.Plan(freed, training);
            Assert.NotNull(possible.Plan);
            ProofReport kept = Proofs.Replay(freed, possible.Plan, [.. split.HeldBack.Select(y => y.Of(built.Climate))],
                new ProofOptions(built.Climate.Last.PlusDays(1), []));
            Assert.Empty(kept.Breaches);
            return;
        }

        // Few settings are the least of the aims: how few there could be is not always proven within the effort.
        Assert.All(result.Report.Levels.Where(l => l.Aim != "settings"), l => Assert.True(l.Gap <= 0.015, $"{l.Aim}: gap {l.Gap:0.000}"));

        foreach (var c in result.Plan.Controllers)
        {
            output.WriteLine($"  {c.Controller} {string.Join(" | ", c.Visits.Select(v => $"{v.Date} {v.Percent}"))}");
            foreach (var p in c.Settings.Programs)
            {
                output.WriteLine(
                    $"    {p.Letter} {p.Days} at {string.Join(' ', p.StartTimes)}: {string.Join(' ', p.RunTimes.Select(r => $"{r.Station}={r.Seconds / 60.0:0.#}"))}");
            }
        }

        foreach (ZoneChosen z in result.Report.Zones)
        {
            output.WriteLine(
                $"    {z.Controller}/{z.Station} {z.Zone}: {z.Program} {z.Cycles}x{z.RunSeconds / 60.0:0.#} min, use met {100 * z.UseMet:0} %, {z.LitresPerYear:0} L (least {z.LeastLitresPerYear:0})");
        }

        ProofReport proof = Proofs.Replay(
            site, result.Plan, [.. split.HeldBack.Select(y => y.Of(built.Climate))], new ProofOptions(built.Climate.Last.PlusDays(1), []));
        output.WriteLine(string.Join('\n', proof.Breaches.Select(b => b.ToString())));
        output.WriteLine(string.Join('\n', proof.Verdict.Reasons));
        Assert.Empty(proof.Breaches);
        output.WriteLine(string.Join('\n', KeyedByHand.Objections(site, result.Plan)));

        // Where the early hours cannot hold all overhead water, the least outside them is proven above.
        AimReached outside = result.Report.Levels.Single(l => l.Aim.StartsWith("overhead water outside", StringComparison.Ordinal));
        Assert.Empty(KeyedByHand.Objections(site, result.Plan)
            .Where(o => outside.Value == 0 || !o.Contains("sprinklers of station", StringComparison.Ordinal)));
    }

    internal static (Site Site, YearSplit Split, BuiltClimate Built) Load(string name)
    {
        SurveyReading reading = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", name));
        Assert.True(reading.IsRead, string.Join('\n', reading.Problems));
        Site site = reading.Site!;
        var weather = SiteWeather.Read(site);
        BuiltClimate built = ClimateBuilder.Build(weather.Record!);
        return (site, built.Split(site.Place.LatitudeDeg), built);
    }

    private sealed class Say(ITestOutputHelper output, Stopwatch watch) : IProgress<PlanProgress>
    {
        private readonly Lock gate = new();
        private double done;

        public void Report(PlanProgress value)
        {
            lock (gate)
            {
                output.WriteLine($"{watch.Elapsed.TotalSeconds:0.0} {100 * value.Done:0} % {value.Supply}: {value.Step}");
                Assert.InRange(value.Done, done, 1);
                done = value.Done;
            }
        }
    }
}
