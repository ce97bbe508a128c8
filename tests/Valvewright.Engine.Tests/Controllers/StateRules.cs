using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;
using static Valvewright.Engine.Tests.Controllers.Words;

namespace Valvewright.Engine.Tests.Controllers;

/// <summary>Rules 29 to 44 of docs/emulator.md: standstills, runs by hand, the clock, and what is asked for.</summary>
public sealed class StateRules
{
    private static readonly Settings TwoStarts = Settings(Program('A', "04:00,06:00", "1=10m,2=10m", EveryDay));

    [Theory]
    [InlineData(LostReason.Off)]
    [InlineData(LostReason.RainHold)]
    [InlineData(LostReason.SensorWet)]
    [InlineData(LostReason.NoPower)]
    public void Rule_29_a_start_in_a_standstill_is_lost_and_not_made_up_for(LostReason cause)
    {
        Timeline timeline = With(TwoStarts, Spell(cause, "03:00", "05:00"));
        Assert.Equal("A1 06:00-06:10, A2 06:10-06:20", Shown(timeline.Runs));
        Assert.Equal($"A 04:00 {cause}", Shown(timeline.LostStarts));
    }

    [Theory]
    [InlineData(LostReason.Off)]
    [InlineData(LostReason.RainHold)]
    [InlineData(LostReason.SensorWet)]
    [InlineData(LostReason.NoPower)]
    public void Rule_30_a_standstill_closes_and_drops(LostReason cause)
    {
        Settings settings = Settings(Program('A', "04:00", "1=10m,2=10m", EveryDay), Program('B', "04:02", "3=10m", EveryDay));
        Timeline timeline = With(settings, Spell(cause, "04:05", "04:06"));
        Assert.Equal("A1 04:00-04:05", Shown(timeline.Runs));
        Assert.Equal($"B 04:02 {cause}", Shown(timeline.LostStarts));
    }

    [Fact]
    public void Rule_31_the_first_second_is_in_it_and_the_last_is_not()
    {
        Assert.Equal("A1 06:00-06:10, A2 06:10-06:20", Shown(With(TwoStarts, Spell(LostReason.Off, "04:00", "06:00")).Runs));
        Assert.Equal("A1 04:00-04:10", Shown(With(TwoStarts, Spell(LostReason.Off, "04:10", "06:01")).Runs));
    }

    [Theory]
    [InlineData(LostReason.Off, "*2 04:00-04:05", "* 04:30 Off")]
    [InlineData(LostReason.NoPower, "*2 04:00-04:05", "* 04:30 NoPower")]
    [InlineData(LostReason.RainHold, "*2 04:00-04:10, *2 04:30-04:40", "")]
    [InlineData(LostReason.SensorWet, "*2 04:00-04:10, *2 04:30-04:40", "")]
    public void Rule_32_what_ends_and_refuses_a_run_by_hand(LostReason cause, string runs, string lost)
    {
        ControllerState state = new()
        {
            Standstills = [Spell(cause, "04:05", "05:00")],
            HandRuns = [new HandRun(At("04:00"), 2, 600), new HandRun(At("04:30"), 2, 600)],
        };
        Timeline timeline = Emulator.Run(Plain, Settings(), state, Monday, Monday);
        Assert.Equal(runs, Shown(timeline.Runs));
        Assert.Equal(lost, Shown(timeline.LostStarts));
    }

    [Fact]
    public void Rule_33_which_standstill_a_lost_start_is_put_down_to()
    {
        LostReason[] byRank = [LostReason.NoPower, LostReason.Off, LostReason.RainHold, LostReason.SensorWet];
        for (int first = 0; first < byRank.Length; first++)
        {
            Standstill[] spells = [.. byRank.Skip(first).Reverse().Select(c => Spell(c, "03:00", "05:00"))];
            Assert.Equal($"A 04:00 {byRank[first]}", Shown(With(TwoStarts, spells).LostStarts));
        }
    }

    [Fact]
    public void Rule_34_a_valve_that_cannot_be_pulsed_shut_stays_open_until_power_is_back()
    {
        Timeline stuck = With(TwoStarts, Spell(LostReason.NoPower, "04:05", "05:30") with { ValveStaysOpen = true });
        Assert.Equal("A1 04:00-05:30, A1 06:00-06:10, A2 06:10-06:20", Shown(stuck.Runs));
        Timeline between = With(TwoStarts, Spell(LostReason.NoPower, "05:05", "05:30") with { ValveStaysOpen = true });
        Assert.Equal("A1 04:00-04:10, A2 04:10-04:20, A1 06:00-06:10, A2 06:10-06:20", Shown(between.Runs));
    }

    [Fact]
    public void Rule_35_percent_touches_a_program_by_hand_but_not_a_station()
    {
        ControllerState state = new() { HandRuns = [new HandRun(At("10:00"), 4, 100), new HandRun(At("11:00"), 0, 0, 'A')] };
        Timeline timeline = Emulator
            .Run(Plain, Settings(Program('A', "", "1=10m,2=10m", null)) with { PercentAdjust = 50 }, state, Monday, Monday);
        Assert.Equal("*4 10:00-10:01:40, A1 11:00-11:05, A2 11:05-11:10", Shown(timeline.Runs));
        Assert.All(timeline.Runs, r => Assert.Equal(-1, r.Start));
    }

    [Fact]
    public void Rule_36_a_run_by_hand_ends_and_drops_what_runs_and_waits()
    {
        Settings settings = Settings(Program('A', "04:00", "1=10m,2=10m", EveryDay), Program('B', "04:02", "3=10m", EveryDay));
        ControllerState state = new() { HandRuns = [new HandRun(At("04:05"), 4, 60)] };
        Timeline timeline = Emulator.Run(Plain with { PauseBetweenStationsSeconds = 10 }, settings, state, Monday, Monday);
        Assert.Equal("A1 04:00-04:05, *4 04:05:10-04:06:10", Shown(timeline.Runs));
        Assert.Equal("B 04:02 RunByHand", Shown(timeline.LostStarts));
    }

    [Theory]
    [InlineData(OverlapBehaviour.WaitsItsTurn, "*4 03:50-04:05, A1 04:05-04:15, A2 04:15-04:25", "")]
    [InlineData(OverlapBehaviour.Lost, "*4 03:50-04:05", "A 04:00 Running")]
    [InlineData(OverlapBehaviour.RunsBeside, "*4 03:50-04:05, A1 04:00-04:10, A2 04:10-04:20", "")]
    public void Rule_37_a_start_during_a_run_by_hand(OverlapBehaviour overlap, string runs, string lost)
    {
        Settings settings = Settings(Program('A', "04:00", "1=10m,2=10m", EveryDay));
        Timeline timeline = Emulator.Run(Plain with { Overlap = overlap }, settings,
            new ControllerState { HandRuns = [new HandRun(At("03:50"), 4, 900)] }, Monday, Monday);
        Assert.Equal(runs, Shown(timeline.Runs));
        Assert.Equal(lost, Shown(timeline.LostStarts));
    }

    [Fact]
    public void Rule_38_rows_of_runs_by_hand_where_programs_run_beside_each_other()
    {
        Settings settings = Settings(Program('A', "04:00", "1=10m,2=10m", EveryDay), Program('B', "04:00", "3=30m", EveryDay));
        ControllerState state = new() { HandRuns = [new HandRun(At("04:02"), 4, 60), new HandRun(At("04:05"), 0, 0, 'A')] };
        Timeline timeline = Emulator.Run(Plain with { Overlap = OverlapBehaviour.RunsBeside }, settings, state, Monday, Monday);
        Assert.Equal("A1 04:00-04:05, B3 04:00-04:30, *4 04:02-04:03, A1 04:05-04:15, A2 04:15-04:25", Shown(timeline.Runs));
    }

    [Fact]
    public void Rule_39_a_program_by_hand_with_nothing_to_run_does_nothing()
    {
        Settings settings = Settings(Program('A', "04:00", "1=10m", EveryDay), Program('B', "", "", null));
        ControllerState state = new() { HandRuns = [new HandRun(At("04:05"), 0, 0, 'B'), new HandRun(At("04:06"), 0, 0, 'C')] };
        Assert.Equal("A1 04:00-04:10", Shown(Emulator.Run(Plain, settings, state, Monday, Monday).Runs));
    }

    [Theory]
    [InlineData("01:59:59", "03:00:00", "B2 02:00:59-02:10:59")]
    [InlineData("03:00", "02:00", "A1 02:30-02:40, A1 03:30-03:40, B2 04:01-04:11")]
    public void Rule_40_a_jump_skips_or_repeats_a_start(string at, string shows, string expected)
    {
        Settings settings = Settings(Program('A', "02:30", "1=10m", EveryDay), Program('B', "03:01", "2=10m", EveryDay));
        ControllerState state = new() { ClockChanges = [new ClockChange(At(at), At(shows), ClockChangeCause.ByItself)] };
        Assert.Equal(expected, Shown(Emulator.Run(Plain, settings, state, Monday, Monday).Runs));
    }

    [Fact]
    public void Rule_41_a_jump_onto_a_start_time_makes_it_fall_due()
    {
        ControllerState state = new() { ClockChanges = [new ClockChange(At("10:20"), At("06:00"), ClockChangeCause.ByHand)] };
        Assert.Equal(
            "A1 04:00-04:10, A2 04:10-04:20, A1 06:00-06:10, A2 06:10-06:20, A1 10:20-10:30, A2 10:30-10:40",
            Shown(Emulator.Run(Plain, TwoStarts, state, Monday, Monday).Runs));
    }

    [Fact]
    public void Rule_42_a_run_takes_no_notice_of_jumps()
    {
        ControllerState state = new() { ClockChanges = [new ClockChange(At("04:05"), At("12:00"), ClockChangeCause.ByHand)] };
        Assert.Equal(
            "A1 04:00-04:10, A2 04:10-04:20, A1 20:05-20:15, A2 20:15-20:25, A1 22:05-22:15, A2 22:15-22:25",
            Shown(Emulator.Run(Plain, TwoStarts, state, Monday, Monday).Runs));
    }

    [Fact]
    public void Rule_43_what_earlier_starts_leave_open_is_carried_in()
    {
        Settings settings = Settings(Program('A', "23:50", "1=5m,2=15m,3=5m", EveryDay), Program('B', "00:01", "4=5m", EveryDay));
        Timeline timeline = Emulator.Run(Plain, settings, Monday, Monday);
        Assert.Equal("A2 23:55-1-00:10, A3 00:10-00:15", Shown(timeline.CarriedIn));
        Assert.Equal("B4 00:15-00:20, A1 23:50-23:55, A2 23:55-00:10+1, A3 00:10+1-00:15+1", Shown(timeline.Runs));
    }

    [Fact]
    public void Rule_43_days_asked_for_one_by_one_add_up_to_the_whole()
    {
        Settings settings = Settings(Program('A', "23:50,04:00", "1=500m,2=500m", EveryDay), Program('B', "00:01", "4=5m", new OddDays()));
        ControllerState state = new() { KeyedIn = At("00:00"), HandRuns = [new HandRun(At("04:30", 3), 3, 9000)] };
        List<StationRun> single = [];
        for (int day = 0; day < 8; day++)
        {
            LocalDate date = Monday.PlusDays(day);
            single.AddRange(Emulator.Run(Plain, settings, state, date, date).Runs);
        }

        Assert.Equal(Emulator.Run(Plain, settings, state, Monday, Monday.PlusDays(7)).Runs, single.OrderBy(r => r.Opens).ToListOf());
    }

    [Fact]
    public void Rule_44_it_is_idle_before_its_settings_were_keyed_in()
    {
        ControllerState state = new() { KeyedIn = At("05:00") };
        Assert.Equal("A1 06:00-06:10, A2 06:10-06:20", Shown(Emulator.Run(Plain, TwoStarts, state, Monday, Monday).Runs));

        // 33 h 20 min of watering every 24 h: turns begin at hours 0, 33:20, 66:40, 100 (the start of hour 96 is lost),
        // 133:20 and 166:40 of the week before, so that Monday's start, hour 168, waits until hour 200.
        Settings endless = Settings(Program('A', "00:00", "1=1000m,2=1000m", EveryDay));
        Assert.Equal("A1 08:00+1-00:40+2, A2 00:40+2-17:20+2", Shown(Emulator.Run(Plain, endless, Monday, Monday).Runs));
    }

    private static Standstill Spell(LostReason cause, string from, string to) => new(cause, At(from), At(to));

    private static Timeline With(Settings settings, params Standstill[] spells) =>
        Emulator.Run(Plain, settings, new ControllerState { Standstills = spells.ToListOf() }, Monday, Monday);
}
