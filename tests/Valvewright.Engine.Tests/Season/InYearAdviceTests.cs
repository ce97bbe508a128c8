using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Tests.Proof;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Season;

/// <summary>
/// Advice within the year, on weather of round numbers. Both lawns (50 m2, TAW 60 mm, RAW 30 mm) use 4 mm a day; in the years of record 2
/// mm of rain fall every day. Watered daily with 4 mm at 100 %, they hold their store at 50 %.
/// </summary>
public sealed class InYearAdviceTests
{
    private static readonly Climate[] Record = [Sites.Steady(4, 2, 2021), Sites.Steady(4, 2, 2022)];

    private static (Site Site, Plan Plan) Case(int rainHoldDays, params Visit[] visits)
    {
        Site site = Sites.Site("only").With(
            c => c with { Profile = Sites.Profile with { Percent = new PercentRange(25, 100, 25), LargestRainHoldDays = rainHoldDays } });
        Plan plan = Sites.Plan(site, Sites.Daily('A', 20));
        return (site, plan with { Controllers = [plan.Controllers[0] with { Visits = visits.ToListOf() }] });
    }

    private static Climate SoFar(int days, double rainMm) =>
        new(new LocalDate(2026, 1, 1), [.. Enumerable.Repeat(4.0, days)], [.. Enumerable.Repeat(rainMm, days)]);

    private static InYearAdvice Ask(Site site, Plan plan, Climate soFar, int? now = null) =>
        Assert.Single(InYearAdvice
            .Of(site, plan, Record, soFar, now is { } percent ? new Dictionary<string, int> { ["only"] = percent } : []));

    private static Visit On(int month, int day, int percent) => new(new AnnualDate(month, day), percent);

    [Fact]
    public void Where_the_store_holds_nothing_changes()
    {
        (Site site, Plan plan) = Case(14, On(1, 1, 50), On(12, 1, 50));
        InYearAdvice advice = Ask(site, plan, SoFar(14, 0));
        Assert.Equal((50, 50, 0.0), (advice.PercentNow, advice.PercentToday, advice.SavedLitres));
        Assert.Equal(new LocalDate(2026, 12, 1), advice.NextVisit);
        Assert.Null(advice.Earlier);

        // 28 of 30 mm are gone, and stay so: 351 days of 2 mm on 100 m2, without stress.
        Assert.Equal(351 * 2 * 100, advice.LeftLitres, 6);
        Assert.False(advice.IsWorthADrive);
    }

    [Fact]
    public void After_a_dry_spring_more_is_set()
    {
        // 2 mm short every day: 28 mm gone after 14 days, none of them past 30 mm; 7 whole days of 4 mm would need 28 mm more.
        (Site site, Plan plan) = Case(0, On(1, 1, 50), On(12, 1, 50));
        Assert.All(Ask(site, plan, SoFar(14, 0)).Zones, z =>
            Assert.Equal((28.0, 30.0, 0), (Math.Round(z.DepletionMm, 9), z.ReadilyMm, z.DaysLeft)));
        Assert.All(Ask(site, plan, SoFar(8, 0)).Zones, z => Assert.Equal((16.0, 3), (Math.Round(z.DepletionMm, 9), z.DaysLeft)));

        // After 40 days they are near 50 mm, where they use less than 2 of the 4 mm a day. 50 % brings them back to 30 mm within weeks,
        // once it rains again; 75 % till December would drain 1 mm on each of 290 days. The full store is had by more now and a visit soon.
        InYearAdvice dry = Ask(site, plan, SoFar(40, 0));
        Assert.InRange(dry.Zones[0].DepletionMm, 45, 50);
        Assert.Equal(50, dry.PercentToday);
        Assert.True(dry.Earlier!.PercentToday > 50, $"{dry.Earlier.PercentToday} %");
        Assert.InRange(dry.Earlier.Date, new LocalDate(2026, 2, 17), new LocalDate(2026, 4, 1));
        Assert.True(dry.EarlierSavesLitres > InYearAdvice.WorthADrive * dry.LeftLitres);
        Assert.Equal(0, dry.RainHoldDays);

        // With a visit in a fortnight there is nothing to wait for. From 48 mm, 75 % costs 14 x 3 mm and 4 x 9.5 mm unmet,
        // 80 mm; 100 % costs 56 + 4 x 7.0 = 84 mm; 50 % leaves most of it unmet.
        (_, Plan soon) = Case(0, On(1, 1, 50), On(2, 24, 50));
        InYearAdvice now = Ask(site, soon, SoFar(40, 0));
        Assert.Equal(75, now.PercentToday);
        Assert.True(now.IsWorthADrive);
    }

    [Fact]
    public void After_a_wet_spring_it_is_off_till_a_near_visit()
    {
        // Full on 11 January; off for 14 days takes 28 mm of the 30 that may be used, and saves 14 x 2 mm on 100 m2.
        (Site site, Plan plan) = Case(14, On(1, 1, 50), On(1, 25, 50));
        InYearAdvice advice = Ask(site, plan, SoFar(10, 20));
        Assert.Equal(0, advice.PercentToday);
        Assert.Equal(14 * 2 * 100, advice.SavedLitres, 6);
        Assert.Equal(0, advice.RainHoldDays);
        Assert.All(advice.Zones, z => Assert.Equal((0.0, 7), (z.DepletionMm, z.DaysLeft)));
    }

    [Fact]
    public void After_a_wet_spring_rain_hold_until_the_driest_spot_could_suffer()
    {
        // No rain or water: 30 mm last 7 whole days of 4 mm. Till December only 50 % holds the store.
        (Site site, Plan plan) = Case(14, On(1, 1, 50), On(12, 1, 50));
        InYearAdvice advice = Ask(site, plan, SoFar(10, 20));
        Assert.Equal((50, 7), (advice.PercentToday, advice.RainHoldDays));
        Assert.Equal(7 * 2 * 100, advice.RainHoldSavesLitres, 6);
        Assert.Equal(3, Ask(Case(3, On(1, 1, 50), On(12, 1, 50)).Site, plan, SoFar(10, 20)).RainHoldDays);
        Assert.Equal(0, Ask(Case(0, On(1, 1, 50), On(12, 1, 50)).Site, plan, SoFar(10, 20)).RainHoldDays);
    }

    [Fact]
    public void What_is_set_by_hand_counts_from_the_last_visit()
    {
        // 25 % since 1 January: 3 mm short a day without rain.
        (Site site, Plan plan) = Case(0, On(1, 1, 50), On(12, 1, 50));
        Assert.All(Ask(site, plan, SoFar(5, 0), now: 25).Zones, z => Assert.Equal(15, z.DepletionMm, 9));

        // 25 % since a visit on 6 January: 5 days 2 mm short, then 5 days 3 mm short.
        (_, Plan visited) = Case(0, On(1, 1, 50), On(1, 6, 75), On(12, 1, 50));
        Assert.All(Ask(site, visited, SoFar(10, 0), now: 25).Zones, z => Assert.Equal(25, z.DepletionMm, 9));

        // More than a plan ever sets can have been set by hand; what it costs is told against what is right.
        InYearAdvice much = Ask(
            site with { Controllers = [
                site.Controllers[0] with { Profile = site.Controllers[0].Profile with { Percent = new PercentRange(25, 200, 25) } }] },
                    plan, SoFar(10, 2), now: 150);
        Assert.Equal((150, 50), (much.PercentNow, much.PercentToday));
        Assert.Equal(324 * 4 * 100, much.SavedLitres, 6);
    }

    [Fact]
    public void Weather_that_is_not_of_one_year_is_refused()
    {
        (Site site, Plan plan) = Case(0, On(1, 1, 50));
        ArgumentException late = Assert.Throws<ArgumentException>(
            () => InYearAdvice.Of(site, plan, Record, new Climate(new LocalDate(2026, 2, 1), [4], [0]), new Dictionary<string, int>()));
        Assert.Contains("2026-01-01", late.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => InYearAdvice.Of(site, plan, Record, SoFar(365, 0), new Dictionary<string, int>()));
        Assert.Throws<ArgumentException>(() => InYearAdvice.Of(site, plan, [], SoFar(3, 0), new Dictionary<string, int>()));
    }

    [Fact]
    public void South_of_the_equator_a_year_begins_in_July()
    {
        Site south = Sites.Site("only") with { Place = new Place(-33, 18, 50) };
        Assert.Equal(new LocalDate(2025, 7, 1), InYearAdvice.FirstDayOfYear(south, new LocalDate(2026, 6, 14)));
        Assert.Equal(new LocalDate(2026, 7, 1), InYearAdvice.FirstDayOfYear(south, new LocalDate(2026, 7, 1)));
    }
}
