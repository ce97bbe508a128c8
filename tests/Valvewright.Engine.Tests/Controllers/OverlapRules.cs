using Valvewright.Engine.Controllers;
using static Valvewright.Engine.Tests.Controllers.Words;

namespace Valvewright.Engine.Tests.Controllers;

/// <summary>Rules 16 to 28 of docs/emulator.md: starts that meet, and the pump output.</summary>
public sealed class OverlapRules
{
    private static readonly Settings Meeting = Settings(
        Program('A', "04:00", "1=10m,2=10m", EveryDay),
        Program('B', "04:05", "3=10m", EveryDay),
        Program('C', "04:03", "4=10m", EveryDay));

    [Fact]
    public void Rule_16_a_start_waits_its_turn() =>
        Assert.Equal("A1 04:00-04:10, A2 04:10-04:20, C4 04:20-04:30, B3 04:30-04:40",
            Shown(On(OverlapBehaviour.WaitsItsTurn, Meeting).Runs));

    [Fact]
    public void Rule_17_a_start_is_lost()
    {
        Timeline timeline = On(OverlapBehaviour.Lost, Meeting);
        Assert.Equal("A1 04:00-04:10, A2 04:10-04:20", Shown(timeline.Runs));
        Assert.Equal("C 04:03 Running, B 04:05 Running", Shown(timeline.LostStarts));

        // B waits for A's pause to end; C falls due in that pause, too.
        Settings pause = Settings(
            Program('A', "04:00", "1=10m", EveryDay), Program('B', "04:10", "2=10m", EveryDay), Program('C', "04:10", "3=10m", EveryDay));
        Timeline paused = Emulator
            .Run(Plain with { Overlap = OverlapBehaviour.Lost, PauseBetweenStationsSeconds = 60 }, pause, Monday, Monday);
        Assert.Equal("A1 04:00-04:10, B2 04:11-04:21", Shown(paused.Runs));
        Assert.Equal("C 04:10 Running", Shown(paused.LostStarts));
    }

    [Fact]
    public void Rule_18_programs_run_beside_each_other() =>
        Assert.Equal("A1 04:00-04:10, C4 04:03-04:13, B3 04:05-04:15, A2 04:10-04:20",
            Shown(On(OverlapBehaviour.RunsBeside, Meeting).Runs));

    [Theory]
    [InlineData(OverlapBehaviour.WaitsItsTurn, "A1 04:00-04:20, A1 04:20-04:40")]
    [InlineData(OverlapBehaviour.RunsBeside, "A1 04:00-04:20, A1 04:20-04:40")]
    [InlineData(OverlapBehaviour.Lost, "A1 04:00-04:20")]
    public void Rule_19_its_own_later_start(OverlapBehaviour overlap, string expected) =>
        Assert.Equal(expected, Shown(On(overlap, Settings(Program('A', "04:00,04:10", "1=20m", EveryDay))).Runs));

    [Fact]
    public void Rule_20_a_program_waits_at_most_once()
    {
        Timeline timeline = On(OverlapBehaviour.WaitsItsTurn, Settings(Program('A', "04:00,04:05,04:10,04:25", "1=20m", EveryDay)));
        Assert.Equal("A1 04:00-04:20, A1 04:20-04:40, A1 04:40-05:00", Shown(timeline.Runs));
        Assert.Equal("A 04:10 AlreadyWaiting", Shown(timeline.LostStarts));
    }

    [Theory]
    [InlineData(OverlapBehaviour.WaitsItsTurn, "A1 04:00-04:10, B2 04:10-04:20", "")]
    [InlineData(OverlapBehaviour.RunsBeside, "A1 04:00-04:10, B2 04:00-04:10", "")]
    [InlineData(OverlapBehaviour.Lost, "A1 04:00-04:10", "B 04:00 Running")]
    public void Rule_21_equal_starts_follow_in_the_order_of_letters(OverlapBehaviour overlap, string runs, string lost)
    {
        Timeline timeline = On(overlap, Settings(Program('A', "04:00", "1=10m", EveryDay), Program('B', "04:00", "2=10m", EveryDay)));
        Assert.Equal(runs, Shown(timeline.Runs));
        Assert.Equal(lost, Shown(timeline.LostStarts));
    }

    [Theory]
    [InlineData(OverlapBehaviour.WaitsItsTurn)]
    [InlineData(OverlapBehaviour.Lost)]
    public void Rule_22_a_start_on_the_second_of_closing_does_not_overlap(OverlapBehaviour overlap)
    {
        Timeline timeline = On(overlap, Settings(Program('A', "04:00", "1=10m", EveryDay), Program('B', "04:10", "2=10m", EveryDay)));
        Assert.Equal("A1 04:00-04:10, B2 04:10-04:20", Shown(timeline.Runs));
        Assert.Empty(timeline.LostStarts);
    }

    [Fact]
    public void Rule_23_the_pause_is_kept_between_programs_too()
    {
        Settings settings = Settings(Program('A', "04:00", "1=10m,2=10m", EveryDay), Program('B', "04:20", "3=10m", EveryDay),
            Program('C', "04:05", "4=10m", EveryDay));
        Profile profile = Plain with { PauseBetweenStationsSeconds = 90 };
        Assert.Equal(
            "A1 04:00-04:10, A2 04:11:30-04:21:30, C4 04:23-04:33, B3 04:34:30-04:44:30",
            Shown(Emulator.Run(profile, settings, Monday, Monday).Runs));
    }

    [Fact]
    public void Rule_24_the_station_waits_for_the_lead()
    {
        Timeline timeline = WithPump(new PumpOutput(20, 0), 0, Settings(Program('A', "04:00", "1=10m,2=10m", EveryDay)));
        Assert.Equal("A1 04:00:20-04:10:20, A2 04:10:20-04:20:20", Shown(timeline.Runs));
        Assert.Equal("04:00-04:20:20", Shown(timeline.PumpRuns));
    }

    [Fact]
    public void Rule_25_the_output_goes_off_after_the_lag() =>
        Assert.Equal("04:00-04:10:30",
            Shown(WithPump(new PumpOutput(0, 30), 0, Settings(Program('A', "04:00", "1=10m", EveryDay))).PumpRuns));

    [Theory]
    [InlineData(60, "A1 04:00:20-04:10:20, A2 04:11:20-04:21:20", "04:00-04:22:20")]
    [InlineData(59, "A1 04:00:20-04:10:20, A2 04:11:40-04:21:40", "04:00-04:11:19, 04:11:20-04:22:39")]
    public void Rule_26_the_lead_is_waited_for_again_after_a_gap_longer_than_the_lag(int lag, string runs, string pump)
    {
        Timeline timeline = WithPump(new PumpOutput(20, lag), 60, Settings(Program('A', "04:00", "1=10m,2=10m", EveryDay)));
        Assert.Equal(runs, Shown(timeline.Runs));
        Assert.Equal(pump, Shown(timeline.PumpRuns));
    }

    [Fact]
    public void Rule_27_programs_beside_each_other_share_the_output()
    {
        Settings settings = Settings(
            Program('A', "04:00", "1=10m", EveryDay), Program('B', "04:01", "2=10m", EveryDay), Program('C', "04:05", "3=2m", EveryDay));
        Profile profile = Plain with { Overlap = OverlapBehaviour.RunsBeside, Pump = new PumpOutput(90, 10) };
        Timeline timeline = Emulator.Run(profile, settings, Monday, Monday);
        Assert.Equal("A1 04:01:30-04:11:30, B2 04:01:30-04:11:30, C3 04:05-04:07", Shown(timeline.Runs));
        Assert.Equal("04:00-04:11:40", Shown(timeline.PumpRuns));
    }

    [Fact]
    public void Rule_28_without_power_the_output_is_off()
    {
        ControllerState state = new()
            { Standstills = [new Standstill(LostReason.NoPower, At("04:05"), At("05:00"), ValveStaysOpen: true)] };
        Profile profile = Plain with { Pump = new PumpOutput(0, 60) };
        Timeline timeline = Emulator.Run(profile, Settings(Program('A', "04:00", "1=10m", EveryDay)), state, Monday, Monday);
        Assert.Equal("04:00-04:05", Shown(timeline.PumpRuns));
    }

    private static Timeline On(OverlapBehaviour overlap, Settings settings) =>
        Emulator.Run(Plain with { Overlap = overlap }, settings, Monday, Monday);

    private static Timeline WithPump(PumpOutput pump, int pause, Settings settings) =>
        Emulator.Run(Plain with { Pump = pump, PauseBetweenStationsSeconds = pause }, settings, Monday, Monday);
}
