using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Supply;

/// <summary>A source of water that one or more controllers share.</summary>
/// <param name="Name">What people call it.</param>
/// <param name="FlowLpm">The most it gives at once.</param>
/// <param name="StaticPressureKpa">Pressure with everything shut; NaN where not measured.</param>
/// <param name="Permitted">When its water may be used.</param>
public sealed record WaterSupply(string Name, double FlowLpm, double StaticPressureKpa, PermittedTimes Permitted);

/// <summary>When water may be used: on these days, within these hours.</summary>
/// <param name="Hours">Windows of site time, in which all watering must lie; none means any hour.</param>
/// <param name="Weekdays">Permitted days of the week.</param>
/// <param name="Parity">Whether only odd or only even dates are permitted.</param>
/// <param name="DripIsExempt">Whether drip and bubblers may run at any time.</param>
public sealed record PermittedTimes(
    ListOf<TimeWindow> Hours,
    ListOf<IsoDayOfWeek> Weekdays,
    DateParity Parity = DateParity.Any,
    bool DripIsExempt = false)
{
    /// <summary>Any day, any hour.</summary>
    public static PermittedTimes Always { get; } = new([], EveryWeekday);

    /// <summary>Monday to Sunday.</summary>
    public static ListOf<IsoDayOfWeek> EveryWeekday =>
    [
        IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday,
        IsoDayOfWeek.Friday, IsoDayOfWeek.Saturday, IsoDayOfWeek.Sunday,
    ];

    /// <summary>Whether watering may happen on the date at all.</summary>
    /// <remarks>A window that passes midnight belongs to the day on which it opens.</remarks>
    public bool Permits(LocalDate date) =>
        Weekdays.Contains(date.DayOfWeek) && Parity switch
        {
            DateParity.Odd => date.Day % 2 == 1,
            DateParity.Even => date.Day % 2 == 0,
            _ => true,
        };
}

/// <summary>Odd or even dates.</summary>
public enum DateParity
{
    /// <summary>Every date.</summary>
    Any,

    /// <summary>1st, 3rd, ... 31st.</summary>
    Odd,

    /// <summary>2nd, 4th, ... 30th.</summary>
    Even,
}

/// <summary>A span of hours; one that ends at or before its beginning passes midnight.</summary>
/// <param name="From">First moment inside.</param>
/// <param name="To">First moment after; equal to <paramref name="From"/> means a full day.</param>
public sealed record TimeWindow(LocalTime From, LocalTime To)
{
    /// <summary>Whether the window runs into the next day.</summary>
    public bool PassesMidnight => To <= From && To != LocalTime.Midnight;

    /// <summary>Length of the window, above zero and at most a day.</summary>
    public int Seconds
    {
        get
        {
            int seconds = (int)((To.NanosecondOfDay - From.NanosecondOfDay) / NodaConstants.NanosecondsPerSecond);
            return seconds > 0 ? seconds : seconds + (int)NodaConstants.SecondsPerDay;
        }
    }
}
