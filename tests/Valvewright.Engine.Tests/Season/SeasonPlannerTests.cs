using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Tests.Proof;
using Valvewright.Engine.Tests.Weather;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Season;

/// <summary>Dates and percents of a year's visits (docs/season.md), on real weather.</summary>
public sealed partial class SeasonPlannerTests
{
    private static readonly Lazy<Climate[]> Maricopa = new(() => Years(ReferenceRecord.Maricopa(), 3));

    private static readonly Lazy<Climate[]> Zurich = new(() => Years(ReferenceRecord.Zurich(), 4));

    private static Climate[] Years(WeatherRecord record, int count)
    {
        Climate climate = ClimateBuilder.Build(record).Climate;
        return [.. YearSplit.Of(climate, record.Place.LatitudeDeg).Training.TakeLast(count).Select(y => y.Of(climate))];
    }

    /// <summary>One or more controllers, each with a lawn of three spots, watered every third day; percents in steps of 25.</summary>
    private static (Site Site, Plan Plan) Green(int percentStep, params string[] controllers)
    {
        Profile profile = Sites.Profile with { Percent = new PercentRange(percentStep, 100, percentStep) };
        Site site = Sites.Site(controllers)
            .With(c => c with { Profile = profile, Zones = [c.Zones[0]] })
            .WithZones(z => z with { Emission = z.Emission with { Spots = new SpotShares([0.8, 1.0, 1.2], [0.25, 0.5, 0.25], "by hand") } });
        Settings settings = new([new Program('A', [new LocalTime(3, 0), new LocalTime(5, 0)], [new RunTime(1, 4500)], new EveryNDays(3, new LocalDate(2000, 1, 1)))]);
        return (site, new Plan(site.Name, controllers.Select(c => new ControllerPlan(c, settings, [])).ToListOf()));
    }

    [Theory]
    [InlineData("Maricopa", 60)]
    [InlineData("Zurich", 150)]
    public void Trying_every_season_of_two_visits_finds_none_better(string record, double stressWeightMm)
    {
        Climate[] years = record == "Maricopa" ? Maricopa.Value : Zurich.Value;
        (Site site, Plan plan) = Green(25, "only");
        SeasonOptions options = new() { Visits = 2, StressWeightMm = stressWeightMm, OnlyFirstWeekOfMonth = true };
        SeasonPlan found = SeasonPlanner.Of(site, plan, years, options);

        double best = double.PositiveInfinity;
        VisitDays days = VisitDays.Of(options, south: false);
        int[] percents = [0, 25, 50, 75, 100];
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

                foreach (int a in percents)
                {
                    foreach (int b in percents)
                    {
                        Visit[] visits = [new Visit(dates[0], a), new Visit(dates[1], b)];
                        best = Math.Min(best, years.Average(y => CostByHand(site, plan, y, stressWeightMm, visits)));
                    }
                }
            }
        }

        Assert.InRange(found.CostLitres, best * (1 - 1e-9), best * (1 + 1e-9));
        Assert.True(found.BoundLitres <= best * (1 + 1e-9));
    }

    [Fact]
    public void More_visits_never_cost_more_and_no_season_goes_below_its_bound()
    {
        (Site site, Plan plan) = Green(10, "east", "west");
        ListOf<SeasonPlan> curve = SeasonPlanner.Curve(site, plan, Maricopa.Value, new SeasonOptions(), [.. Enumerable.Range(1, 6)]);
        for (int i = 0; i < curve.Count; i++)
        {
            Assert.Equal(i + 1, curve[i].Dates.Count);
            Assert.True(curve[i].Gap >= -1e-9);
            Assert.True(i == 0 || curve[i].CostLitres <= curve[i - 1].CostLitres * (1 + 1e-12));
        }
    }

    [Fact]
    public void The_number_of_threads_changes_nothing()
    {
        (Site site, Plan plan) = Green(10, "east", "west");
        SeasonPlan one = SeasonPlanner.Of(site, plan, Maricopa.Value, new SeasonOptions { Threads = 1 });
        SeasonPlan four = SeasonPlanner.Of(site, plan, Maricopa.Value, new SeasonOptions { Threads = 4 });
        Assert.Equal(one, four with { Options = one.Options });
    }

    [Fact]
    public void A_replay_of_the_keyed_in_programs_uses_the_water_that_the_season_says()
    {
        (Site site, Plan plan) = Green(5, "only");
        SeasonPlan season = SeasonPlanner.Of(site, plan, Maricopa.Value, new SeasonOptions());
        ProofReport proof = Proofs.Replay(site, season.ApplyTo(plan), Maricopa.Value, new ProofOptions(Sites.From, Maricopa.Value));
        Assert.Equal(season.WaterM3, proof.Comparison[0].CubicMetresPerYear, 0.005 * season.WaterM3);
        Assert.Equal(season.LeastM3, proof.Comparison[0].LeastCubicMetresPerYear, 9);
    }

    [Fact]
    public void Stress_is_kept_within_what_is_borne()
    {
        (Site site, Plan plan) = Green(5, "only");
        SeasonPlan loose = SeasonPlanner.Of(site, plan, Maricopa.Value, new SeasonOptions { MostStressDays = 5 });
        SeasonPlan tight = SeasonPlanner.Of(site, plan, Maricopa.Value, new SeasonOptions { MostStressDays = 1 });
        Assert.InRange(loose.StressDays, 0, 5);
        Assert.InRange(tight.StressDays, 0, 1);
        Assert.True(tight.WaterM3 > loose.WaterM3);
    }

    [Fact]
    public void Within_a_limit_of_stress_every_season_of_two_visits_uses_more_water_than_the_bound_and_none_less_than_the_one_found()
    {
        (Site site, Plan plan) = Green(20, "only");
        Climate[] years = [.. Maricopa.Value.Take(2)];
        PeriodOfYear[] not = [new(new AnnualDate(6, 1), new AnnualDate(9, 30)), new(new AnnualDate(12, 1), new AnnualDate(1, 31))];
        SeasonOptions options = new() { Visits = 2, MostStressDays = 12, OnlyFirstWeekOfMonth = true, NotIn = [.. not] };
        SeasonPlan found = SeasonPlanner.Of(site, plan, years, options);
        Assert.InRange(found.StressDays, 0, 12);

        double least = double.PositiveInfinity;
        VisitDays days = VisitDays.Of(options, south: false);
        double area = site.Controllers[0].Zones[0].AreaM2;
        for (int first = 0; first < days.Count; first++)
        {
            for (int second = first + 1; second < days.Count; second++)
            {
                AnnualDate[] dates = [days.DateOf(first), days.DateOf(second)];
                if (Period.DaysBetween(dates[0].InYear(2001), dates[1].InYear(2001)) < options.LeastDaysBetween)
                {
                    continue;
                }

                for (int percents = 0; percents < 36; percents++)
                {
                    Visit[] visits = [new Visit(dates[0], 20 * (percents / 6)), new Visit(dates[1], 20 * (percents % 6))];

                    // At a weight of 0 the cost is the water; the rest of the cost at a weight of 1 is the stress.
                    double water = years.Average(y => CostByHand(site, plan, y, 0, visits)), stress = (years.Average(y => CostByHand(site, plan, y, 1, visits)) - water) / area;
                    least = stress <= 12 ? Math.Min(least, water / 1000) : least;
                }
            }
        }

        Assert.InRange(found.WaterM3, least * (1 - 1e-9), least * (1 + 1e-9));
        Assert.InRange(found.LeastWithinStressM3!.Value, 0, least * (1 + 1e-9));
    }

    [Fact]
    public void Within_the_water_there_is_stress_is_least_and_water_to_spare_is_spent_on_harder_years()
    {
        (Site site, Plan plan) = Green(5, "only");
        SeasonPlan free = SeasonPlanner.Of(site, plan, Zurich.Value, new SeasonOptions());
        SeasonPlan scarce = SeasonPlanner.Of(site, plan, Zurich.Value, new SeasonOptions { MostWaterM3 = 0.8 * free.WaterM3 });
        SeasonPlan less = SeasonPlanner.Of(site, plan, Zurich.Value, new SeasonOptions { MostWaterM3 = 0.6 * free.WaterM3 });
        Assert.True(scarce.WaterM3 <= 0.8 * free.WaterM3);
        Assert.True(less.StressDays > scarce.StressDays && scarce.StressDays > free.StressDays);
        Assert.InRange(scarce.LeastStressDaysWithinWater!.Value, 0, scarce.StressDays + 1e-9);

        // No stress is to be had for less; what is left goes to years that ask more.
        SeasonPlan calm = SeasonPlanner.Of(site, plan, Zurich.Value, new SeasonOptions { MostStressDays = 0.001 });
        SeasonPlan plenty = SeasonPlanner.Of(site, plan, Zurich.Value, new SeasonOptions { MostWaterM3 = 1.6 * calm.WaterM3 });
        Assert.InRange(plenty.StressDays, 0, 0.005);
        Assert.InRange(plenty.WaterM3, calm.WaterM3 * 1.02, calm.WaterM3 * 1.6);
    }

    [Fact]
    public void A_limit_for_years_not_seen_is_no_looser_than_one_for_the_years_known()
    {
        (Site site, Plan plan) = Green(5, "only");
        SeasonPlan known = SeasonPlanner.Of(site, plan, Zurich.Value, new SeasonOptions { MostStressDays = 2 });
        SeasonPlan unseen = SeasonPlanner.Of(site, plan, Zurich.Value, new SeasonOptions { MostStressDays = 2, StressOfUnseenYears = true });
        Assert.Null(known.UnseenStressDays);
        Assert.True(unseen.UnseenStressDays >= unseen.StressDays);
        Assert.True(unseen.StressDays <= known.StressDays + 1e-9);
        Assert.True(unseen.WaterM3 >= known.WaterM3);
        Assert.Equal(2, unseen.Options.MostStressDays);
        Assert.Equal(known.LeastWithinStressM3, unseen.LeastWithinStressM3);
    }

    [Fact]
    public void For_the_worst_year_a_season_costs_less_in_the_worst_year()
    {
        (Site site, Plan plan) = Green(10, "only");
        double Worst(SeasonAim aim)
        {
            SeasonPlan season = SeasonPlanner.Curve(site, plan, Zurich.Value, new SeasonOptions { Aim = aim }, [4])[0];
            Visit[] v = [.. season.Dates.Select((d, i) => new Visit(d, season.Controllers[0].Percents[i]))];
            return Zurich.Value.Max(y => CostByHand(site, plan, y, SeasonOptions.UsualStressWeightMm, v));
        }

        Assert.True(Worst(SeasonAim.WorstYear) <= Worst(SeasonAim.MeanYear) * (1 + 1e-9));
    }

    /// <summary>Cost of a year straight from the scalar balance: no part of the search is in it.</summary>
    private static double CostByHand(Site site, Plan plan, Climate year, double stressWeightMm, Visit[] visits)
    {
        Zone zone = site.Controllers[0].Zones[0];
        Profile profile = site.Controllers[0].Profile;
        Program program = plan.Controllers[0].Settings.Programs[0];
        double[] applied = new double[year.Days];
        for (int day = 0; day < year.Days; day++)
        {
            LocalDate date = year.DateOf(day);
            AnnualDate annual = new(date.Month, date.Day);
            int percent = visits.LastOrDefault(v => v.Date <= annual)?.Percent ?? visits[^1].Percent;
            applied[day] = program.Days!.WatersOn(date, profile) ? 2 * Emulator.PercentOf(4500, percent, profile.Rounding) / 3600.0 * zone.Emission.PrecipitationRateMmPerHour : 0;
        }

        ZoneOutcome outcome = ZoneReplay.Run(zone, year, applied, []);
        return zone.AreaM2 * (outcome.AppliedMm + stressWeightMm * outcome.StressDays);
    }
}
