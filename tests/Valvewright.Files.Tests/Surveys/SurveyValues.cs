using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Storage;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Surveys;
using Valvewright.Tests;

namespace Valvewright.Files.Tests.Surveys;

/// <summary>What a survey says is what the site holds, and what it does not say is listed as assumed.</summary>
public sealed class SurveyValues
{
    [Fact]
    public void Plain_numbers_have_the_units_of_the_site()
    {
        string text = SmallSite.Text
            .Replace("units: metric", "units: us", StringComparison.Ordinal)
            .Replace("flow: 40 L/min", "flow: 10", StringComparison.Ordinal)
            .Replace("pressure: 300 kPa", "pressure: 40", StringComparison.Ordinal)
            .Replace("area: 80 m2", "area: \"1,000\"", StringComparison.Ordinal)
            .Replace("rate: 12 mm/h", "rate: 0.5", StringComparison.Ordinal);
        Site site = Read(text);
        Assert.Equal(37.85411784, site.Supplies[0].FlowLpm, 9);
        Assert.Equal(275.790, site.Supplies[0].StaticPressureKpa, 3);
        Zone lawn = site.Controllers[0].ZoneAt(1);
        Assert.Equal(92.90304, lawn.AreaM2, 9);
        Assert.Equal(12.7, lawn.Emission.PrecipitationRateMmPerHour, 9);
        // 96.25 x gpm / ft2 turned round: 0.5 in/h on 1000 ft2 is 5.195 gpm.
        Assert.Equal(0.5 * 1000 / 96.25, lawn.Emission.FlowLpm / 3.785411784, 9);
    }

    [Fact]
    public void Cans_give_the_spots_and_with_flow_and_area_the_loss()
    {
        Zone lawn = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "quarry-hill")).Site!.ControllerNamed("Terrace").ZoneAt(2);
        double meanMl = new[] { 31, 26, 22, 19, 24, 28, 25, 18, 29, 24, 20, 16, 21, 27, 23, 17, 27, 23, 25, 14, 19, 24, 20, 15 }.Average();
        double net = meanMl / 90 * 10 * 60 / 12;
        Assert.Equal(24, lawn.Emission.Spots.Share.Count);
        Assert.Equal(19.0 * 60 / 85, lawn.Emission.PrecipitationRateMmPerHour, 9);
        Assert.Equal(net, lawn.Emission.PrecipitationRateMmPerHour * (1 - lawn.Emission.ApplicationLossFraction), 9);
        Assert.Equal(31 / meanMl, lawn.Emission.Spots.Share[0], 9);
    }

    [Fact]
    public void Hours_that_are_not_permitted_leave_the_rest_of_the_day()
    {
        PermittedTimes one = Read(SmallSite.With("hours: 22:00-06:00", "not hours: 10 am to 4 pm")).Supplies[0].Permitted;
        Assert.Equal([new TimeWindow(LocalTime.Midnight, new LocalTime(10, 0)),
            new TimeWindow(new LocalTime(16, 0), LocalTime.Midnight)], one.Hours);
        PermittedTimes two = Read(SmallSite.With("hours: 22:00-06:00", "not hours: [23:00-05:00, 10:00-16:00]")).Supplies[0].Permitted;
        Assert.Equal([new TimeWindow(new LocalTime(5, 0), new LocalTime(10, 0)),
            new TimeWindow(new LocalTime(16, 0), new LocalTime(23, 0))], two.Hours);
    }

    [Fact]
    public void A_profile_spelled_out_is_taken_as_written_and_narrowed_to_the_day_rules_asked_for()
    {
        Profile profile = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "polder-green")).Site!.Controllers[0].Profile;
        Assert.Equal((6, 3, 3, 10), (profile.Stations, profile.Programs, profile.StartTimesPerProgram, profile.StartStepMinutes));
        Assert.Equal(3 * 3600, profile.RunTimeLimitSeconds);
        Assert.Equal([DayRuleKind.Even], profile.DayRules);
        Assert.Equal(new PercentRange(20, 200, 10), profile.Percent);
        Assert.Equal(PercentRounding.UpToMinute, profile.Rounding);
        Assert.True(profile.OddSkips31);
        Assert.Equal(0.03, profile.Power!.SelfDischargePerYear, 12);
    }

    [Fact]
    public void South_of_the_equator_turf_has_its_spring_in_October()
    {
        string monthly = SmallSite.With("units: metric", "units: metric\nmonthly coefficients: california");
        Site north = Read(monthly);
        Site south = Read(monthly
            .Replace("latitude: 47.43, longitude: 8.52", "latitude: -33.9, longitude: 18.4", StringComparison.Ordinal)
            .Replace("Europe/Zurich", "Africa/Johannesburg", StringComparison.Ordinal));
        Assert.Equal(north.Controllers[0].ZoneAt(1).Planting.CoefficientIn(4), south.Controllers[0].ZoneAt(1).Planting.CoefficientIn(10));
    }

    [Theory]
    [InlineData("33.9 S", "18.4 E", -33.9, 18.4)]
    [InlineData("-33.9", "18.4", -33.9, 18.4)]
    public void Coordinates_may_carry_letters(string latitude, string longitude, double north, double east)
    {
        Site site = Read(SmallSite.Text
            .Replace("latitude: 47.43, longitude: 8.52", $"latitude: {latitude}, longitude: {longitude}", StringComparison.Ordinal)
            .Replace("Europe/Zurich", "Africa/Johannesburg", StringComparison.Ordinal));
        Assert.Equal((north, east), (site.Place.LatitudeDeg, site.Place.LongitudeDeg));
    }

    [Fact]
    public void West_is_negative()
    {
        Site site = Read(SmallSite.Text
            .Replace("latitude: 47.43, longitude: 8.52", "latitude: 33.4 N, longitude: 112.1 W", StringComparison.Ordinal)
            .Replace("Europe/Zurich", "America/Phoenix", StringComparison.Ordinal));
        Assert.Equal((33.4, -112.1), (site.Place.LatitudeDeg, site.Place.LongitudeDeg));
    }

    [Fact]
    public void Forbidden_hours_are_the_same_as_the_hours_that_they_leave_of_each_date()
    {
        Site forbidden = Read(SmallSite.With("hours: 22:00-06:00", "{ not hours: 10:00-18:00, dates: even }"));
        Site permitted = Read(SmallSite.With("hours: 22:00-06:00", "{ hours: [00:00-10:00, 18:00-24:00], dates: even }"));
        Assert.Equal(permitted.Supplies, forbidden.Supplies);
        Assert.DoesNotContain(forbidden.Assumptions, a => a.Path.EndsWith("hours", StringComparison.Ordinal));
    }

    /// <summary>The clock passes midnight between the evening and the morning: which date's watering the morning is, only the rule's owner
    /// knows.</summary>
    [Theory]
    [InlineData("{ hours: 20:00-06:00, dates: even }", true)]
    [InlineData("{ hours: 20:00-06:00, days: [Mon, Thu] }", true)]
    [InlineData("{ hours: 20:00-06:00 }", false)]
    [InlineData("{ hours: 20:00-24:00, dates: even }", false)]
    [InlineData("{ not hours: 22:00-04:00, dates: odd }", false)]
    public void Hours_over_midnight_on_some_dates_only_are_a_question_for_the_owner(string permitted, bool asked)
    {
        Site site = Read(SmallSite.With("hours: 22:00-06:00", permitted));
        Assert.Equal(asked, site.Assumptions.Any(a => a.Path.EndsWith("permitted/hours", StringComparison.Ordinal)));
        Assert.Equal(asked, site.Supplies[0].Permitted.IsInDoubt);
    }

    /// <summary>The example that docs/survey-file.md calls complete is read, and everything that it leaves out is said.</summary>
    [Fact]
    public void The_documentations_smallest_example_is_a_site_and_its_gaps_are_listed()
    {
        string page = File.ReadAllText(Path.Combine(Checkout.Root, "docs", "survey-file.md"));
        int start = page.IndexOf("```yaml", StringComparison.Ordinal) + 7;
        Site site = Read(page[start..page.IndexOf("```", start, StringComparison.Ordinal)]);
        const string Lawn = "controllers/Green/zones/Lawn";
        string[] expected =
        [
            "units", "clock", "location/elevation", "supplies/Main/permitted", "controllers/Green/supply", $"{Lawn}/slope", $"{Lawn}/soil",
            $"{Lawn}/soil/available water", $"{Lawn}/soil/intake", $"{Lawn}/soil/surface storage", $"{Lawn}/plants/stage",
                $"{Lawn}/plants/coefficient",
            $"{Lawn}/plants/root depth", $"{Lawn}/plants/allowed depletion", $"{Lawn}/sprinklers/loss", $"{Lawn}/sprinklers/uniformity",
        ];
        Assert.Equal(expected.Order(StringComparer.Ordinal),
            site.Assumptions.Select(assumption => assumption.Path).Order(StringComparer.Ordinal));
        Assert.All(site.Assumptions, assumption => Assert.True(assumption.Value.Text.Length > 0 && assumption.Why.Text.Length > 0));
    }

    [Fact]
    public void A_stage_changes_what_the_zone_needs()
    {
        Zone seeded = Read(SmallSite.With("plants: cool-season turf",
            "plants: { kind: cool-season turf, stage: newly seeded, since: 2026-04-10 }")).Controllers[0].ZoneAt(1);
        Assert.Equal(PlantStage.NewlySeeded, seeded.Planting.Stage);
        Assert.Equal(StageRules.SeedbedM, seeded.Planting.RootDepthM);
        Assert.Equal(new LocalDate(2026, 4, 10), seeded.Planting.Since);
    }

    [Fact]
    public void Emitters_are_counted_by_their_spacing_over_the_area()
    {
        Zone hedge = Read(SmallSite.With("{ kind: drip, rate: 7 mm/h }",
            "{ kind: drip, emitters: { flow: 2 L/h, along: 50 cm, between: 40 cm } }")).Controllers[0].ZoneAt(2);
        Assert.Equal(30 / (0.5 * 0.4) * 2 / 60, hedge.Emission.FlowLpm, 9);
        Assert.Equal(10, hedge.Emission.PrecipitationRateMmPerHour, 9);
        Assert.Equal(EmissionKind.Drip, hedge.Emission.Kind);
    }

    [Fact]
    public void Emitters_may_be_counted_by_the_plant()
    {
        Zone hedge = Read(SmallSite.With("{ kind: drip, rate: 7 mm/h }",
            "{ kind: drip, emitters: { flow: 2 L/h, per plant: 3, plants: 40 } }")).Controllers[0].ZoneAt(2);
        Assert.Equal(3 * 40 * 2.0 / 60, hedge.Emission.FlowLpm, 9);
        SurveyReading half = SurveyFiles
            .Parse(SmallSite.With("{ kind: drip, rate: 7 mm/h }", "{ kind: drip, emitters: { flow: 2 L/h, per plant: 3 } }"), "site.yaml");
        Assert.EndsWith("needs 'plants'", Assert.Single(half.Problems).Message.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_crowns_of_trees_and_the_end_of_establishing_are_what_the_survey_says()
    {
        Planting hedge = Read(
            SmallSite.With("since: 2026-03-01", "since: 2026-03-01, established by: 2027-03-01, canopy: 25 m2")).Controllers[0]
                .ZoneAt(2).Planting;
        Assert.Equal((25, new LocalDate(2027, 3, 1)), (hedge.CanopyM2, hedge.EstablishedBy));
        SurveyReading early = SurveyFiles
            .Parse(SmallSite.With("since: 2026-03-01", "since: 2026-03-01, established by: 2026-03-01"), "site.yaml");
        Assert.Equal((29, "2026-03-01"), (Assert.Single(early.Problems).Line, early.Problems[0].Found));
    }

    /// <summary>ANSI/ASABE S623 gives cool-season turf one plant factor, 0.8.</summary>
    [Fact]
    public void Turf_may_have_one_plant_factor_all_year()
    {
        Assert.All(Read(SmallSite.Text).Controllers[0].ZoneAt(1).Planting.CoefficientByMonth, kl => Assert.Equal(0.8, kl, 12));
        Site monthly = Read(SmallSite.With("units: metric", "units: metric\nmonthly coefficients: california"));
        Assert.NotEqual(0.8, monthly.Controllers[0].ZoneAt(1).Planting.CoefficientIn(1));
    }

    [Fact]
    public void What_a_zone_wishes_and_what_takes_its_sun_reach_the_zone()
    {
        Zone plain = Read(SmallSite.Text).Controllers[0].ZoneAt(2);
        Assert.Equal((PlantQuality.Normal, 0.0, 0.4), (plain.Quality, plain.ShadeFraction, plain.SoilEvening));
        Site site = Read(SmallSite.With("area: 30 m2", "area: 30 m2\n        quality: survival\n        shade: 35 %")
            .Replace("units: metric", "units: metric\nweight of unmet use: 8\nsoil evening: 0.2", StringComparison.Ordinal));
        Zone hedge = site.Controllers[0].ZoneAt(2);
        Assert.Equal((PlantQuality.Survival, 0.2, 8.0), (hedge.Quality, hedge.SoilEvening, site.UnmetUseWeight));
        Assert.Equal(0.35, hedge.ShadeFraction, 12);
    }

    [Fact]
    public void Dormant_and_overseeded_dates_may_run_over_the_new_year()
    {
        Planting turf = Read(
            SmallSite.With("plants: cool-season turf",
                "plants: { kind: warm-season turf, dormant: 11-15..3-1, overseeded: 10-1 to 4-30 }")).Controllers[0].ZoneAt(1).Planting;
        Assert.Equal(new PeriodOfYear(new AnnualDate(11, 15), new AnnualDate(3, 1)), turf.DormantDates);
        Assert.Equal(new PeriodOfYear(new AnnualDate(10, 1), new AnnualDate(4, 30)), turf.OverseededDates);
        Assert.True(turf.DormantDates!.Contains(new LocalDate(2027, 1, 1)));
    }

    [Fact]
    public void A_supply_says_what_its_water_is_and_when_it_is_on()
    {
        WaterSupply plain = Read(SmallSite.Text).Supplies[0];
        Assert.Equal((null, null, 0.0, false), (plain.Kind, plain.On, plain.SalinityDsPerM, plain.IsReclaimed));
        WaterSupply supply = Read(
            SmallSite.With("pressure: 300 kPa",
                "pressure: 300 kPa\n    kind: reclaimed\n    salinity: 1.2\n    on from: 4-15\n    on to: 10-15")).Supplies[0];
        Assert.Equal((SupplyKind.Reclaimed, 1.2, true), (supply.Kind, supply.SalinityDsPerM, supply.IsReclaimed));
        Assert.Equal(new PeriodOfYear(new AnnualDate(4, 15), new AnnualDate(10, 15)), supply.On);
    }

    /// <summary>Salt comes from the supply and what the plants bear: cool-season turf 3.9 and sensitive shrubs 2 dS/m, so 1.2/(5 x 3.9 -
    /// 1.2) and 1.2/(10 - 1.2).</summary>
    [Fact]
    public void Salty_water_gives_every_zone_its_leaching()
    {
        Site site = Read(SmallSite.With("pressure: 300 kPa", "pressure: 300 kPa\n    salinity: 1.2"));
        Assert.Equal(1.2 / 18.3, site.Controllers[0].ZoneAt(1).LeachingFraction, 9);
        Assert.Equal(1.2 / 8.8, site.Controllers[0].ZoneAt(2).LeachingFraction, 9);
        Assert.Equal("2 dS/m: 14 % of the water must drain to carry salt away",
            site.Assumptions.Single(a => a.Path.EndsWith("Hedge/plants/soil salinity", StringComparison.Ordinal)).Value.Text);
        Assert.Equal(0, Read(SmallSite.Text).Controllers[0].ZoneAt(1).LeachingFraction);
        Site own = Read(SmallSite.With("pressure: 300 kPa", "pressure: 300 kPa\n    salinity: 1.2")
            .Replace("plants: cool-season turf", "plants: { kind: cool-season turf, soil salinity: 6 }", StringComparison.Ordinal));
        Assert.Equal(1.2 / 28.8, own.Controllers[0].ZoneAt(1).LeachingFraction, 9);
    }

    [Fact]
    public void A_supply_has_a_tank_and_a_pump()
    {
        const string Storage = "\n    tank: { volume: 4 m3, refill: 6, least: 300 L }\n    pump: { starts per hour: 10, runs on: 2 min }";
        WaterSupply supply = Read(SmallSite.With("pressure: 300 kPa", "pressure: 300 kPa" + Storage)).Supplies[0];
        Assert.Equal(new WaterTank(4000, 6, 300), supply.Tank);
        Assert.Equal(new PumpLimit(10, Duration.FromMinutes(2)), supply.Pump);
        Assert.Contains(SurveyFiles.ParseApart(
            SmallSite.With("pressure: 300 kPa", "pressure: 300 kPa\n    tank: { volume: 200 L, refill: 6, least: 300 L }"), "survey")
                .Problems, p => p.Message.Text.Contains("More must stay in", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("area: 30 m2", "area: 30 m2\n        quality: hihg", "hihg", "high")]
    [InlineData("area: 30 m2", "area: 30 m2\n        shade: 120 %", "120 %", null)]
    [InlineData("stage: establishing", "dormant: 15-11..1-3, stage: establishing", "15-11..1-3", null)]
    [InlineData("pressure: 300 kPa", "pressure: 300 kPa\n    on from: 15-4\n    on to: 10-15", "15-4", "4-15")]
    [InlineData("pressure: 300 kPa", "pressure: 300 kPa\n    on from: 4-15", "no 'on to'", null)]
    [InlineData("units: metric", "units: metric\nweight of unmet use: 80", "80", null)]
    public void A_wrong_value_of_these_is_told(string piece, string other, string found, string? nearest)
    {
        SurveyReading reading = SurveyFiles.Parse(SmallSite.With(piece, other), "site.yaml");
        Assert.Equal((found, nearest), (Assert.Single(reading.Problems).Found, reading.Problems[0].Nearest));
    }

    [Fact]
    public void The_same_file_gives_the_same_site() => Assert.Equal(Read(SmallSite.Text), Read(SmallSite.Text));

    private static Site Read(string text)
    {
        SurveyReading reading = SurveyFiles.Parse(text, "site.yaml");
        Assert.Empty(reading.Problems);
        return reading.Site!;
    }
}
