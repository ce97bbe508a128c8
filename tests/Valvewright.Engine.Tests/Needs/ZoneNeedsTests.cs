using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Tests.Balance;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Needs;

public sealed class ZoneNeedsTests
{
    /// <summary>4 mm a day out of 22.5 mm: five days end at 20 mm, a sixth would end at 24; with the watering day every 6 days.</summary>
    [Fact]
    public void The_longest_gap_is_the_days_that_the_readily_available_water_lasts_and_the_watering_day()
    {
        ZoneNeed need = Need(Zones.Make(), Constant(5, 2001, 3));
        Assert.Equal(7, need.LongestGapDays.Worst);
        Assert.Equal(22.5, need.ReadilyMm, 1e-9);
        Assert.Equal(4.0, need.PeakUseMm, 1e-9);
        Assert.Equal(PeriodOfYear.WholeYear, need.Season);
    }

    [Fact]
    public void The_longest_gap_holds_in_the_balance_and_one_day_more_does_not()
    {
        Zone zone = Zones.Make(rootDepthM: 0.45, allowed: 0.4);
        Climate climate = Seasonal(2001, 1, peakMonth: 7);
        ZoneNeed need = Need(zone, climate);
        int gap = (int)need.LongestGapDays.Worst;
        Assert.Equal(0, UnmetEvery(zone, climate, gap));
        Assert.True(UnmetEvery(zone, climate, gap + 1) > 0);
    }

    [Fact]
    public void Weeks_of_a_year_add_up_to_the_minimum_water()
    {
        Climate climate = Seasonal(2001, 1, peakMonth: 7);
        ZoneNeed need = Need(Zones.Make(), climate);
        Assert.Equal(52, need.Weeks.Count);
        Assert.Equal(MinimumWater.Of(Zones.Make(), climate).NetMm, need.Weeks.Sum(w => w.NetMm.Mean), 1e-9);
        Assert.Equal(climate.EtoMm.Sum() * 0.8, need.Weeks.Sum(w => w.UseMm.Mean), 1e-9);
    }

    /// <summary>Where the months before it are known, a year without a wet winter asks for water from its first week on.</summary>
    [Fact]
    public void A_desert_asks_for_water_from_the_first_week()
    {
        Climate record = Constant(5, 2000, 2);
        Climate year = new YearSpan(new LocalDate(2001, 1, 1), new LocalDate(2001, 12, 31)).Of(record);
        ZoneNeed need = Need(Zones.Make(), year);
        Assert.Equal(28, need.Weeks[0].NetMm.Mean, 1e-9);
        Assert.Equal(28, need.Weeks[50].NetMm.Mean, 1e-9);
    }

    [Fact]
    public void A_southern_season_runs_over_the_new_year()
    {
        ZoneNeed need = Need(Zones.Make(), Seasonal(2001, 7, peakMonth: 1));
        Assert.NotNull(need.Season);
        Assert.True(need.Season.RunsOverNewYear);
        Assert.True(need.Season.Contains(new LocalDate(2010, 1, 1)));
        Assert.False(need.Season.Contains(new LocalDate(2010, 7, 1)));
    }

    [Fact]
    public void Where_it_always_rains_enough_there_is_no_season()
    {
        Climate wet = new(new LocalDate(2001, 1, 1), [.. Enumerable.Repeat(1.0, 365)], [.. Enumerable.Repeat(2.0, 365)]);
        ZoneNeed need = Need(Zones.Make(), wet);
        Assert.Null(need.Season);
        Assert.Equal(0, need.LeastWaterMm.Worst);
    }

    /// <summary>3 cm of 150 mm/m, 30 % allowed: 1.35 mm; 4.8 mm a day ask for four waterings.</summary>
    [Fact]
    public void A_seedbed_is_watered_several_times_a_day()
    {
        Zone bed = Zones.Make(rootDepthM: 0.03, allowed: 0.3, stage: PlantStage.NewlySeeded);
        ZoneNeed need = Need(bed, Constant(6, 2001, 1));
        Assert.Equal(4, need.WateringsPerDay.Value);
        Assert.Equal(1, need.LongestGapDays.Worst);
    }

    /// <summary>Only the first weeks after sowing count for a seedbed, not the height of summer.</summary>
    [Fact]
    public void A_seedbed_sown_in_spring_is_judged_by_spring()
    {
        Zone bed = Zones.Make(rootDepthM: 0.03, allowed: 0.3, stage: PlantStage.NewlySeeded);
        Zone sown = bed with { Planting = bed.Planting with { Since = new LocalDate(2020, 3, 15) } };
        Climate climate = Seasonal(2001, 1, peakMonth: 7);
        Assert.True(Need(sown, climate).PeakUseMm.Value < Need(bed, climate).PeakUseMm.Value);
    }

    /// <summary>Clay on a slope, trade table: ASA 0.10 in, intake 0.10 in/h; SWAT protocol formula. Level intake at 4 %.</summary>
    [Fact]
    public void Clay_must_cycle_and_soak()
    {
        Zone clay = Zones.Make(intakeMmPerHour: 2.54) with { SlopePercent = 4 };
        clay = clay with { Soil = clay.Soil with { SurfaceStorageMm = 3.81 } };
        CycleAndSoak cycle = CycleAndSoak.Of(clay);
        Assert.Equal((int)(3600 * 3.81 / (12 - 2.54)), cycle.LongestCycleSeconds);
        Assert.InRange(cycle.SoakSeconds, 3600 * 1.49, 3600 * 1.5 + 1);
    }

    [Fact]
    public void A_rule_on_depth_can_be_shorter_than_the_soil()
    {
        Zone ruled = Zones.Make() with { LargestDepthPerCycleMm = 6, LargestDepthPerDayMm = 12 };
        Assert.Equal(1800, CycleAndSoak.Of(ruled).LongestCycleSeconds);
        Assert.Equal(3600, Need(ruled, Constant(5, 2001, 1)).LongestDaySeconds);
    }

    [Fact]
    public void Slow_sprinklers_on_open_soil_need_no_cycles()
    {
        CycleAndSoak cycle = CycleAndSoak.Of(Zones.Make(intakeMmPerHour: 15));
        Assert.Null(cycle.LongestCycleSeconds);
        Assert.Equal(0, cycle.SoakSeconds);
    }

    /// <summary>NC Cooperative Extension AG-553-1, 16 cans, worked by hand: mean 0.575 in, low quarter 55.2 %.</summary>
    [Fact]
    public void The_low_quarter_of_a_published_can_test()
    {
        double[] cans = [.57, .69, .83, .65, .61, .38, .27, .64, .51, .26, .36, .52, .79, .65, .61, .86];
        Assert.Equal(0.552, LowQuarter.UniformityOf(Zones.Make(shares: cans).Emission.Spots), 0.0006);
    }

    [Fact]
    public void A_need_is_a_plain_value()
    {
        ZoneNeed need = Need(Zones.Make(), Constant(5, 2001, 2));
        Assert.Equal(need, Json.Read<ZoneNeed>(Json.Write(need)));
    }

    private static double UnmetEvery(Zone zone, Climate climate, int gap)
    {
        // Enough on every watering day to fill the root zone, whichever day the count begins with.
        double most = 0;
        for (int offset = 0; offset < gap; offset++)
        {
            double[] water = [.. Enumerable.Range(0, climate.Days).Select(day => day % gap == offset ? 500.0 : 0)];
            most = Math.Max(most, ZoneReplay.Run(zone, climate, water, []).UnmetMm);
        }

        return most;
    }

    private static ZoneNeed Need(Zone zone, params Climate[] climates)
    {
        Profile profile = new() { Name = "1 station", Stations = 1, Programs = 1, StartTimesPerProgram = 4,
            DayRules = [DayRuleKind.Interval], LargestIntervalDays = 30 };
        SiteController controller = new() { Name = "North", Profile = profile, Supply = "Main", Zones = [zone] };
        Site site = new()
        {
            Name = "Test",
            Place = new Place(45, 10, 100),
            TimeZone = "Europe/Rome",
            Supplies = [new WaterSupply("Main", 60, double.NaN, PermittedTimes.Always)],
            Controllers = [controller],
        };
        return ZoneNeeds.Of(site, controller, zone, climates);
    }

    private static Climate Constant(double etoMm, int year, int years) =>
        new(new LocalDate(year, 1, 1), [.. Enumerable.Repeat(etoMm, Days(year, 1, years))], new double[Days(year, 1, years)]);

    /// <summary>ETo from 0.5 mm in the depth of winter to 7.5 mm at the peak, rain in winter.</summary>
    private static Climate Seasonal(int year, int firstMonth, int peakMonth)
    {
        LocalDate first = new(year, firstMonth, 1);
        int days = Days(year, firstMonth, 1);
        double Warmth(int day) => Math.Cos((first.PlusDays(day).DayOfYear - 30.4 * (peakMonth - 0.5)) / 365 * 2 * Math.PI);
        return new(
            first,
            [.. Enumerable.Range(0, days).Select(d => 4 + 3.5 * Warmth(d))],
            [.. Enumerable.Range(0, days).Select(d => Warmth(d) < -0.3 && d % 4 == 0 ? 12.0 : 0)]);
    }

    private static int Days(int year, int month, int years) =>
        Period.DaysBetween(new LocalDate(year, month, 1), new LocalDate(year + years, month, 1));
}
