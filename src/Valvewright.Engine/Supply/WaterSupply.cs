using System.Text.Json.Serialization;
using NodaTime;
using Valvewright.Engine.Storage;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Supply;

/// <summary>A source of water that one or more controllers share.</summary>
/// <param name="Name">What people call it.</param>
/// <param name="FlowLpm">The most it gives at once.</param>
/// <param name="StaticPressureKpa">Pressure with everything shut; NaN where not measured.</param>
/// <param name="Permitted">When its water may be used.</param>
public sealed record WaterSupply(string Name, double FlowLpm, double StaticPressureKpa, PermittedTimes Permitted)
{
    /// <summary>Dates on which the supply is on; null: all year.</summary>
    public PeriodOfYear? On { get; init; }

    /// <summary>Electrical conductivity of the water, dS/m; 0 where it is fresh or not known. Sets the leaching that the plants
    /// need.</summary>
    public double SalinityDsPerM { get; init; }

    /// <summary>Where the water comes from; null where the survey does not say.</summary>
    public SupplyKind? Kind { get; init; }

    /// <summary>The tank that it draws from; null where it has none, or none was surveyed.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public WaterTank? Tank { get; init; }

    /// <summary>What its pump allows; null where it has none, or no limit is known.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public PumpLimit? Pump { get; init; }

    /// <summary>Whether it is reclaimed water: it is marked, and handled with the cautions that go with it.</summary>
    [JsonIgnore]
    public bool IsReclaimed => Kind == SupplyKind.Reclaimed;
}

/// <summary>Where the water of a supply comes from.</summary>
public enum SupplyKind
{
    /// <summary>Drinking water from the mains.</summary>
    Potable,

    /// <summary>Treated waste water, marked purple.</summary>
    Reclaimed,

    /// <summary>A well.</summary>
    Well,

    /// <summary>A stream, canal, pond or lake.</summary>
    SurfaceWater,

    /// <summary>A tank filled by truck or by rain.</summary>
    Tank,
}

/// <summary>When water may be used: on these days, within these hours.</summary>
/// <remarks>
/// Days and dates are calendar dates, midnight to midnight: hours that are forbidden are holes in each permitted date. Only a window that
/// passes midnight reaches into the next date; it belongs to the date on which it opens, which its owner may have meant otherwise
/// (<see cref="IsInDoubt"/>).
/// </remarks>
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

    /// <summary>Whether every date is permitted.</summary>
    [JsonIgnore]
    public bool EveryDate => Parity == DateParity.Any && Weekdays.Distinct().Count() == EveryWeekday.Count;

    /// <summary>
    /// Whether a window passes midnight while some dates are forbidden: by the letter its morning falls on another date than its evening,
    /// and only the owner of the rule can say which was meant.
    /// </summary>
    [JsonIgnore]
    public bool IsInDoubt => !EveryDate && Hours.Any(h => h.PassesMidnight);

    /// <summary>The other reading of a window that passes midnight: its evening and its morning both on permitted dates.</summary>
    public PermittedTimes ByCalendarDate() => this with
    {
        Hours =
        [
            .. Hours.Where(h => h.PassesMidnight).Select(h => new TimeWindow(LocalTime.Midnight, h.To)),
            .. Hours.Select(h => h.PassesMidnight ? h with { To = LocalTime.Midnight } : h),
        ],
    };

    /// <summary>The hours as people say them: what ends at midnight and what begins there are one window, where every date is
    /// permitted.</summary>
    public ListOf<TimeWindow> HoursInOne()
    {
        TimeWindow? evening = Hours.FirstOrDefault(h => h.To == LocalTime.Midnight && h.From != LocalTime.Midnight);
        TimeWindow? morning = Hours.FirstOrDefault(h => h.From == LocalTime.Midnight && h.To != LocalTime.Midnight);
        return !EveryDate || evening is null || morning is null
            ? Hours
            : [.. Hours.Where(h => h != evening && h != morning), new TimeWindow(evening.From, morning.To)];
    }

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
