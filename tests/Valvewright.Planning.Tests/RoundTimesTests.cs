using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Tests;

/// <summary>Times that a person would key: worked out by hand.</summary>
public sealed class RoundTimesTests
{
    [Theory]
    [InlineData(0, 60, 0)]
    [InlineData(-5, 60, 0)]
    [InlineData(61, 60, 120)]
    [InlineData(60, 60, 60)]
    [InlineData(3599.9, 60, 3600)]
    [InlineData(3600, 60, 3600)]
    [InlineData(3601, 60, 3900)] // 61 min, keyed as 65
    [InlineData(7740, 60, 7800)] // 129 min, keyed as 130
    [InlineData(3601, 1, 3900)]
    [InlineData(3601, 600, 4200)] // the controller takes whole ten minutes
    [InlineData(3601, 240, 3840)] // 4 min don't go into 5
    [InlineData(90, 1, 90)]
    public void Run_times_above_an_hour_go_in_fives(double seconds, int step, int round) =>
        Assert.Equal(round, RoundTimes.Up(seconds, step));

    [Theory]
    [InlineData(1, new[] { 15, 5, 1 })]
    [InlineData(5, new[] { 15, 5 })]
    [InlineData(10, new[] { 30, 10 })]
    [InlineData(15, new[] { 15 })]
    [InlineData(20, new[] { 60, 20 })]
    [InlineData(60, new[] { 60 })]
    public void Start_times_are_looked_for_in_quarters_first(int profileStep, int[] steps) =>
        Assert.Equal(steps, RoundTimes.StartSteps(profileStep));

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(60)]
    [InlineData(600)]
    public void A_round_run_time_is_never_shorter_and_always_keyable(int step)
    {
        for (int seconds = 1; seconds < 4 * 3600; seconds += 97)
        {
            int round = RoundTimes.Up(seconds, step);
            Assert.True(round >= seconds && round % step == 0 && round - seconds < Math.Max(step, 300));
        }
    }
}
