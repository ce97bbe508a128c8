using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Surveys;
using Valvewright.Files.Texts;
using Valvewright.Tests;
using Xunit.Abstractions;

namespace Valvewright.Planning.Tests;

/// <summary>The demo site that cannot be done: every change that is advised, made to the survey, gives a plan that the proof
/// passes.</summary>
public sealed class AdviceTests(ITestOutputHelper output)
{
    private static readonly (Site Site, ListOf<Climate> Training, ListOf<Climate> HeldBack, BuiltClimate Built) Creek = Load();
    private static readonly PlanResult Stuck = Planner.Plan(Creek.Site, Creek.Training);

    [Fact]
    public void It_is_proven_that_there_is_no_plan_and_said_by_how_much()
    {
        Assert.Null(Stuck.Plan);
        Assert.Equal(PlanStatus.Impossible, Stuck.Report.Status);
        Obstacle obstacle = Assert.Single(Stuck.Obstacles);
        output.WriteLine(obstacle.What);
        Assert.Matches(@"short by at least \d+ minutes", obstacle.What.Text);
        Assert.True(Sentences.IsWorded(obstacle.What), obstacle.What.Pattern);
    }

    [Fact]
    public void What_frees_it_comes_smallest_first()
    {
        ListOf<SiteChange> advice = Assert.Single(Stuck.Obstacles).Advice;
        Assert.Equal(advice.OrderBy(a => a.Size), advice);
        Assert.Contains(advice, a => a is MoreHours);
        Assert.All(advice.OfType<MoreFlow>(), a => Assert.Matches("needed between .* and ", a.What));
    }

    [Fact]
    public void Every_change_gives_a_plan_that_breaks_no_rule()
    {
        foreach (SiteChange change in Assert.Single(Stuck.Obstacles).Advice)
        {
            Site freed = change.ApplyTo(Creek.Site);
            PlanResult result = Planner.Plan(freed, Creek.Training);
            output.WriteLine($"{change.Size:0.0} {change.What}: {result.Report.Status}, gap {result.Report.Gap:0.000}");
            Assert.NotNull(result.Plan);
            Assert.Empty(Proofs.Replay(
                freed, result.Plan, Creek.HeldBack, new ProofOptions(Creek.Built.Climate.Last.PlusDays(1), [])).Breaches);
        }
    }

    [Fact]
    public void Half_the_hours_advised_would_not_have_been_enough()
    {
        MoreHours more = Assert.Single(Assert.Single(Stuck.Obstacles).Advice.OfType<MoreHours>());
        Assert.Null(Planner.Plan((more with { Minutes = more.Minutes / 2 }).ApplyTo(Creek.Site), Creek.Training,
            new PlannerOptions { EffortSeconds = 1, MostProgramTrials = 3 }).Plan);
    }

    private static (Site Site, ListOf<Climate> Training, ListOf<Climate> HeldBack, BuiltClimate Built) Load()
    {
        Site site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "thin-creek")).Site!;
        BuiltClimate built = ClimateBuilder.Build(SiteWeather.Read(site).Record!);
        YearSplit split = built.Split(site.Place.LatitudeDeg);
        return (site, [.. split.Training.Select(y => y.Of(built.Climate))], [.. split.HeldBack.Select(y => y.Of(built.Climate))], built);
    }
}
