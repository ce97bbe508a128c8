using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Tests.Balance;

public sealed class SeedbedTests
{
    private static readonly Place Senegal = new(16.22, -16.25, 8);

    /// <summary>FAO-56 example 19: N'Diaye, 1 October, 14:00 to 15:00 by the clock of 15 degrees west: Ra 3.543 MJ/m2; 2:00 to 3:00:
    /// none.</summary>
    [Fact]
    public void An_hours_radiation_as_printed_in_example_19()
    {
        double[] shares = new double[24];
        LocalDate date = new(2001, 10, 1);
        DaylightSpread.Fill(Senegal, date, clockHours: -1, shares);
        Assert.Equal(3.543, shares[14] * SolarGeometry.ExtraterrestrialMjM2(Senegal.LatitudeDeg, date.DayOfYear), 0.003);
        Assert.Equal(0, shares[2], 1e-12);
        Assert.Equal(0.1889, DaylightSpread.SeasonalCorrectionHours(274), 0.0001);
    }

    [Theory]
    [InlineData(16.2, -16.25, -1)]
    [InlineData(-45, 170, 12)]
    [InlineData(64, 20, 1)]
    [InlineData(45, 100, -8)]
    [InlineData(78, 15, 1)]
    public void The_hours_of_every_day_add_up(double latitude, double longitude, double clock)
    {
        double[] shares = new double[24];
        for (int day = 0; day < 365; day++)
        {
            DaylightSpread.Fill(new Place(latitude, longitude, 0), new LocalDate(2001, 1, 1).PlusDays(day), clock, shares);
            Assert.Equal(1, shares.Sum(), 1e-9);
            Assert.All(shares, s => Assert.InRange(s, 0, 1));
        }
    }

    /// <summary>A day's use given once keeps a daily balance content; by the hour a seedbed dries out in the afternoon, unless it is
    /// watered in between.</summary>
    [Fact]
    public void Drying_out_between_waterings_is_seen_by_the_hour()
    {
        Zone bed = Zones.Make(rootDepthM: 0.03, allowed: 0.3, coefficient: 1, stage: PlantStage.NewlySeeded);
        Climate week = new(new LocalDate(2001, 5, 1), [.. Enumerable.Repeat(4.0, 7)], new double[7]);
        ZoneDays hours = Seedbed.HoursOf(bed, Senegal, -1, week);
        Assert.Equal(28, hours.WantedMm.Sum(), 1e-9);
        Assert.True(Unmet(hours, [6], 4) > 1);
        Assert.Equal(0, Unmet(hours, [9, 11, 12, 13, 15], 1.4), 1e-12);
        Assert.Equal(0, ZoneReplay.Run(bed, week, [.. Enumerable.Repeat(4.0, 7)], []).UnmetMm, 1e-9);

        double Unmet(ZoneDays days, int[] at, double mm) =>
            ZoneReplay.Run(bed, days, [.. Enumerable.Range(0, days.Steps).Select(s => at.Contains(s % 24) ? mm : 0)], [], share: 1).UnmetMm;
    }

    [Fact]
    public void Minimum_water_of_a_seedbed_keeps_every_hour()
    {
        Zone bed = Zones.Make(rootDepthM: 0.03, allowed: 0.3, stage: PlantStage.NewlySeeded);
        Climate month = new(new LocalDate(2001, 5, 1), [.. Enumerable.Repeat(5.0, 30)], new double[30]);
        MinimumWater least = MinimumWater.Of(bed, Seedbed.HoursOf(bed, Senegal, -1, month));
        Assert.Equal(30, least.NetByDayMm.Length);

        // It gets its use, but for the store it starts with.
        Assert.Equal((30 * 4.0) - 1.35, least.NetMm, 0.01);
    }

    [Fact]
    public void The_days_after_sowing_are_cut_out_of_every_year()
    {
        Zone bed = Zones.Make(stage: PlantStage.NewlySeeded);
        bed = bed with { Planting = bed.Planting with { Since = new LocalDate(2024, 12, 20) } };
        Climate twoYears = new(new LocalDate(2001, 1, 1), new double[730], new double[730]);
        Climate cut = Assert.Single(Seedbed.WindowsOf(bed, [twoYears]));
        Assert.Equal(new LocalDate(2001, 12, 20), cut.First);
        Assert.Equal(Seedbed.Days, cut.Days);
        Assert.True(Seedbed.DatesOf(bed)!.RunsOverNewYear);
    }
}
