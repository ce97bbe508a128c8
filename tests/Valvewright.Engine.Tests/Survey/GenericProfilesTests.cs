using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Tests.Survey;

public sealed class GenericProfilesTests
{
    [Fact]
    public void Names_are_unique_and_say_what_the_profile_holds()
    {
        Assert.Equal(GenericProfiles.All.Count, GenericProfiles.All.Select(profile => profile.Name).Distinct().Count());
        Assert.All(GenericProfiles.All, profile =>
        {
            string[] words = profile.Name.Split(' ', ',');
            Assert.Equal(profile.Stations.ToString(), words[0]);
            Assert.Contains($"{profile.Programs} program", profile.Name, StringComparison.Ordinal);
            Assert.Contains($"{profile.StartTimesPerProgram} start", profile.Name, StringComparison.Ordinal);
            Assert.Same(profile, GenericProfiles.Named(profile.Name));
        });
    }

    [Fact]
    public void They_spread_over_what_small_controllers_offer()
    {
        Assert.Equal(1, GenericProfiles.All.Min(profile => profile.Stations));
        Assert.Equal(12, GenericProfiles.All.Max(profile => profile.Stations));
        Assert.Equal([1, 2, 3, 4], GenericProfiles.All.Select(profile => profile.Programs).Distinct().Order());
        Assert.Equal(1, GenericProfiles.All.Min(profile => profile.StartTimesPerProgram));
        Assert.Equal(8, GenericProfiles.All.Max(profile => profile.StartTimesPerProgram));
        Assert.Equal(Enum.GetValues<OverlapBehaviour>().Order(), GenericProfiles.All.Select(profile => profile.Overlap).Distinct().Order());
        Assert.Equal(Enum.GetValues<PercentRounding>().Order(), GenericProfiles.All.Select(profile => profile.Rounding).Distinct().Order());
        Assert.Equal(Enum.GetValues<DayRuleKind>().Order(), GenericProfiles.All.SelectMany(profile => profile.DayRules).Distinct().Order());
    }

    [Fact]
    public void Each_can_be_set_to_one_hundred_percent_and_its_steps_divide_a_day() => Assert.All(GenericProfiles.All, profile =>
    {
        Assert.Contains(100, profile.Percent.Settings());
        Assert.Equal(0, 1440 % profile.StartStepMinutes);
        Assert.Equal(0, profile.RunTimeLimitSeconds % profile.RunTimeStepSeconds);
        Assert.True(!profile.DayRules.Contains(DayRuleKind.Interval) || profile.LargestIntervalDays > 1);
    });
}
