using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;
using Valvewright.Tests;
using Valvewright.Tests.Twin;

namespace Valvewright.Engine.Tests.Controllers;

/// <summary>The emulator against a controller imitated second by second, on drawn profiles, programs and states.</summary>
public sealed class TwinAgreement
{
    [Fact]
    public void Undisturbed_controllers_agree_over_weeks()
    {
        int events = 0;
        for (int seed = 0; seed < Cases.Of(400); seed++)
        {
            RandomControllers draw = new(seed);
            Profile profile = draw.Profile();
            LocalDate from = draw.Date();
            Settings settings = draw.Settings(profile, from);
            LocalDate to = from.PlusDays(draw.Next(0, 6));
            Timeline fast = Emulator.Run(profile, settings, from, to);
            long begins = ClockSeconds.AtMidnight(from) - Emulator.DaysOfHistory * 86_400L;
            TwinWorldOfState world = new(settings, ControllerState.Undisturbed, begins);
            Timeline slow = new SlowTwin(profile, world).Run(ClockSeconds.AtMidnight(from), ClockSeconds.AtMidnight(to.PlusDays(1)));
            AssertSame(seed, profile, settings, ControllerState.Undisturbed, fast, slow);
            events += fast.Runs.Count + fast.LostStarts.Count;
        }

        Assert.True(events > 4_000, $"only {events} events were compared");
    }

    [Fact]
    public void Fifteen_thousand_disturbed_controllers_agree()
    {
        int events = 0;
        for (int seed = 0; seed < Cases.Of(15_000); seed++)
        {
            (Profile profile, Settings settings, ControllerState state, long from, long to) = Disturbed(seed, hours: 20);
            Timeline fast = TimelineOf(profile, settings, state, from, to);
            Timeline slow = new SlowTwin(profile, new TwinWorldOfState(settings, state, state.KeyedIn!.Value)).Run(from, to);
            AssertSame(seed, profile, settings, state, fast, slow);
            events += fast.Runs.Count + fast.LostStarts.Count;
        }

        Assert.True(events > 30_000, $"only {events} events were compared");
    }

    [Fact]
    public void Five_hundred_disturbed_controllers_agree_over_a_week()
    {
        for (int seed = 0; seed < Cases.Of(500); seed++)
        {
            (Profile profile, Settings settings, ControllerState state, long from, long to) = Disturbed(1_000_000 + seed, hours: 170);
            Timeline fast = TimelineOf(profile, settings, state, from, to);
            Timeline slow = new SlowTwin(profile, new TwinWorldOfState(settings, state, state.KeyedIn!.Value)).Run(from, to);
            AssertSame(seed, profile, settings, state, fast, slow);
        }
    }

    [Fact]
    public void The_twin_misses_nothing_between_the_seconds_it_looks_at()
    {
        for (int seed = 0; seed < 40; seed++)
        {
            (Profile profile, Settings settings, ControllerState state, long from, long to) = Disturbed(2_000_000 + seed, hours: 20);
            Timeline all = new SlowTwin(
                profile, new TwinWorldOfState(settings, state, state.KeyedIn!.Value), everySecond: true).Run(from, to);
            Timeline some = new SlowTwin(profile, new TwinWorldOfState(settings, state, state.KeyedIn!.Value)).Run(from, to);
            AssertSame(seed, profile, settings, state, some, all);
        }
    }

    private static (Profile Profile, Settings Settings, ControllerState State, long From, long To) Disturbed(int seed, int hours)
    {
        RandomControllers draw = new(seed);
        Profile profile = draw.Profile();
        LocalDate date = draw.Date();
        Settings settings = draw.Settings(profile, date);
        long keyedIn = ClockSeconds.AtMidnight(date) + draw.Pick(0, 12, 20, 22) * 3600L;
        long to = keyedIn + draw.Next(hours / 3, hours) * 3600L;
        long from = draw.Pick(keyedIn, draw.Within(keyedIn, to));
        return (profile, settings, draw.State(profile, settings, keyedIn, to), from, to);
    }

    private static Timeline TimelineOf(Profile profile, Settings settings, ControllerState state, long from, long to)
    {
        Collected collected = new();
        Emulator.Run(profile, settings, state, from, to, ref collected);
        return collected.ToTimeline();
    }

    private static void AssertSame(int seed, Profile profile, Settings settings, ControllerState state, Timeline fast, Timeline slow)
    {
        if (!fast.Equals(slow))
        {
            Assert.Fail($"""
                Seed {seed}.
                {System.Text.Json.JsonSerializer.Serialize(profile, Json.Compact)}
                {System.Text.Json.JsonSerializer.Serialize(settings, Json.Compact)}
                {System.Text.Json.JsonSerializer.Serialize(state, Json.Compact)}
                {Differences.First("runs", fast.Runs, slow.Runs)}
                {Differences.First("carried in", fast.CarriedIn, slow.CarriedIn)}
                {Differences.First("lost", fast.LostStarts, slow.LostStarts)}
                {Differences.First("pump", fast.PumpRuns, slow.PumpRuns)}
                """);
        }
    }
}
