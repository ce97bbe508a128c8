using NodaTime;
using Valvewright.Engine.Power;

namespace Valvewright.Engine.Tests.Power;

public sealed class BatteryLifeTests
{
    private static readonly LocalDate Start = new(2026, 4, 1);
    private static readonly BatteryType NineVolt = BatteryTypes.Named("9 V alkaline")!;

    /// <summary>By hand: 500 mAh at 20 C; 40 uA x 24 h = 0.96 mAh, 10 pulses x 36 mC = 0.1 mAh, 3% of 500 per year = 0.04107 mAh a day: 454
    /// days.</summary>
    [Fact]
    public void A_warm_battery_lasts_its_capacity_over_what_a_day_takes()
    {
        BatteryLife life = BatteryLife.Of(Demand(40, 36), Start, YearOfTemperatures.Steady(20), _ => 10);
        Assert.Equal(500 / (0.96 + 0.1 + (500 * 0.03 / 365.25)), life.Days.Value, 1.0);
        Assert.Equal(3650, life.PulsesPerYear, 6);
        Assert.Equal(350.4, life.Shares.StandbyMah, 6);
        Assert.Equal(36.5, life.Shares.PulsesMah, 6);
        Assert.Equal(15 * 365 / 365.25, life.Shares.SelfDischargeMah, 6);
    }

    /// <summary>At 0 C 60% can be had, and self-discharge is a quarter.</summary>
    [Fact]
    public void In_the_cold_it_fails_sooner()
    {
        BatteryLife life = BatteryLife.Of(Demand(40, 36), Start, YearOfTemperatures.Steady(0), _ => 10);
        Assert.Equal(300 / (0.96 + 0.1 + (500 * 0.03 / 365.25 / 4)), life.Days.Value, 1.0);
    }

    /// <summary>A battery that would last into the second winter fails on the first cold night at which too little can be had.</summary>
    [Fact]
    public void Winter_ends_a_battery_that_summer_would_have_carried()
    {
        double[] year = [.. Enumerable.Range(0, 366).Select(d => d is > 60 and < 320 ? 20.0 : -15.0)];
        YearOfTemperatures seasons = new([.. year], [.. year]);
        BatteryLife life = BatteryLife.Of(Demand(40, 36), new LocalDate(2026, 3, 15), seasons, _ => 10);
        Assert.Equal(new LocalDate(2026, 11, 17), life.EmptyOn);
    }

    [Fact]
    public void The_change_date_is_before_the_early_end_of_the_range_and_says_why()
    {
        BatteryLife life = BatteryLife.Of(Demand(40, 36), Start, YearOfTemperatures.Steady(15), _ => 10);
        Assert.True(life.Days.Low < life.Days.Value && life.Days.Value < life.Days.High);
        Assert.True(life.ChangeBy < Start.PlusDays((int)life.Days.Low));
        Assert.True(life.Reasons.Count >= 2);
        Assert.True(life.Days.RestsOnTypicalValues);
    }

    [Fact]
    public void The_input_that_matters_most_comes_first()
    {
        BatteryLife standby = BatteryLife.Of(Demand(40, 1, standbyOff: 0.5), Start, YearOfTemperatures.Steady(20), _ => 4);
        Assert.Equal("standby current", standby.Days.Effects[0].Input.Name.Text);
        BatteryLife pulses = BatteryLife.Of(Demand(2, 200, pulseOff: 0.5), Start, YearOfTemperatures.Steady(20), _ => 40);
        Assert.Equal("charge of a pulse", pulses.Days.Effects[0].Input.Name.Text);
    }

    [Fact]
    public void A_battery_is_never_trusted_beyond_five_years()
    {
        BatteryLife life = BatteryLife.Of(Demand(0.1, 1), Start, YearOfTemperatures.Steady(20), _ => 0);
        Assert.Equal(BatteryLife.MostDays, life.Days.Value);
    }

    [Fact]
    public void Volts_say_what_is_left_and_impossible_volts_are_doubted()
    {
        Assert.Equal(1, new BatteryReading(NineVolt, 9.6).Left.Value, 9);
        Assert.Equal(0.25, new BatteryReading(NineVolt, 7.2).Left.Value, 9);
        Assert.Equal(0, new BatteryReading(NineVolt, 5.9).Left.Value, 9);
        // The load hides 20 mA x 3 ohm = 0.06 V, and more in the cold.
        Assert.True(new BatteryReading(NineVolt, 7.2, 20).Left.Value > 0.25);
        Assert.True(new BatteryReading(NineVolt, 7.2, 20, -10).Left.Value > new BatteryReading(NineVolt, 7.2, 20).Left.Value);
        Assert.Empty(new BatteryReading(NineVolt, 9.4).Doubts);
        Assert.Contains("9.9 V at most", Assert.Single(new BatteryReading(NineVolt, 14).Doubts).Why.Text, StringComparison.Ordinal);
        Assert.Contains("swapped", Assert.Single(new BatteryReading(NineVolt, -9).Doubts).Why.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_year_of_temperatures_needs_days_all_year_round()
    {
        (LocalDate, double, double)[] year = [.. Enumerable.Range(0, 365).Select(d => (new LocalDate(2025, 1, 1).PlusDays(d), 0.0, 10.0))];
        Assert.All(YearOfTemperatures.Of(year)!.MeanC, t => Assert.Equal(5, t, 9));
        Assert.Null(YearOfTemperatures.Of(year.Take(200)));
    }

    private static BatteryDemand Demand(double standby, double pulse, double standbyOff = 0.2, double pulseOff = 0.2) => new(
        NineVolt, Input("capacity", 500, 0.1, true), Input("standby current", standby, standbyOff),
            Input("charge of a pulse", pulse, pulseOff),
        Input("self-discharge", 0.03, 0.5, true), Input("loss in the cold", 1, 0.2, true), Input("charge at the start", 1, 0));

    private static UncertainInput Input(string name, double value, double off, bool typical = false) => new(name, value, off, typical, "");
}
