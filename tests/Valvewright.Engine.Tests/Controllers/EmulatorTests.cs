using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;
using static Valvewright.Engine.Tests.Controllers.Words;

namespace Valvewright.Engine.Tests.Controllers;

/// <summary>What holds for every run of the emulator, apart from the rules of docs/emulator.md.</summary>
public sealed class EmulatorTests
{
    private static readonly Settings Busy = Settings(
        Program('A', "04:00,06:00,20:00", "1=10m,2=10m,3=5m", EveryDay),
        Program('B', "04:05", "4=10m", new OddDays()));

    [Fact]
    public void Nothing_is_allocated_for_an_event()
    {
        long one = Allocated(1);
        long ten = Allocated(10);
        Assert.Equal(one, ten);
    }

    [Fact]
    public void A_timeline_and_a_state_survive_json()
    {
        ControllerState state = new()
        {
            KeyedIn = At("00:00"),
            Standstills = [new Standstill(LostReason.Off, At("05:00"), At("07:00"))],
            HandRuns = [new HandRun(At("09:00"), 2, 60)],
            ClockChanges = [new ClockChange(At("10:00"), At("22:00"), ClockChangeCause.ByHand)],
            SettingsChanges = [new SettingsChange(At("12:00"), Busy with { PercentAdjust = 50 })],
            DaysLeft = [new DaysLeft('A', 1)],
        };
        Assert.Equal(state, Json.Read<ControllerState>(Json.Write(state)));
        Timeline timeline = Emulator.Run(Plain with { Pump = new PumpOutput(5, 5) }, Busy, state, Monday, Monday.PlusDays(2));
        Assert.NotEmpty(timeline.LostStarts);
        Assert.Equal(timeline, Json.Read<Timeline>(Json.Write(timeline)));
    }

    [Fact]
    public void An_interval_of_no_days_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(
            () => Emulator.Run(Plain, Settings(Program('A', "04:00", "1=1m", new EveryNDays(0, Monday))), Monday, Monday));

    private static long Allocated(int years)
    {
        Counting sink = default;
        Emulator.Run(Plain, Busy, ControllerState.Undisturbed, At("00:00"), At("00:00", 365 * years), ref sink);
        long before = GC.GetAllocatedBytesForCurrentThread();
        Emulator.Run(Plain, Busy, ControllerState.Undisturbed, At("00:00"), At("00:00", 365 * years), ref sink);
        long after = GC.GetAllocatedBytesForCurrentThread();
        Assert.True(sink.Runs > 6000 * years);
        return after - before;
    }

    private struct Counting : IRunSink
    {
        public int Runs { get; private set; }

        public void Ran(in StationRun run) => Runs++;

        public readonly void CarriedIn(in StationRun run)
        {
        }

        public readonly void Lost(in LostStart start)
        {
        }

        public readonly void Pumped(in PumpRun run)
        {
        }
    }
}
