using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Season;

namespace Valvewright.Planning.Tests.Season;

/// <summary>Dates and percents of a year's visits (docs/season.md).</summary>
public sealed class SeasonPlannerTests
{
    private static readonly ListOf<Climate> Years = TestSites.DryYears(3);

    /// <summary>One or more controllers, each with a lawn watered every third day.</summary>
    private static (Site Site, Plan Plan) Green(int percentStep, params string[] controllers)
    {
        Profile profile = TestSites.Profile() with { Percent = new PercentRange(percentStep, 100, percentStep) };
        Site site = TestSites
            .Site(100, TestSites.Night(), [.. controllers.Select(c => TestSites.Controller(c, profile, TestSites.Zone(1)))]);
        Settings settings = new(
            [new Program('A', [new LocalTime(3, 0), new LocalTime(5, 0)], [new RunTime(1, 4500)],
                new EveryNDays(3, new LocalDate(2000, 1, 1)))]);
        return (site, new Plan(site.Name, controllers.Select(c => new ControllerPlan(c, settings, [])).ToListOf()));
    }

    [Theory]
    [InlineData(4)]
    [InlineData(8)]
    public void Trying_every_season_of_two_visits_finds_none_better(double weight)
    {
        (Site site, Plan plan) = Green(25, "only");
        SeasonOptions options = new()
            { Visits = 2, Goal = new Goal.Weigh(weight), OnlyFirstWeekOfMonth = true, Prudence = 0, NotIn = [Winter, Summer] };
        SeasonPlan found = SeasonPlanner.Of(site, plan, Years, options);
        double best = double.PositiveInfinity;
        VisitDays days = VisitDays.Of(options, south: false);
        for (int first = 0; first < days.Count; first++)
        {
            for (int second = first + 1; second < days.Count; second++)
            {
                AnnualDate[] dates = [days.DateOf(first), days.DateOf(second)];
                int apart = Period.DaysBetween(dates[0].InYear(2001), dates[1].InYear(2001));
                if (apart < options.LeastDaysBetween || 365 - apart < options.LeastDaysBetween)
                {
                    continue;
                }

                foreach (int a in (int[])[0, 25, 50, 75, 100])
                {
                    foreach (int b in (int[])[0, 25, 50, 75, 100])
                    {
                        (double cost, double met) = ByHand(site, plan, weight, [new Visit(dates[0], a), new Visit(dates[1], b)]);
                        best = met >= 0.91 ? Math.Min(best, cost) : best;
                    }
                }
            }
        }

        Assert.InRange(found.CostLitres, best * (1 - 1e-9), best * (1 + 1e-9));
        Assert.True(found.BoundLitres <= best * (1 + 1e-9));
    }

    private static PeriodOfYear Winter => new(new AnnualDate(12, 1), new AnnualDate(1, 31));

    private static PeriodOfYear Summer => new(new AnnualDate(6, 1), new AnnualDate(8, 31));

    [Fact]
    public void More_visits_never_cost_more_and_no_season_goes_below_its_bound()
    {
        (Site site, Plan plan) = Green(10, "east", "west");
        ListOf<SeasonPlan> curve = SeasonPlanner.Curve(site, plan, Years, new SeasonOptions(), [.. Enumerable.Range(1, 5)]);
        for (int i = 0; i < curve.Count; i++)
        {
            Assert.Equal(i + 1, curve[i].Dates.Count);
            Assert.True(curve[i].Gap >= -1e-9, $"{i + 1} visits: gap {curve[i].Gap}");
            Assert.True(i == 0 || curve[i].CostLitres <= curve[i - 1].CostLitres * 1.002, $"{i + 1} visits cost more than {i}");
        }
    }

    [Fact]
    public void The_number_of_threads_changes_nothing()
    {
        (Site site, Plan plan) = Green(10, "east", "west");
        SeasonPlan one = SeasonPlanner.Of(site, plan, Years, new SeasonOptions { Threads = 1 });
        SeasonPlan four = SeasonPlanner.Of(site, plan, Years, new SeasonOptions { Threads = 4 });
        Assert.Equal(one, four with { Options = one.Options });
    }

    [Fact]
    public void A_replay_of_the_keyed_in_programs_uses_the_water_that_the_season_says()
    {
        (Site site, Plan plan) = Green(5, "only");
        SeasonPlan season = SeasonPlanner.Of(site, plan, Years, new SeasonOptions());
        ProofReport proof = Proofs.Replay(site, season.ApplyTo(plan), Years, new ProofOptions(new LocalDate(2026, 1, 1), Years));
        Assert.Equal(season.WaterM3, proof.Comparison[0].CubicMetresPerYear, 0.005 * season.WaterM3);
        Assert.Equal(season.UseMet, proof.Comparison[0].UseMet, 0.005);
        Assert.Equal(season.MinimumM3, proof.Comparison[0].MinimumCubicMetresPerYear, 1e-9);
    }

    [Fact]
    public void Limits_are_kept_and_cost_water_or_use()
    {
        (Site site, Plan plan) = Green(5, "only");
        SeasonPlan loose = SeasonPlanner.Of(site, plan, Years, new SeasonOptions { Goal = new Goal.UnmetWithin(0.12) });
        SeasonPlan tight = SeasonPlanner.Of(site, plan, Years, new SeasonOptions { Goal = new Goal.UnmetWithin(0.04) });
        Assert.True(loose.UseMet >= 0.88 && tight.UseMet >= 0.96);
        Assert.True(tight.WaterM3 > loose.WaterM3);
        SeasonPlan scarce = SeasonPlanner.Of(site, plan, Years, new SeasonOptions { Goal = new Goal.WaterWithin(0.7 * tight.WaterM3) });
        Assert.True(scarce.WaterM3 <= 0.7 * tight.WaterM3 && scarce.UseMet < tight.UseMet);
    }

    [Fact]
    public void A_visit_that_changes_nothing_at_a_controller_is_not_made_there()
    {
        SeasonPlan season = new()
        {
            Dates = [new AnnualDate(3, 1), new AnnualDate(6, 1), new AnnualDate(10, 1)],
            Controllers = [new ControllerSeason("only", [60, 60, 0])],
            CostLitres = 0, BoundLitres = null, WaterM3 = 0, MinimumM3 = 0, UseMet = 1, ShortLitres = 0, Options = new SeasonOptions(),
        };
        (_, Plan plan) = Green(10, "only");
        Assert.Equal([new Visit(new AnnualDate(3, 1), 60), new Visit(new AnnualDate(10, 1), 0)],
            season.ApplyTo(plan).Controllers[0].Visits);
    }

    [Fact]
    public void Wishes_that_cannot_be_met_are_said()
    {
        (Site site, Plan plan) = Green(10, "only");
        Assert.Throws<UnmetWishException>(() => SeasonPlanner.Of(site, plan, Years, new SeasonOptions { Visits = 13 }));
        Assert.Throws<UnmetWishException>(() =>
            SeasonPlanner.Of(site, plan, Years, new SeasonOptions { Visits = 1, Agreed = [new AnnualDate(3, 1), new AnnualDate(5, 1)] }));
        SeasonPlan agreed = SeasonPlanner
            .Of(site, plan, Years, new SeasonOptions { Visits = 3, Agreed = [new AnnualDate(5, 12)], NotIn = [Summer] });
        Assert.Contains(new AnnualDate(5, 12), agreed.Dates);
        Assert.DoesNotContain(agreed.Dates, d => Summer.Contains(d.InYear(2001)));
        SeasonPlan winter = SeasonPlanner
            .Of(site, plan, Years, new SeasonOptions { Visits = 4, Shutdown = new Shutdown(new AnnualDate(11, 15), new AnnualDate(3, 1)) });
        Assert.Equal(0, winter.Controllers[0].Percents[winter.Dates.ToList().IndexOf(new AnnualDate(11, 15))]);
    }

    /// <summary>Cost and use met, mean of the years, straight from the scalar balance: no part of the search is in it.</summary>
    private static (double Cost, double UseMet) ByHand(Site site, Plan plan, double weight, Visit[] visits)
    {
        Zone zone = site.Controllers[0].Zones[0];
        Profile profile = site.Controllers[0].Profile;
        Program program = plan.Controllers[0].Settings.Programs[0];
        double water = 0, unmet = 0, demand = 0;
        foreach (Climate year in Years)
        {
            double[] applied = new double[year.Days];
            for (int day = 0; day < year.Days; day++)
            {
                LocalDate date = year.DateOf(day);
                AnnualDate annual = new(date.Month, date.Day);
                int percent = visits.LastOrDefault(v => v.Date <= annual)?.Percent ?? visits[^1].Percent;
                applied[day] = program.Days!.WatersOn(date, profile)
                    ? 2 * Emulator.PercentOf(4500, percent, profile.Rounding) / 3600.0 * zone.Emission.PrecipitationRateMmPerHour
                    : 0;
            }

            ZoneOutcome outcome = ZoneReplay.Run(zone, year, applied, []);
            (water, unmet, demand) = (water + outcome.AppliedMm, unmet + outcome.UnmetMm, demand + outcome.DemandMm);
        }

        return (zone.AreaM2 * (water + (weight * unmet)) / Years.Count, 1 - (unmet / demand));
    }
}
