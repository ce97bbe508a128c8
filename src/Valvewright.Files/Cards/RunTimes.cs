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

/// <summary>Run times in a controller's own terms, each part with its unit, so that 0:12 can't be taken for the wrong one. Its spaces do
/// not break.</summary>
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
            ? $"{minutes / 60}\u00a0{words["unit.h"]}\u00a0{minutes % 60:00}\u00a0{words["unit.min"]}"
            : $"{minutes}\u00a0{words["unit.min"]}";
        return style == RunTimeStyle.MinutesAndSeconds || seconds % 60 != 0
            ? $"{text}\u00a0{seconds % 60:00}\u00a0{words["unit.s"]}" : text;
    }
}
