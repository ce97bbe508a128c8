using Valvewright.Engine.Weather;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Balance;

namespace Valvewright.Engine.Tests.Balance;

/// <summary>FAO Irrigation and Drainage Paper 56 (1998), chapter 8, against the numbers printed there.</summary>
public sealed class SpotStoreTests
{
    /// <summary>Example 36: loamy sand 90, silt 170, silty clay 120 mm/m; onion, tomato, maize.</summary>
    [Theory]
    [InlineData(90, 0.4, 0.30, 36, 11)]
    [InlineData(170, 0.4, 0.30, 68, 20)]
    [InlineData(120, 0.4, 0.30, 48, 14)]
    [InlineData(90, 0.8, 0.40, 72, 29)]
    [InlineData(170, 0.8, 0.40, 136, 54)]
    [InlineData(120, 0.8, 0.40, 96, 38)]
    [InlineData(90, 1.2, 0.55, 108, 59)]
    [InlineData(170, 1.2, 0.55, 204, 112)]
    [InlineData(120, 1.2, 0.55, 144, 79)]
    public void Total_and_readily_available_water_as_printed_in_example_36(double mmPerM, double rootsM, double p, double taw, double raw)
    {
        RootZone root = RootZone.Of(Zones.Make(mmPerM, rootsM, p));
        Assert.Equal(taw, root.TotalMm, 0.5);
        Assert.Equal(raw, root.ReadilyMm, 0.5);
    }

    /// <summary>Example 37: tomato, TAW 160, RAW 64, 55 mm depleted, ETc 6 mm/day, ten days without water.</summary>
    [Fact]
    public void Depletion_under_stress_as_printed_in_example_37()
    {
        double[] ends = [61.0, 67.0, 72.8, 78.3, 83.4, 88.2, 92.6, 96.9, 100.8, 104.5];
        double[] used = [6.0, 6.0, 5.8, 5.4, 5.1, 4.8, 4.5, 4.2, 3.9, 3.7];
        SpotStore store = new(new RootZone(160, 64), 55);
        double before = 0;
        for (int day = 0; day < 10; day++)
        {
            store.Step(0, 1.2 * 5.0);
            Assert.Equal(ends[day], store.DepletionMm, 0.1);
            Assert.Equal(used[day], store.UseMm - before, 0.06);
            before = store.UseMm;
        }
    }

    /// <summary>
    /// Example 38, days 2 to 9: TAW 130 Zr, RAW 78 Zr, ETc and rain as printed, the subsoil at field capacity. Day 1 of the example lets
    /// water drain before the day's ET; equation 88 and its text take it "following any ET for that day", and so does this balance.
    /// </summary>
    [Fact]
    public void Depletion_of_a_growing_root_zone_as_printed_in_example_38()
    {
        double[] rootsM = [0.31, 0.31, 0.32, 0.32, 0.33, 0.33, 0.34, 0.34];
        double[] etc = [6.1, 4.0, 2.9, 2.5, 2.7, 4.7, 2.8, 2.2];
        double[] rain = [0, 0, 0, 0, 6, 0, 0, 0];
        double[] ends = [12, 16, 18, 21, 18, 22, 25, 27];
        double depletion = 5.5;
        for (int day = 0; day < ends.Length; day++)
        {
            SpotStore store = new(new RootZone(130 * rootsM[day], 78 * rootsM[day]), depletion);
            store.Step(rain[day], etc[day]);
            depletion = store.DepletionMm;
            Assert.Equal(ends[day], depletion, 0.6);
        }
    }

    [Fact]
    public void Water_past_field_capacity_drains_after_the_days_use()
    {
        SpotStore store = new(new RootZone(100, 50), 10);
        store.Step(30, 6);
        Assert.Equal(0, store.DepletionMm);
        Assert.Equal(14, store.DrainageMm, 1e-12);
        Assert.Equal(6, store.UseMm, 1e-12);
    }

    [Fact]
    public void A_store_never_falls_below_wilting_point_and_use_is_what_was_there()
    {
        SpotStore store = new(new RootZone(3, 1), 0);
        store.Step(0, 10);
        Assert.Equal(3, store.DepletionMm);
        Assert.Equal(3, store.UseMm);
        Assert.Equal(7, store.UnmetMm, 1e-12);
    }

    /// <summary>
    /// 1 mm on leaves evaporates in place of the plants' use (Burgy and Pomeroy 1958): where the day uses 3 mm, 8 mm of water do what 8 mm
    /// do; where it uses 0.4 mm, 0.6 mm is lost. Drip wets no leaves.
    /// </summary>
    [Theory]
    [InlineData(EmissionKind.Spray, 3, 0)]
    [InlineData(EmissionKind.Spray, 0.4, 0.6)]
    [InlineData(EmissionKind.Drip, 0.4, 0)]
    public void Wet_leaves_evaporate_first(EmissionKind kind, double useMm, double lostMm)
    {
        Zone zone = Zones.Make(coefficient: 1);
        zone = zone with { Emission = zone.Emission with { Kind = kind } };
        ZoneDays day = ZoneDays.Of(zone, new Climate(new NodaTime.LocalDate(2001, 6, 1), [useMm], [0]));
        SpotStore store = new(RootZone.Of(zone), 20);
        store.Step(day, 0, 8);
        Assert.Equal(20 - 8 + useMm + lostMm, store.DepletionMm, 1e-9);
        Assert.Equal(lostMm, store.LeafLossMm, 1e-9);
        Assert.Equal(useMm, store.UseMm, 1e-9);
    }

    /// <summary>FAO-56 table 22, footnote: p = p of the table + 0.04 (5 - ETc), held to 0.1 to 0.8.</summary>
    [Theory]
    [InlineData(5, 0.50)]
    [InlineData(8, 0.38)]
    [InlineData(3, 0.58)]
    [InlineData(0, 0.70)]
    public void Allowed_depletion_moves_with_the_days_use(double useMm, double share) =>
        Assert.Equal(share * 60, new RootZone(60, 30).ReadilyMmAt(useMm), 1e-9);
}
