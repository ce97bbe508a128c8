using NodaTime;
using Valvewright.Engine.Storage;

namespace Valvewright.Engine.Tests.Storage;

public sealed class TankLevelTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 5, 1, 4, 0);
    private static readonly WaterTank Tank = new(1000, 5, 100);

    /// <summary>By hand: 20 L/min for 30 min takes 15 L/min net, 450 L: 550 left; 90 min at 5 L/min fill it again.</summary>
    [Fact]
    public void A_tank_falls_by_draw_less_refill_and_fills_again()
    {
        TankLevel level = TankLevel.Of(Tank, [Spell(0, 30, 20)]);
        Assert.Equal(550, level.LowestL, 9);
        Assert.Equal(At(30), level.LowestAt);
        Assert.True(level.Serves);
        Assert.Equal(120, level.RefillLeft.TotalMinutes, 6);
    }

    /// <summary>By hand: 900 L are there; at 35 L/min net they last 25.71 min; the last 4.29 min fall short by 150 L.</summary>
    [Fact]
    public void A_tank_that_is_drawn_too_far_says_when_and_by_how_much()
    {
        TankLevel level = TankLevel.Of(Tank, [Spell(0, 30, 40)]);
        Assert.False(level.Serves);
        Assert.Equal(900 / 35.0, (level.ShortFrom!.Value - Start).TotalMinutes, 1e-6);
        Assert.Equal(150, level.ShortL, 6);
        Assert.Equal(100, level.LowestL, 9);
    }

    [Fact]
    public void Draws_at_the_same_time_add_up_and_a_pause_refills()
    {
        TankLevel together = TankLevel.Of(Tank, [Spell(0, 20, 15), Spell(0, 20, 15)]);
        TankLevel apart = TankLevel.Of(Tank, [Spell(0, 20, 15), Spell(80, 100, 15)]);
        Assert.Equal(500, together.LowestL, 9);
        Assert.Equal(800, apart.LowestL, 9);
    }

    /// <summary>By hand: 900 L and 8 hours of refill at 5 L/min.</summary>
    [Fact]
    public void The_largest_draw_of_a_night_is_tank_and_refill() => Assert.Equal(900 + 2400, Tank.LargestDrawL(Duration.FromHours(8)), 9);

    [Fact]
    public void Starts_are_counted_in_the_busiest_hour_and_short_pauses_join()
    {
        FlowSpell[] spells = [Spell(0, 5, 1), Spell(10, 15, 1), Spell(20, 25, 1), Spell(55, 58, 1), Spell(70, 75, 1)];
        Assert.Equal(4, PumpStarts.Of(spells, Duration.FromMinutes(1)).MostPerHour);
        Assert.Equal(2, PumpStarts.Of(spells, Duration.FromMinutes(5)).MostPerHour);
        Assert.Equal(0, PumpStarts.Of([], Duration.Zero).MostPerHour);
    }

    private static FlowSpell Spell(int from, int to, double lpm) => new(At(from), At(to), lpm);

    private static Instant At(int minutes) => Start + Duration.FromMinutes(minutes);
}
