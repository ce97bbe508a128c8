using NodaTime;
using Valvewright.Engine.Controllers;
using static Valvewright.Engine.Tests.Controllers.Words;

namespace Valvewright.Engine.Tests.Controllers;

/// <summary>Rules 1 to 15 of docs/emulator.md: programs and their water days.</summary>
public sealed class ProgramRules
{
    [Fact]
    public void Rule_1_a_start_time_starts_the_whole_program()
    {
        Timeline timeline = On(Settings(Program('A', "04:00,06:00", "3=5m,1=10m", EveryDay)));
        Assert.Equal("A1 04:00-04:10, A3 04:10-04:15, A1 06:00-06:10, A3 06:10-06:15", Shown(timeline.Runs));
        Assert.Equal([0, 0, 1, 1], timeline.Runs.Select(r => r.Start));
    }

    [Fact]
    public void Rule_2_an_empty_part_means_that_the_program_never_runs()
    {
        Timeline timeline = Emulator.Run(
            Plain,
            Settings(
                Program('A', "", "1=10m", EveryDay),
                Program('B', "04:00", "", EveryDay),
                Program('C', "04:00", "1=10m", new DaysOfWeek([]))),
            Monday,
            Monday.PlusDays(30));
        Assert.Empty(timeline.Runs);
        Assert.Empty(timeline.LostStarts);
        Assert.Empty(On(Settings(Program('A', "04:00", "1=10m", null))).Runs);
    }

    [Fact]
    public void Rule_3_what_percent_rounds_to_nothing_is_passed_over()
    {
        Profile profile = Plain with
            { Rounding = PercentRounding.DownToMinute, PauseBetweenStationsSeconds = 30, Overlap = OverlapBehaviour.Lost };
        Settings settings = Settings(
            Program('A', "04:00", "1=1m,2=10m,3=0m", EveryDay),
            Program('B', "04:00", "1=1m", EveryDay),
            Program('C', "04:05", "4=10m", EveryDay)) with { PercentAdjust = 50 };
        Assert.Equal("A2 04:00-04:05, C4 04:05:30-04:10:30", Shown(Emulator.Run(profile, settings, Monday, Monday).Runs));
        Assert.Empty(Emulator.Run(profile, settings, Monday, Monday).LostStarts);
    }

    [Fact]
    public void Rule_4_equal_start_times_of_a_program_count_once() =>
        Assert.Equal("A1 04:00-04:10", Shown(On(Settings(Program('A', "04:00,04:00", "1=10m", EveryDay))).Runs));

    [Theory]
    [InlineData(PercentRounding.NearestSecond, 50, 61, 31)]
    [InlineData(PercentRounding.NearestSecond, 33, 100, 33)]
    [InlineData(PercentRounding.NearestMinute, 50, 180, 120)]
    [InlineData(PercentRounding.NearestMinute, 10, 299, 0)]
    [InlineData(PercentRounding.NearestMinute, 10, 300, 60)]
    [InlineData(PercentRounding.DownToMinute, 90, 600, 540)]
    [InlineData(PercentRounding.DownToMinute, 99, 600, 540)]
    [InlineData(PercentRounding.UpToMinute, 1, 60, 60)]
    [InlineData(PercentRounding.UpToMinute, 110, 600, 660)]
    [InlineData(PercentRounding.UpToMinute, 101, 600, 660)]
    [InlineData(PercentRounding.UpToMinute, 100, 90, 90)]
    [InlineData(PercentRounding.DownToMinute, 100, 90, 90)]
    [InlineData(PercentRounding.NearestMinute, 0, 600, 0)]
    public void Rule_5_percent_scales_then_rounds(PercentRounding rounding, int percent, int seconds, int expected)
    {
        Assert.Equal(expected, Emulator.PercentOf(seconds, percent, rounding));
        Settings settings = Settings(Program('A', "04:00", $"1={seconds}s", EveryDay)) with { PercentAdjust = percent };
        Assert.Equal(expected, Emulator.Run(Plain with { Rounding = rounding }, settings, Monday, Monday).Runs.Sum(r => r.Seconds));
    }

    [Fact]
    public void Rule_6_a_change_of_settings_leaves_a_turn_as_it_began()
    {
        Settings before = Settings(Program('A', "04:00", "1=10m,2=10m", EveryDay), Program('B', "04:01", "3=10m", EveryDay));
        ControllerState state = new() { SettingsChanges = [new SettingsChange(At("04:05"), before with { PercentAdjust = 50 })] };
        Timeline timeline = Emulator.Run(Plain, before, state, Monday, Monday.PlusDays(1));
        Assert.Equal(
            "A1 04:00-04:10, A2 04:10-04:20, B3 04:20-04:30, A1 04:00+1-04:05+1, A2 04:05+1-04:10+1, B3 04:10+1-04:15+1",
            Shown(timeline.Runs));
    }

    [Fact]
    public void Rule_7_a_run_past_midnight_belongs_to_the_day_it_began()
    {
        Settings settings = Settings(Program('A', "23:50", "1=20m,2=20m", new DaysOfWeek([IsoDayOfWeek.Monday])));
        Assert.Equal("A1 23:50-00:10+1, A2 00:10+1-00:30+1", Shown(On(settings).Runs));
        Assert.Empty(Emulator.Run(Plain, settings, Monday.PlusDays(1), Monday.PlusDays(1)).Runs);
    }

    [Fact]
    public void Rule_8_days_are_read_off_the_date_shown()
    {
        // The display is a day ahead: it shows Tuesday 2 June on Monday 1 June.
        ControllerState state = new() { ClockChanges = [new ClockChange(At("00:00", -1), At("00:00"), ClockChangeCause.ByHand)] };
        Assert.Equal("A1 04:00-04:10",
            Shown(Emulator.Run(Plain, Settings(Program('A', "04:00", "1=10m", new DaysOfWeek([IsoDayOfWeek.Tuesday]))), state, Monday,
                Monday).Runs));
        Assert.Equal("A1 04:00-04:10",
            Shown(Emulator.Run(Plain, Settings(Program('A', "04:00", "1=10m", new EvenDays())), state, Monday, Monday).Runs));
        Assert.Empty(Emulator.Run(Plain, Settings(Program('A', "04:00", "1=10m", new OddDays())), state, Monday, Monday).Runs);
    }

    [Theory]
    [InlineData(false, false, 2024, 2, "27/2 29/2 1/3 3/3")]
    [InlineData(false, true, 2024, 2, "27/2 1/3 3/3")]
    [InlineData(false, true, 2023, 2, "27/2 1/3 3/3")]
    [InlineData(false, false, 2026, 12, "27/12 29/12 31/12 1/1 3/1")]
    [InlineData(true, false, 2026, 12, "27/12 29/12 1/1 3/1")]
    public void Rule_9_odd_days_at_month_ends(bool skips31, bool skips29February, int year, int month, string expected)
    {
        Profile profile = Plain with { OddSkips31 = skips31, OddSkips29February = skips29February };
        LocalDate from = new(year, month, 27);
        Settings settings = Settings(Program('A', "04:00", "1=10m", new OddDays()));
        Assert.Equal(expected,
            Days(Emulator.Run(profile, settings, from, from.PlusMonths(1).With(DateAdjusters.StartOfMonth).PlusDays(2))));
    }

    [Fact]
    public void Rule_10_even_days_rest_on_the_31st_and_the_1st()
    {
        Settings settings = Settings(Program('A', "04:00", "1=10m", new EvenDays()));
        Assert.Equal("28/12 30/12 2/1 4/1", Days(Emulator.Run(Plain, settings, new LocalDate(2026, 12, 27), new LocalDate(2027, 1, 4))));
        Assert.Equal("26/2 28/2 2/3", Days(Emulator.Run(Plain, settings, new LocalDate(2024, 2, 26), new LocalDate(2024, 3, 2))));
    }

    [Fact]
    public void Rule_11_an_interval_counts_from_its_anchor_both_ways()
    {
        Settings settings = Settings(Program('A', "04:00", "1=10m", new EveryNDays(3, new LocalDate(2023, 12, 30))));
        Assert.Equal("24/12 27/12 30/12 2/1 5/1",
            Days(Emulator.Run(Plain, settings, new LocalDate(2023, 12, 22), new LocalDate(2024, 1, 7))));
        Assert.Equal("28/2 2/3", Days(Emulator.Run(Plain, settings, new LocalDate(2024, 2, 26), new LocalDate(2024, 3, 4))));
    }

    [Fact]
    public void Rule_12_a_days_left_counter_waters_at_0_and_goes_on_at_n_less_1()
    {
        Timeline timeline = Emulator
            .Run(Counting, EveryThird, KeyedOnMonday with { DaysLeft = [new DaysLeft('A', 2)] }, Monday, Monday.PlusDays(9));
        Assert.Equal("3/6 6/6 9/6", Days(timeline));
        Assert.Equal("1/6 4/6 7/6 10/6", Days(Emulator.Run(Counting, EveryThird, KeyedOnMonday, Monday, Monday.PlusDays(9))));
    }

    [Fact]
    public void Rule_13_setting_the_clock_by_hand_leaves_the_counter()
    {
        // At noon of the 2nd the display is put forward to noon of the 9th: an anchored interval would follow the date.
        ControllerState state = KeyedOnMonday with
            { ClockChanges = [new ClockChange(At("12:00", 1), At("12:00", 8), ClockChangeCause.ByHand)] };
        Assert.Equal("1/6 4/6 7/6", Days(Emulator.Run(Counting, EveryThird, state, Monday, Monday.PlusDays(7))));
        Assert.Equal("1/6 3/6 6/6", Days(Emulator.Run(Plain, EveryThird, state, Monday, Monday.PlusDays(7))));
    }

    [Fact]
    public void Rule_14_a_lost_clock_begins_the_counter_anew()
    {
        ControllerState state = KeyedOnMonday with
            { ClockChanges = [new ClockChange(At("12:00", 1), At("00:00", -2000), ClockChangeCause.PowerBack)] };
        Assert.Equal([At("04:00"), At("16:00", 1), At("16:00", 4), At("16:00", 7)],
            Emulator.Run(Counting, EveryThird, state, Monday, Monday.PlusDays(8)).Runs.Select(r => r.Opens));
    }

    [Fact]
    public void Rule_15_an_interval_keyed_in_anew_counts_anew_and_one_left_alone_counts_on()
    {
        ControllerState shifted = KeyedOnMonday with { DaysLeft = [new DaysLeft('A', 1)] };
        ControllerState percent = shifted with
            { SettingsChanges = [new SettingsChange(At("12:00", 2), EveryThird with { PercentAdjust = 50 })] };
        Assert.Equal("2/6 5/6 8/6", Days(Emulator.Run(Counting, EveryThird, percent, Monday, Monday.PlusDays(8))));
        Settings other = Settings(Program('A', "04:00", "1=10m", new EveryNDays(2, Monday)));
        ControllerState rule = shifted with { SettingsChanges = [new SettingsChange(At("12:00", 2), other)] };
        Assert.Equal("2/6 5/6 7/6 9/6", Days(Emulator.Run(Counting, EveryThird, rule, Monday, Monday.PlusDays(8))));
    }

    private static Profile Counting { get; } = Plain with { IntervalCountsDaysLeft = true };

    private static Settings EveryThird { get; } = Settings(Program('A', "04:00", "1=10m", new EveryNDays(3, Monday)));

    private static ControllerState KeyedOnMonday { get; } = new() { KeyedIn = At("00:00") };

    private static Timeline On(Settings settings) => Emulator.Run(Plain, settings, Monday, Monday);
}
