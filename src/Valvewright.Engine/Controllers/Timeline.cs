using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Controllers;

/// <summary>What a controller opens and closes, by its own clock, in the order of opening.</summary>
/// <param name="Runs">Every run of a station.</param>
/// <param name="LostStarts">Starts that fell due while the controller was running and never happened.</param>
public sealed record Timeline(ListOf<StationRun> Runs, ListOf<LostStart> LostStarts);

/// <summary>One opening of one station.</summary>
/// <param name="Station">Station number, from 1.</param>
/// <param name="Program">The program's letter.</param>
/// <param name="Start">Which of the program's start times, from 0 in rising time of day.</param>
/// <param name="Opens">Seconds of the controller's clock since <see cref="ClockSeconds.Epoch"/>.</param>
/// <param name="Closes">The same, above <paramref name="Opens"/>.</param>
public readonly record struct StationRun(int Station, char Program, int Start, long Opens, long Closes)
{
    /// <summary>When it opens, by the controller's clock.</summary>
    public LocalDateTime OpensAt => ClockSeconds.ToDateTime(Opens);

    /// <summary>When it closes, by the controller's clock.</summary>
    public LocalDateTime ClosesAt => ClockSeconds.ToDateTime(Closes);

    /// <summary>How long it is open.</summary>
    public long Seconds => Closes - Opens;
}

/// <summary>A start time that came due and was not followed.</summary>
/// <param name="Program">The program's letter.</param>
/// <param name="DueAt">When it came due, seconds of the controller's clock.</param>
public readonly record struct LostStart(char Program, long DueAt);

/// <summary>
/// Seconds of a controller's own clock. A clock without daylight saving neither skips nor repeats an hour, so plain
/// counting is exact.
/// </summary>
public static class ClockSeconds
{
    /// <summary>Second zero.</summary>
    public static LocalDateTime Epoch { get; } = new(2000, 1, 1, 0, 0);

    /// <summary>Midnight at the start of a date.</summary>
    public static long AtMidnight(LocalDate date) => Period.DaysBetween(Epoch.Date, date) * 86_400L;

    /// <summary>From a date and time of day (whole seconds).</summary>
    public static long From(LocalDateTime at) => AtMidnight(at.Date) + at.TimeOfDay.NanosecondOfDay / NodaConstants.NanosecondsPerSecond;

    /// <summary>Back to a date and time of day.</summary>
    public static LocalDateTime ToDateTime(long seconds) => Epoch.PlusSeconds(seconds);

    /// <summary>The date on which a second lies.</summary>
    public static LocalDate DateOf(long seconds) => ToDateTime(seconds).Date;
}
