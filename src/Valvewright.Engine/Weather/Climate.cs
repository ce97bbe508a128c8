using NodaTime;

namespace Valvewright.Engine.Weather;

/// <summary>
/// Reference evapotranspiration and rain of every day from a first date on, without a gap: what the root-zone balance lives on.
/// </summary>
public sealed class Climate
{
    /// <summary>Takes the daily values over; lengths must agree, no value may be NaN or negative.</summary>
    /// <exception cref="ArgumentException">Lengths differ or a value is not a depth of water.</exception>
    public Climate(LocalDate first, double[] etoMm, double[] rainMm)
    {
        ArgumentNullException.ThrowIfNull(etoMm);
        ArgumentNullException.ThrowIfNull(rainMm);
        if (etoMm.Length != rainMm.Length)
        {
            throw new ArgumentException($"{etoMm.Length} days of ETo, but {rainMm.Length} days of rain.");
        }

        for (int day = 0; day < etoMm.Length; day++)
        {
            if (!(etoMm[day] >= 0) || !(rainMm[day] >= 0))
            {
                throw new ArgumentException($"{first.PlusDays(day)}: ETo {etoMm[day]} mm, rain {rainMm[day]} mm; both must be 0 or more.");
            }
        }

        First = first;
        EtoMm = etoMm;
        RainMm = rainMm;
    }

    /// <summary>Date of day 0.</summary>
    public LocalDate First { get; }

    /// <summary>Reference ET by day, mm.</summary>
    public double[] EtoMm { get; }

    /// <summary>Rain by day, mm.</summary>
    public double[] RainMm { get; }

    /// <summary>How many days.</summary>
    public int Days => EtoMm.Length;

    /// <summary>Date of the last day.</summary>
    public LocalDate Last => First.PlusDays(Days - 1);

    /// <summary>Date of a day.</summary>
    public LocalDate DateOf(int day) => First.PlusDays(day);

    /// <summary>Number of the day on a date; may lie outside 0 to <see cref="Days"/>.</summary>
    public int DayOf(LocalDate date) => Period.DaysBetween(First, date);

    /// <summary>The days from one date to another, both included.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The dates reach beyond the record.</exception>
    public Climate Between(LocalDate from, LocalDate to)
    {
        int start = DayOf(from);
        int end = DayOf(to) + 1;
        ArgumentOutOfRangeException.ThrowIfNegative(start);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(end, Days);
        return new Climate(from, EtoMm[start..end], RainMm[start..end]);
    }
}
