using NodaTime;
using Valvewright.Engine.Checks;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof.Rules;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Surveys;
using Valvewright.Planning.Changes;
using Valvewright.Tests;
using Valvewright.Tests.Worsened;
using Xunit.Abstractions;

namespace Valvewright.Planning.Tests.Changes;

/// <summary>The best programs within few changed settings.</summary>
public sealed class ChangeSearchTests(ITestOutputHelper output)
{
    private static readonly LocalDate From = new(2026, 4, 1);

    private static (Site Site, ListOf<Climate> Training, Plan Plan) Demo(string name)
    {
        Site site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", name)).Site!;
        BuiltClimate built = ClimateBuilder.Build(SiteWeather.Read(site).Record!);
        ListOf<Climate> training = [.. built.Split(site.Place.LatitudeDeg).Training.Select(y => y.Of(built.Climate))];
        Plan plan = Planner.Plan(site, training, new PlannerOptions { InForceFrom = From, PercentOn = (_, _) => 100 }).Plan!;
        return (site, training, plan with { Controllers = plan.Controllers.Select(c => c with { Visits = [] }).ToListOf() });
    }

    [Fact]
    public void Two_changes_recover_most_of_what_a_plan_from_nothing_saves_and_break_no_rule()
    {
        (Site site, ListOf<Climate> training, Plan plan) = Demo("saguaro-lane");
        int cases = 0, recovered = 0;
        for (int seed = 1; seed <= 8; seed++)
        {
            Plan worse = WorsenedPrograms.Of(site, plan, seed, settings: 1 + (seed % 4));
            ProgramChanges found = ChangeSearch.Of(site, worse, plan, training, From, most: 2);
            foreach (ChangedPrograms step in found.Steps)
            {
                Assert.True(step.Changes.Count <= 2);
                Assert.True(step.CostLitres < found.Found.CostLitres || !found.Found.KeepsRules);
                Assert.Empty(SiteRules.Breaches(site, step.Plan, From, From.PlusYears(4).PlusDays(-1)));

                // What is to be keyed in leads from what was found to the programs, and is as much as is said.
                foreach (ControllerPlan own in step.Plan.Controllers)
                {
                    AsFound held = new AsFound(worse.For(own.Controller).Settings).After(step.Changes
                        .Where(c => c.Controller == own.Controller).Select(c => c.Change));
                    Assert.Empty(SettingChanges.Between(held.Settings, own.Settings));
                }
            }

            double saved = found.Found.CostLitres - found.Replanned!.CostLitres;
            if (saved > 0.02 * found.Replanned.CostLitres)
            {
                cases++;
                recovered += found.Within(2) is { } two && found.Found.CostLitres - two.CostLitres >= 0.9 * saved ? 1 : 0;
            }
        }

        output.WriteLine($"{recovered} of {cases} recover nine tenths with two changes");
        Assert.True(cases >= 4);
        Assert.True(2 * recovered >= cases, $"{recovered} of {cases}");
    }

    [Fact]
    public void More_changes_never_cost_more_and_the_same_input_gives_the_same_answer()
    {
        (Site site, ListOf<Climate> training, Plan plan) = Demo("saguaro-lane");
        Plan worse = WorsenedPrograms.Of(site, plan, seed: 11, settings: 4);
        ProgramChanges once = ChangeSearch.Of(site, worse, plan, training, From, most: 5),
            again = ChangeSearch.Of(site, worse, plan, training, From, most: 5);
        Assert.Equal(once.Steps, again.Steps);
        Assert.Equal(once.Steps.OrderBy(s => s.Changes.Count), once.Steps);
        Assert.Equal(once.Steps.OrderByDescending(s => s.CostLitres), once.Steps);
    }

    [Fact]
    public void One_wrong_run_time_is_put_right_with_one_change()
    {
        (Site site, ListOf<Climate> training, Plan plan) = Demo("saguaro-lane");
        ControllerPlan own = plan.Controllers[0];
        Program program = own.Settings.Programs[0];
        RunTime run = program.RunTimes[0];
        Plan worse = plan with
        {
            Controllers = plan.Controllers.Select((c, i) => i > 0 ? c : c with
            {
                Settings = c.Settings with { Programs = c.Settings.Programs
                    .Select((p, k) => k > 0 ? p
                    : p with { RunTimes = p.RunTimes.Select(r => r.Station == run.Station ? r with { Seconds = 60 } : r).ToListOf() })
                    .ToListOf() },
            }).ToListOf(),
        };
        ProgramChanges found = ChangeSearch.Of(site, worse, plan, training, From, most: 1);
        ControllerChange change = Assert.Single(found.Within(1)!.Changes);
        RunChange keyed = Assert.IsType<RunChange>(change.Change);
        Assert.Equal((own.Controller, program.Letter, run.Station), (change.Controller, keyed.Program, keyed.Station));
        Assert.True(found.Within(1)!.CostLitres <= found.Replanned!.CostLitres);
    }
}
