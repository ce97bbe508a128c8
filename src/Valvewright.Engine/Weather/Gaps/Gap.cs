using NodaTime;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Weather.Gaps;

/// <summary>What a record can lack.</summary>
public enum WeatherVariable
{
    /// <summary>Highest and lowest air temperature.</summary>
    Temperature,

    /// <summary>Humidity, dew point or vapour pressure.</summary>
    Humidity,

    /// <summary>Solar radiation.</summary>
    Radiation,

    /// <summary>Wind speed.</summary>
    Wind,

    /// <summary>Rain.</summary>
    Rain,

    /// <summary>Reference evapotranspiration as a whole, where the day has too little to compute it.</summary>
    ReferenceEvapotranspiration,
}

/// <summary>What was done about it.</summary>
public enum FillMethod
{
    /// <summary>A straight line between the nearest measured days; before the first or after the last, that day's value.</summary>
    Interpolated,

    /// <summary>The mean of that day of the year and the seven days on either side, over the whole record.</summary>
    TimeOfYearMean,

    /// <summary>The value that the source publishes.</summary>
    Published,

    /// <summary>Dew point taken near the lowest temperature (FAO-56 eq. 48).</summary>
    FromLowestTemperature,

    /// <summary>From hours of sunshine (FAO-56 eq. 35).</summary>
    FromSunshine,

    /// <summary>From the range of temperature (FAO-56 eq. 50).</summary>
    FromTemperatureRange,

    /// <summary>The mean of the days of the record that have it.</summary>
    MeanOfRecord,

    /// <summary>The world-wide mean, 2 m/s of wind at 2 m (FAO-56, chapter 3).</summary>
    WorldMean,

    /// <summary>The value that the options state.</summary>
    Stated,

    /// <summary>A formula that needs temperatures alone (Hargreaves and Samani 1985).</summary>
    NotNeeded,

    /// <summary>The rain of the same dates in the year whose rain on them is the median of all years that have them.</summary>
    MedianYear,

    /// <summary>Taken as no rain, for lack of any year that has those dates.</summary>
    TakenAsNone,
}

/// <summary>A run of days on which something was not measured, or was refused, and what was done about it.</summary>
/// <param name="Variable">What was missing.</param>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
/// <param name="Method">What is in its place.</param>
public readonly record struct Gap(WeatherVariable Variable, LocalDate From, LocalDate To, FillMethod Method)
{
    /// <summary>How many days.</summary>
    public int Days => Period.DaysBetween(From, To) + 1;
}

/// <summary>Everything that a climate holds which was not measured.</summary>
/// <param name="Gaps">By variable, then date.</param>
/// <param name="DaysOfRecord">Days from the first to the last date of the record, absent ones included.</param>
/// <param name="AbsentDates">How many dates the record leaves out altogether.</param>
public sealed record GapReport(ListOf<Gap> Gaps, int DaysOfRecord, int AbsentDates)
{
    /// <summary>Days on which a variable was not measured.</summary>
    public int DaysWithout(WeatherVariable variable) => Gaps.Where(g => g.Variable == variable).Sum(g => g.Days);

    /// <summary>
    /// Days of a range on which rain or reference ET is not from that day's own weather. What the record never has does not count:
    /// it tells no year from another.
    /// </summary>
    public int FilledDays(LocalDate from, LocalDate to) =>
        Math.Max(DaysFilled(WeatherVariable.Rain, from, to), DaysFilled(WeatherVariable.ReferenceEvapotranspiration, from, to));

    private int DaysFilled(WeatherVariable variable, LocalDate from, LocalDate to) =>
        DaysWithout(variable) == DaysOfRecord ? 0
            : Gaps.Where(g => g.Variable == variable && g.Method != FillMethod.Published && g.From <= to && g.To >= from)
            .Sum(g => Period.DaysBetween(LocalDate.Max(g.From, from), LocalDate.Min(g.To, to)) + 1);
}
