using NodaTime;

namespace Valvewright.Engine.Values;

/// <summary>A span of dates that comes back every year; it may run over the new year.</summary>
/// <param name="From">First date inside.</param>
/// <param name="To">Last date inside; before <paramref name="From"/> in the calendar when the span runs over the new year.</param>
public sealed record PeriodOfYear(AnnualDate From, AnnualDate To)
{
    /// <summary>1 January to 31 December.</summary>
    public static PeriodOfYear WholeYear { get; } = new(new AnnualDate(1, 1), new AnnualDate(12, 31));

    /// <summary>Whether the span runs over the new year.</summary>
    public bool RunsOverNewYear => To < From;

    /// <summary>Whether a date lies inside. 29 February counts as the day after 28 February.</summary>
    public bool Contains(LocalDate date)
    {
        AnnualDate day = new(date.Month, date.Day);
        return RunsOverNewYear ? day >= From || day <= To : day >= From && day <= To;
    }

    /// <summary>How many days it has in a year of 365.</summary>
    public int Days
    {
        get
        {
            int days = Period.DaysBetween(From.InYear(2001), To.InYear(2001)) + 1;
            return days > 0 ? days : days + 365;
        }
    }
}
