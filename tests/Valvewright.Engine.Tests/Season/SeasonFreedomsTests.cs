using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Keying;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Tests.Proof;
using Valvewright.Engine.Tests.Weather;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Season;

/// <summary>What visits may do beside setting a percent up to 100: change programs, go above 100, shut down for the winter (docs/season.md).</summary>
public sealed class SeasonFreedomsTests
{
    private static readonly LocalDate Anchor = new(2000, 1, 1);

    private static readonly Lazy<Climate[]> Zurich = new(() => Years(ReferenceRecord.Zurich()));

    private static readonly Lazy<Climate[]> Maricopa = new(() => Years(ReferenceRecord.Maricopa()));

    private static Climate[] Years(WeatherRecord record)
    {
        Climate climate = ClimateBuilder.Build(record).Climate;
        return [.. YearSplit.Of(climate, record.Place.LatitudeDeg).Training.TakeLast(3).Select(y => y.Of(climate))];
    }

    /// <summary>A thirsty lawn on program A and deep shrubs on B: a percent that suits one does not suit the other.</summary>
    private static (Site Site, Plan Plan) Mixed(PercentRange percents, int largestInterval = 14)
    {
        Site site = Sites.Site("only").With(c => c with
        {
            Profile = Sites.Profile with { Percent = percents, LargestIntervalDays = largestInterval },
            Zones = [c.Zones[0], c.Zones[1] with { Planting = c.Zones[1].Planting with { CoefficientByMonth = [.. Enumerable.Repeat(0.5, 12)], RootDepthM = 0.6 } }],
        });
        Settings settings = new(
        [
            new Program('A', [new LocalTime(3, 0)], [new RunTime(1, 3600)], new EveryNDays(2, Anchor)),
            new Program('B', [new LocalTime(5, 0)], [new RunTime(2, 5400)], new EveryNDays(6, Anchor)),
        ]);
        return (site, new Plan(site.Name, [new ControllerPlan("only", settings, [])]));
    }

    [Fact]
    public void Trying_every_season_of_two_visits_with_every_change_of_programs_finds_none_better()
    {
        (Site site, Plan plan) = Mixed(new PercentRange(50, 100, 50));
        Climate[] years = [.. Maricopa.Value.Take(2)];
        PeriodOfYear[] shut = [new(new AnnualDate(2, 1), new AnnualDate(2, 28)), new(new AnnualDate(4, 1), new AnnualDate(4, 30)), new(new AnnualDate(7, 1), new AnnualDate(7, 31)), new(new AnnualDate(10, 1), new AnnualDate(12, 31))];
        SeasonOptions options = new() { Visits = 2, OnlyFirstWeekOfMonth = true, NotIn = [.. shut], ProgramChanges = true, SettingWorthLitres = 20 };
        SeasonPlan found = SeasonPlanner.Of(site, plan, years, options);

        // Programs do not touch each other: each is tried on the scalar balance by itself, with every percent and variant.
        Program[][] variants = [.. plan.Controllers[0].Settings.Programs.Select(p => (Program[])[p, With(p, 2), With(p, 3), p with { StartTimes = [] }])];
        VisitDays days = VisitDays.Of(options, south: false);
        double best = double.PositiveInfinity;
        int[] percents = [0, 50, 100];
        for (int first = 0; first < days.Count; first++)
        {
            for (int second = first + 1; second < days.Count; second++)
            {
                AnnualDate[] dates = [days.DateOf(first), days.DateOf(second)];
                int apart = Period.DaysBetween(dates[0].InYear(2001), dates[1].InYear(2001));
                if (apart >= options.LeastDaysBetween && 365 - apart >= options.LeastDaysBetween)
                {
                    double[] ofB = [.. Pairs(percents).Select(p => BestVariants(site, variants[1], 1, years, dates, p, options))];
                    best = Math.Min(best, Pairs(percents).Select((p, i) => ofB[i] + BestVariants(site, variants[0], 0, years, dates, p, options)).Min());
                }
            }
        }

        Assert.InRange(found.CostLitres, best * (1 - 1e-9), best * (1 + 1e-9));
        Assert.True(found.BoundLitres <= best * (1 + 1e-9));
        Assert.True(found.KeyedSettings > 0, Json.Write(found));
        Assert.True(found.CostLitres < found.PercentsAlone!.CostLitres);
    }

    private static Program With(Program program, int oneIn) => program with { Days = new EveryNDays(((EveryNDays)program.Days!).Days * oneIn, Anchor) };

    private static IEnumerable<(int First, int Second)> Pairs(int[] percents) => percents.SelectMany(a => percents.Select(b => (a, b)));

    private static double BestVariants(Site site, Program[] variants, int zone, Climate[] years, AnnualDate[] dates, (int First, int Second) percents, SeasonOptions options)
    {
        double best = double.PositiveInfinity;
        foreach (Program a in variants)
        {
            foreach (Program b in variants)
            {
                int keys = ProgramChange.Between([a], [b]).Sum(c => c.Settings) + ProgramChange.Between([b], [a]).Sum(c => c.Settings);
                double cost = (keys * options.SettingWorthLitres) + years.Average(y => CostByHand(site, zone, y, dates, [(a, percents.First), (b, percents.Second)], options.StressWeightMm));
                best = Math.Min(best, cost);
            }
        }

        return best;
    }

    private static double CostByHand(Site site, int index, Climate year, AnnualDate[] dates, (Program Program, int Percent)[] left, double stressWeightMm)
    {
        Zone zone = site.Controllers[0].Zones[index];
        Profile profile = site.Controllers[0].Profile;
        double[] applied = new double[year.Days];
        for (int day = 0; day < year.Days; day++)
        {
            LocalDate date = year.DateOf(day);
            AnnualDate annual = new(date.Month, date.Day);
            (Program program, int percent) = left[annual >= dates[0] && annual < dates[1] ? 0 : 1];
            int seconds = Emulator.PercentOf(program.RunTimes[0].Seconds, percent, profile.Rounding) * program.StartTimes.Count;
            applied[day] = program.Days!.WatersOn(date, profile) ? seconds / 3600.0 * zone.Emission.PrecipitationRateMmPerHour : 0;
        }

        ZoneOutcome outcome = ZoneReplay.Run(zone, year, applied, []);
        return zone.AreaM2 * (outcome.AppliedMm + (stressWeightMm * outcome.StressDays));
    }

    [Fact]
    public void Changes_are_replayed_by_the_proof_break_no_rule_and_do_not_depend_on_threads()
    {
        (Site site, Plan plan) = Mixed(new PercentRange(10, 100, 10));
        SeasonOptions options = new() { Visits = 4, ProgramChanges = true, SettingWorthLitres = 50, Threads = 1 };
        SeasonPlan season = SeasonPlanner.Of(site, plan, Maricopa.Value, options);
        Plan visited = season.ApplyTo(plan);
        Assert.True(visited.Controllers[0].ChangesPrograms);
        Assert.Equal(season.KeyedSettings, ProgramChange.ByVisit(visited.Controllers[0]).Sum(v => v.Sum(c => c.Settings)));
        ProofReport proof = Proofs.Replay(site, visited, Maricopa.Value, new ProofOptions(Sites.From, Maricopa.Value));
        Assert.Empty(proof.Breaches);
        Assert.Equal(season.WaterM3, proof.Comparison[0].CubicMetresPerYear, 0.005 * season.WaterM3);
        Assert.Equal(season.StressDays, proof.Comparison[0].StressDays, 0.05);
        Assert.Equal(season, SeasonPlanner.Of(site, plan, Maricopa.Value, options with { Threads = 4 }) with { Options = season.Options });
        Assert.Equal(season, Json.Read<SeasonPlan>(Json.Write(season)));
    }

    [Fact]
    public void A_change_must_be_worth_its_keys()
    {
        (Site site, Plan plan) = Mixed(new PercentRange(10, 100, 10));
        SeasonPlan dear = SeasonPlanner.Of(site, plan, Maricopa.Value, new SeasonOptions { Visits = 2, ProgramChanges = true, SettingWorthLitres = 1e6 });
        Assert.Equal(0, dear.KeyedSettings);
        Assert.Null(dear.PercentsAlone);
        Assert.False(dear.ApplyTo(plan).Controllers[0].ChangesPrograms);
    }

    [Fact]
    public void Within_a_limit_changes_of_programs_are_never_worse_than_percents_alone()
    {
        (Site site, Plan plan) = Mixed(new PercentRange(10, 100, 10));
        SeasonPlan Of(SeasonOptions options) => SeasonPlanner.Of(site, plan, Maricopa.Value, options);
        SeasonPlan free = Of(new SeasonOptions { Visits = 3 });
        foreach (double settingWorth in (double[])[1, SeasonOptions.UsualSettingWorthLitres, 1e6])
        {
            SeasonOptions scarce = new() { Visits = 3, MostWaterM3 = 0.8 * free.WaterM3, SettingWorthLitres = settingWorth };
            SeasonPlan alone = Of(scarce), changing = Of(scarce with { ProgramChanges = true });
            Assert.True(alone.StressDays > 0.1);
            Assert.InRange(changing.WaterM3, 0, 0.8 * free.WaterM3 * (1 + 1e-9));
            Assert.InRange(changing.StressDays, changing.LeastStressDaysWithinWater!.Value - 1e-9, alone.StressDays + 0.01);
            Assert.True(changing.BoundLitres <= changing.CostLitres * (1 + 1e-9));
        }
    }

    [Fact]
    public void The_winter_shutdown_is_kept_and_its_two_visits_count()
    {
        (Site site, Plan plan) = Mixed(new PercentRange(10, 100, 10));
        Shutdown winter = new(new AnnualDate(11, 15), new AnnualDate(3, 1));
        SeasonPlan season = SeasonPlanner.Of(site, plan, Zurich.Value, new SeasonOptions { Visits = 3, Shutdown = winter });
        Assert.Equal([new AnnualDate(3, 1), new AnnualDate(11, 15)], [season.Dates[0], season.Dates[2]]);
        Assert.Equal(0, season.Controllers[0].Percents[2]);
        Assert.True(season.Controllers[0].Percents[0] > 0 || season.Controllers[0].Percents[1] > 0);

        // A shutdown in a dry summer hurts, and is kept all the same.
        Shutdown summer = new(new AnnualDate(6, 3), new AnnualDate(8, 2));
        SeasonPlan dry = SeasonPlanner.Of(site, plan, Zurich.Value, new SeasonOptions { Visits = 4, Shutdown = summer, ProgramChanges = true, NearBound = true });
        Assert.Equal(0, dry.Controllers[0].Percents[dry.Dates.ToList().IndexOf(summer.Off)]);
        Assert.Equal(dry.Dates.ToList().IndexOf(summer.Off) + 1, dry.Dates.ToList().IndexOf(summer.On));
        Assert.True(dry.BoundLitres <= dry.CostLitres * (1 + 1e-9));
        Assert.True(dry.StressDays > SeasonPlanner.Of(site, plan, Zurich.Value, new SeasonOptions { Visits = 4 }).StressDays);
    }

    [Fact]
    public void A_shutdown_that_cannot_be_is_said_plainly()
    {
        Shutdown winter = new(new AnnualDate(11, 15), new AnnualDate(3, 1));
        string Why(SeasonOptions options) => Assert.ThrowsAny<ArgumentException>(() => VisitDays.Of(options, south: false)).Message;
        Assert.Contains("only 1 is to be made", Why(new SeasonOptions { Visits = 1, Shutdown = winter }), StringComparison.Ordinal);
        Assert.Contains("10 January", Why(new SeasonOptions { Shutdown = winter, Agreed = [new AnnualDate(1, 10)] }), StringComparison.Ordinal);
        Assert.Contains("lasts 5 days", Why(new SeasonOptions { Shutdown = new Shutdown(new AnnualDate(11, 15), new AnnualDate(11, 20)) }), StringComparison.Ordinal);
        Assert.All(Enumerable.Range(0, VisitDays.Of(new SeasonOptions { Shutdown = winter }, south: false).Count), i =>
        {
            AnnualDate day = VisitDays.Of(new SeasonOptions { Shutdown = winter }, south: false).DateOf(i);
            Assert.True(day >= winter.On && day <= winter.Off);
        });
    }

    [Fact]
    public void Percents_go_above_100_where_every_rule_holds_and_only_there()
    {
        // A third of an hour every second day is far too little for the lawn: more than 100 % is wanted.
        (Site site, Plan plan) = Mixed(new PercentRange(10, 200, 10));
        Settings scarce = new([plan.Controllers[0].Settings.Programs[0] with { RunTimes = [new RunTime(1, 1200)] }]);
        plan = plan with { Controllers = [plan.Controllers[0] with { Settings = scarce }] };
        site = site.With(c => c with { Zones = [c.Zones[0]] });
        SeasonOptions options = new() { Visits = 2, AboveFull = true };
        SeasonPlan free = SeasonPlanner.Of(site, plan, Zurich.Value, options), full = SeasonPlanner.Of(site, plan, Zurich.Value, options with { AboveFull = false });
        Assert.True(free.Controllers[0].Percents.Max() > 100);
        Assert.Equal(100, full.Controllers[0].Percents.Max());
        Assert.True(free.CostLitres < full.CostLitres);
        Assert.Empty(Sites.Prove(site, free.ApplyTo(plan)).Breaches);

        // Hours that end at 03:26 bear 26 minutes: 130 % and no more, however dry it gets. (The clock is an hour behind in summer.)
        Site narrow = site.WithSupply(s => s with { Permitted = s.Permitted with { Hours = [new Engine.Supply.TimeWindow(new LocalTime(3, 0), new LocalTime(4, 26))] } });
        SeasonPlan held = SeasonPlanner.Of(narrow, plan, Zurich.Value, options);
        Assert.Equal(130, held.Controllers[0].Percents.Max());
        Assert.Empty(Sites.Prove(narrow, held.ApplyTo(plan)).Breaches);
    }
}
