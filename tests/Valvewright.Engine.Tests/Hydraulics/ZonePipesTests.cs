using NodaTime;
using Valvewright.Engine.Hydraulics;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Hydraulics;

public sealed class ZonePipesTests
{
    private static readonly StationId One = new("Gate", 1);
    private static readonly StationId Two = new("Pond", 1);

    /// <summary>By hand: pressure left = static - friction - rise, with a fixed draw so that the flow is known.</summary>
    [Fact]
    public void Pressure_at_the_end_of_one_pipe_is_static_less_friction_and_rise()
    {
        PipeNetwork network = new(
            [new NetworkPoint("S", 0, Supply: new SupplyCurve([new FlowTestPoint(0, 400)])), new NetworkPoint("end", 3, DrawLpm: 40)],
            [new PipeRun("run", "S", "end", 60, 26.24, 145)]);
        double expected = 400 - HazenWilliams.LossKpa(40, 60, 26.24, 145) - (3 * 9.80665);
        Assert.Equal(expected, NetworkSolver.Solve(network).At("end").PressureKpa, 6);
    }

    /// <summary>By hand: with a falling supply curve the pipe's flow is where curve and friction meet; a draw makes that flow
    /// known.</summary>
    [Fact]
    public void A_supply_that_falls_with_flow_gives_what_its_curve_says()
    {
        SupplyCurve curve = new([new FlowTestPoint(0, 400), new FlowTestPoint(60, 250)]);
        PipeNetwork network = new([new NetworkPoint("S", 0, Supply: curve), new NetworkPoint("end", 0, DrawLpm: 45)],
            [new PipeRun("run", "S", "end", 1, 50, 150)]);
        NetworkBalance balance = NetworkSolver.Solve(network);
        Assert.Equal(curve.PressureKpa(45), balance.At("S").PressureKpa, 6);
        Assert.Equal(45, balance.At("S").SupplyLpm, 6);
    }

    /// <summary>Two equal pipes side by side carry half each, so the loss is 0.5^1.852 of one pipe's.</summary>
    [Fact]
    public void A_loop_shares_the_flow()
    {
        PipeNetwork network = new(
            [new NetworkPoint("S", 0, Supply: new SupplyCurve([new FlowTestPoint(0, 400)])), new NetworkPoint("end", 0, DrawLpm: 40)],
            [new PipeRun("a", "S", "end", 50, 20, 150), new PipeRun("b", "end", "S", 50, 20, 150)]);
        NetworkBalance balance = NetworkSolver.Solve(network);
        Assert.Equal(20, balance.Pipes[0].FlowLpm, 6);
        Assert.Equal(-20, balance.Pipes[1].FlowLpm, 6);
        Assert.Equal(Math.Pow(0.5, 1.852) * HazenWilliams.LossKpa(40, 50, 20, 150), 400 - balance.At("end").PressureKpa, 6);
    }

    [Fact]
    public void A_zone_has_less_pressure_when_its_neighbor_runs()
    {
        ZonePipes pipes = Pipes();
        ZoneRunPressure alone = pipes.Run(One, [One]);
        ZoneRunPressure both = pipes.Run(One, [One, Two]);
        Assert.Empty(alone.With);
        Assert.Equal([Two], both.With);
        Assert.True(both.LowestKpa < alone.LowestKpa);
        Assert.True(both.FlowLpm < alone.FlowLpm);
        Assert.Equal(alone.FlowLpm, alone.SupplyLpm, 4);
        Assert.True(alone.HasEnough);
    }

    /// <summary>At the limit the worst sprinkler has its least pressure, and with a little more it falls short.</summary>
    [Fact]
    public void The_largest_flow_is_where_the_first_zone_falls_short()
    {
        ZonePipes pipes = Pipes();
        BearableFlow limit = pipes.LargestFlow();
        Assert.Empty(limit.FailAlone);
        Assert.NotNull(limit.Zone);
        double Extra(double more)
        {
            double own = pipes.Solve([limit.Zone!]).Points.Sum(p => p.OutletLpm);
            NetworkBalance balance = pipes.Solve([limit.Zone!], limit.DrawnAt, limit.FlowLpm - own + more);
            return pipes.Sprinklers.Where(s => s.Controller == limit.Zone!.Controller)
                .Min(s => balance.At(s.Point).PressureKpa - s.LeastKpa);
        }

        Assert.True(Extra(-5) > 0);
        Assert.True(Extra(10) < 0);
        Assert.Equal(pipes.LargestFlow(), limit);
    }

    [Fact]
    public void A_zone_too_high_above_its_supply_fails_alone_and_sets_no_limit()
    {
        ZonePipes pipes = Pipes(rise: 30);
        BearableFlow limit = pipes.LargestFlow();
        Assert.Equal([Two], limit.FailAlone);
        Assert.Equal(One, limit.Zone);
    }

    [Fact]
    public void A_point_without_a_way_to_a_supply_is_named()
    {
        PipeNetwork network = new(
            [new NetworkPoint("S", 0, Supply: new SupplyCurve([new FlowTestPoint(0, 400)])), new NetworkPoint("far", 0, DrawLpm: 1),
                new NetworkPoint("end", 0)],
            [new PipeRun("a", "S", "end", 50, 20, 150)]);
        Assert.Contains("'far'", Assert.Throws<ArgumentException>(() => NetworkSolver.Solve(network)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(
            () => NetworkSolver.Solve(network with { Pipes = [new PipeRun("a", "S", "nowhere", 50, 20, 150)] }));
        Assert.Throws<ArgumentException>(
            () => NetworkSolver.Solve(network with { Points = [new NetworkPoint("S", 0), new NetworkPoint("end", 0)] }));
    }

    [Fact]
    public void Stations_open_at_the_same_time_are_found()
    {
        Instant start = Instant.FromUtc(2026, 5, 1, 4, 0);
        ListOf<OpenTogether> sets = OpenTogether.Of(
        [
            new(One, start, start + Duration.FromMinutes(20)),
            new(Two, start + Duration.FromMinutes(15), start + Duration.FromMinutes(30)),
            new(new StationId("Gate", 2), start + Duration.FromMinutes(30), start + Duration.FromMinutes(40)),
        ]);
        Assert.Equal([(1, 900L), (1, 600L), (1, 600L), (2, 300L)], sets.Select(s => (s.Zones.Count, s.Seconds)));
    }

    private static ZonePipes Pipes(double rise = 2) => new(
        new PipeNetwork(
            [
                new NetworkPoint("S", 0, Supply: new SupplyCurve([new FlowTestPoint(0, 420), new FlowTestPoint(80, 300)])),
                new NetworkPoint("tee", 0), new NetworkPoint("gate", 1), new NetworkPoint("pond", rise),
            ],
            [
                new PipeRun("main", "S", "tee", 30, 26.24, 145, 10),
                new PipeRun("to gate", "tee", "gate", 20, 20.57, 145),
                new PipeRun("to pond", "tee", "pond", 60, 26.24, 145),
            ]),
        [
            new SprinklerPoint("gate", "Gate", 1, new PressureOutlet(15, 210), 140, 350),
            new SprinklerPoint("pond", "Pond", 1, new PressureOutlet(20, 210), 140, 350),
        ]);
}
