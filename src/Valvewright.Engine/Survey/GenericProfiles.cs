using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Survey;

/// <summary>Profiles for a first plan, named by what they hold, spread over what small controllers offer.</summary>
/// <remarks>None describes a particular make. Read the controller's own manual and spell its profile out in the site file where it
/// differs.</remarks>
public static class GenericProfiles
{
    private static readonly ListOf<DayRuleKind> EveryRule =
        [DayRuleKind.DaysOfWeek, DayRuleKind.Odd, DayRuleKind.Even, DayRuleKind.Interval];

    /// <summary>All of them, smallest first.</summary>
    public static ListOf<Profile> All { get; } =
    [
        new()
        {
            Name = "1 station, 1 program, 1 start", Stations = 1, Programs = 1, StartTimesPerProgram = 1, StartStepMinutes = 60,
            RunTimeLimitSeconds = 2 * 3600, DayRules = [DayRuleKind.Interval], LargestIntervalDays = 7,
            Percent = PercentRange.None, Overlap = OverlapBehaviour.Lost, KeepsSettingsWithoutPower = false,
        },
        new()
        {
            Name = "1 station, 2 programs, 3 starts", Stations = 1, Programs = 2, StartTimesPerProgram = 3, StartStepMinutes = 15,
            DayRules = [DayRuleKind.DaysOfWeek, DayRuleKind.Interval], LargestIntervalDays = 15,
            Percent = new(10, 200, 10), Rounding = PercentRounding.NearestMinute, LargestRainHoldDays = 3,
        },
        new()
        {
            Name = "2 stations, 2 programs, 4 starts", Stations = 2, Programs = 2, StartTimesPerProgram = 4, StartStepMinutes = 5,
            DayRules = [DayRuleKind.DaysOfWeek, DayRuleKind.Interval], LargestIntervalDays = 14,
            Percent = new(0, 150, 10), Rounding = PercentRounding.NearestSecond, LargestRainHoldDays = 7,
        },
        new()
        {
            Name = "4 stations, 2 programs, 4 starts", Stations = 4, Programs = 2, StartTimesPerProgram = 4, StartStepMinutes = 15,
            DayRules = EveryRule, LargestIntervalDays = 15,
            Percent = new(10, 200, 10), Rounding = PercentRounding.NearestMinute, LargestRainHoldDays = 7, HasSensorInput = true,
        },
        new()
        {
            Name = "4 stations, 3 programs, 4 starts, beside each other", Stations = 4, Programs = 3, StartTimesPerProgram = 4,
            DayRules = EveryRule, LargestIntervalDays = 31, OddSkips31 = true, OddSkips29February = true,
            Percent = new(25, 175, 5), Rounding = PercentRounding.NearestSecond, Overlap = OverlapBehaviour.RunsBeside,
                HasSensorInput = true,
        },
        new()
        {
            Name = "6 stations, 3 programs, 4 starts", Stations = 6, Programs = 3, StartTimesPerProgram = 4, StartStepMinutes = 10,
            DayRules = EveryRule, LargestIntervalDays = 31,
            Percent = new(10, 200, 10), Rounding = PercentRounding.DownToMinute, PauseBetweenStationsSeconds = 10, HasSensorInput = true,
        },
        new()
        {
            Name = "6 stations, 2 programs, 2 starts, late starts lost", Stations = 6, Programs = 2, StartTimesPerProgram = 2,
                StartStepMinutes = 30,
            DayRules = [DayRuleKind.DaysOfWeek], Percent = new(20, 120, 20), Rounding = PercentRounding.UpToMinute,
                Overlap = OverlapBehaviour.Lost,
        },
        new()
        {
            Name = "8 stations, 1 program, 8 starts", Stations = 8, Programs = 1, StartTimesPerProgram = 8,
            DayRules = [DayRuleKind.DaysOfWeek, DayRuleKind.Interval], LargestIntervalDays = 7, Percent = new(10, 200, 10),
        },
        new()
        {
            Name = "8 stations, 4 programs, 8 starts", Stations = 8, Programs = 4, StartTimesPerProgram = 8,
            RunTimeStepSeconds = 10, RunTimeLimitSeconds = 6 * 3600, DayRules = EveryRule, LargestIntervalDays = 31,
            Percent = new(0, 300, 5), Rounding = PercentRounding.NearestSecond, LargestRainHoldDays = 14, HasSensorInput = true,
        },
        new()
        {
            Name = "12 stations, 4 programs, 6 starts", Stations = 12, Programs = 4, StartTimesPerProgram = 6,
            RunTimeLimitSeconds = 6 * 3600, DayRules = EveryRule, LargestIntervalDays = 31,
            Percent = new(0, 200, 1), Rounding = PercentRounding.NearestSecond, PauseBetweenStationsSeconds = 5, LargestRainHoldDays = 14,
            HasSensorInput = true, Pump = new(5, 5),
        },
    ];

    /// <summary>The profile of that name, null where there is none.</summary>
    public static Profile? Named(string name) => All.FirstOrDefault(profile => profile.Name == name);
}
