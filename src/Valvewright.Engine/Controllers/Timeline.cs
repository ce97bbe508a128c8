using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Controllers;

/// <summary>What a controller opens and closes, by its own clock, in the order of opening.</summary>
/// <param name="Runs">Every run of a station whose start fell due within the dates asked for.</param>
/// <param name="LostStarts">Starts that fell due and were not followed, each with its reason.</param>
public sealed record Timeline(ListOf<StationRun> Runs, ListOf<LostStart> LostStarts)
{
    /// <summary>Runs of earlier starts that are open at the first midnight or open after it.</summary>
    public ListOf<StationRun> CarriedIn { get; init; } = [];

    /// <summary>When the pump or master valve output is on; empty where the profile has none.</summary>
    public ListOf<PumpRun> PumpRuns { get; init; } = [];
}

/// <summary>One opening of one station.</summary>
/// <param name="Station">Station number, from 1.</param>
/// <param name="Program">The program's letter, or <see cref="ByHand"/> for a station opened by hand.</param>
/// <param name="Start">Which of the program's start times, from 0 in rising time of day; -1 for a run by hand.</param>
/// <param name="Opens">Seconds of the controller's clock since <see cref="ClockSeconds.Epoch"/>.</param>
/// <param name="Closes">The same, above <paramref name="Opens"/>.</param>
public readonly record struct StationRun(int Station, char Program, int Start, long Opens, long Closes)
{
    /// <summary>Stands in place of a program's letter where one station was opened by hand.</summary>
    public const char ByHand = '*';

    /// <summary>When it opens, by the controller's clock.</summary>
    public LocalDateTime OpensAt => ClockSeconds.ToDateTime(Opens);

    /// <summary>When it closes, by the controller's clock.</summary>
    public LocalDateTime ClosesAt => ClockSeconds.ToDateTime(Closes);

    /// <summary>How long it is open.</summary>
    public long Seconds => Closes - Opens;
}

/// <summary>One spell for which the pump or master valve output is on.</summary>
/// <param name="On">Seconds of the controller's clock.</param>
/// <param name="Off">The same, at or above <paramref name="On"/>.</param>
public readonly record struct PumpRun(long On, long Off);

/// <summary>A start that came due and was not followed.</summary>
/// <param name="Program">The program's letter, or <see cref="StationRun.ByHand"/>.</param>
/// <param name="DueAt">When it came due, seconds of the controller's clock.</param>
/// <param name="Reason">Why it was not followed.</param>
public readonly record struct LostStart(char Program, long DueAt, LostReason Reason = LostReason.Running);

/// <summary>Why a start was not followed.</summary>
public enum LostReason
{
    /// <summary>A program was running, and the controller does not let a start wait.</summary>
    Running,

    /// <summary>An earlier start of the same program was still waiting.</summary>
    AlreadyWaiting,

    /// <summary>It was set to off.</summary>
    Off,

    /// <summary>A rain delay was in force.</summary>
    RainHold,

    /// <summary>The rain sensor was wet.</summary>
    SensorWet,

    /// <summary>It had no power.</summary>
    NoPower,

    /// <summary>It waited its turn when a person started a run by hand.</summary>
    RunByHand,
}

/// <summary>
/// Seconds of a controller's own clock. A clock without daylight saving neither skips nor repeats an hour, so plain
/// counting is exact.
/// </summary>
public static class ClockSeconds
{
    /// <summary>Seconds of a day.</summary>
    public const long PerDay = 86_400;

    /// <summary>Second zero.</summary>
    public static LocalDateTime Epoch { get; } = new(2000, 1, 1, 0, 0);

    /// <summary>Midnight at the start of a date.</summary>
    public static long AtMidnight(LocalDate date) => Period.DaysBetween(Epoch.Date, date) * PerDay;

    /// <summary>From a date and time of day (whole seconds).</summary>
    public static long From(LocalDateTime at) => AtMidnight(at.Date) + at.TimeOfDay.NanosecondOfDay / NodaConstants.NanosecondsPerSecond;

    /// <summary>Back to a date and time of day.</summary>
    public static LocalDateTime ToDateTime(long seconds) => Epoch.PlusSeconds(seconds);

    /// <summary>The date on which a second lies.</summary>
    public static LocalDate DateOf(long seconds) => ToDateTime(seconds).Date;
}
