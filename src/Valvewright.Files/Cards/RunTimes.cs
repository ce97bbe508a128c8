using Valvewright.Engine.Controllers;
using Valvewright.Files.Texts;

namespace Valvewright.Files.Cards;

/// <summary>How a controller's display takes a run time.</summary>
internal enum RunTimeStyle
{
    /// <summary>Whole minutes.</summary>
    Minutes,

    /// <summary>Hours and minutes.</summary>
    HoursAndMinutes,

    /// <summary>Minutes and seconds.</summary>
    MinutesAndSeconds,
}

/// <summary>Run times in a controller's own terms, each part with its unit, so that 0:12 can't be taken for the wrong one.</summary>
internal static class RunTimes
{
    /// <summary>The most that two digits of minutes hold.</summary>
    private const int TwoDigits = 99 * 60;

    /// <summary>Seconds where the step asks for them; else hours where two digits of minutes do not hold the limit; else minutes.</summary>
    public static RunTimeStyle StyleOf(Profile profile) =>
        profile.RunTimeStepSeconds % 60 != 0 ? RunTimeStyle.MinutesAndSeconds
        : profile.RunTimeLimitSeconds > TwoDigits ? RunTimeStyle.HoursAndMinutes
        : RunTimeStyle.Minutes;

    /// <summary>A run time; one that the style can't show gets seconds as well.</summary>
    public static string Write(int seconds, RunTimeStyle style, Wording words)
    {
        int minutes = seconds / 60;
        string text = style == RunTimeStyle.HoursAndMinutes
            ? $"{minutes / 60} {words["unit.h"]} {minutes % 60:00} {words["unit.min"]}"
            : $"{minutes} {words["unit.min"]}";
        return style == RunTimeStyle.MinutesAndSeconds || seconds % 60 != 0 ? $"{text} {seconds % 60:00} {words["unit.s"]}" : text;
    }
}
