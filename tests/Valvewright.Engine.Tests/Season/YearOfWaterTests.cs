using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Tests.Proof;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Season;

/// <summary>The weeks of an owner's page, by hand: lawns that use 4 mm a day and may use 30 mm before they lack water.</summary>
public sealed class YearOfWaterTests
{
    private static readonly Climate[] Years = [Sites.Steady(4, 2, 2022), Sites.Steady(4, 2, 2023)];

    private static Plan With(Site site, params Visit[] visits)
    {
        Plan plan = Sites.Plan(site, Sites.Daily('A', 20));
        return plan with { Controllers = plan.Controllers.Select(c => c with { Visits = visits.ToListOf() }).ToListOf() };
    }

    [Fact]
    public void Need_rain_water_and_store_week_by_week()
    {
        // 4 mm at 100 % replace, at 50 %, what rain leaves of the need; the store stays full.
        Site site = Sites.Site("only");
        YearOfWater held = YearOfWater.Of(site, With(site, new Visit(new AnnualDate(1, 1), 50)), Years);
        Assert.Equal(52, held.Weeks.Count);
        Assert.Equal(new AnnualDate(1, 1), held.Begins);
        Assert.All(held.Weeks, w => Assert.Equal((28.0, 14.0, 14.0, 100.0, 100.0),
            (Round(w.NeedMm), Round(w.RainMm), Round(w.WaterMm), Round(w.StorePercent), Round(w.DryStorePercent))));

        // Off, 2 mm are short every day: 2, 4 ... 14 mm in the first week, 8 mm in the mean, 14 mm at its end.
        YearOfWater off = YearOfWater.Of(site, With(site, new Visit(new AnnualDate(1, 1), 0)), Years);
        Assert.Equal((0.0, Round(100 * (1 - (8 / 30.0))), Round(100 * (1 - (14 / 30.0)))),
            (off.Weeks[0].WaterMm, Round(off.Weeks[0].StorePercent), Round(off.Weeks[0].DryStorePercent)));

        // In the third week the store falls below 0: 30 mm are gone on the 15th day.
        Assert.True(off.Weeks[1].StorePercent > 0 && off.Weeks[2].StorePercent < 0);
    }

    [Fact]
    public void A_visit_shows_in_its_week()
    {
        Site site = Sites.Site("east", "west");
        YearOfWater year = YearOfWater
            .Of(site, With(site, new Visit(new AnnualDate(1, 1), 100), new Visit(new AnnualDate(1, 15), 25)), Years);
        Assert.Equal([28.0, 28.0, 7.0, 7.0], year.Weeks.Take(4).Select(w => Round(w.WaterMm)));
    }

    [Fact]
    public void Seedbeds_are_left_out_and_a_site_of_nothing_else_is_refused()
    {
        Site site = Sites.Site("only").WithZones(z => z with { Planting = z.Planting with { Stage = PlantStage.NewlySeeded } });
        Assert.Throws<ArgumentException>(() => YearOfWater.Of(site, With(site), Years));
        Assert.Throws<ArgumentException>(() => YearOfWater.Of(Sites.Site("only"), With(Sites.Site("only")), []));
    }

    private static double Round(double value) => Math.Round(value, 9);
}
