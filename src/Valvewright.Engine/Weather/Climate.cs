using NodaTime;

namespace Valvewright.Engine.Weather;

/// <summary>
/// Reference evapotranspiration and rain of every day from a first date on, without a gap: what the root-zone balance lives on.
/// Temperatures may be known too; they decide about snow, frozen soil and dormant turf.
/// </summary>
public sealed class Climate
{
    /// <summary>Takes the daily values over; lengths must agree, no ETo or rain may be NaN or negative.</summary>
    /// <param name="first">Date of day 0.</param>
    /// <param name="etoMm">Reference ET by day, mm.</param>
    /// <param name="rainMm">Rain or melted snow by day, mm.</param>
    /// <param name="meanC">Mean temperature by day, degrees C, NaN where not known; null where no day is.</param>
    /// <param name="leastC">Lowest temperature by day, the same.</param>
    /// <exception cref="ArgumentException">Lengths differ or a value is not a depth of water.</exception>
    public Climate(LocalDate first, double[] etoMm, double[] rainMm, double[]? meanC = null, double[]? leastC = null)
    {
        ArgumentNullException.ThrowIfNull(etoMm);
        ArgumentNullException.ThrowIfNull(rainMm);
        if (etoMm.Length != rainMm.Length || etoMm.Length != (meanC ?? etoMm).Length || etoMm.Length != (leastC ?? etoMm).Length)
        {
            throw new ArgumentException($"{etoMm.Length} days of ETo, but {rainMm.Length} days of rain or another number of temperatures.");
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
        MeanC = meanC;
        LeastC = leastC;
    }

    /// <summary>Date of day 0.</summary>
    public LocalDate First { get; }

    /// <summary>Reference ET by day, mm.</summary>
    public double[] EtoMm { get; }

    /// <summary>Rain by day, mm.</summary>
    public double[] RainMm { get; }

    /// <summary>Mean temperature by day, degrees C, NaN on days where it is not known; null where it never is.</summary>
    public double[]? MeanC { get; }

    /// <summary>Lowest temperature by day, degrees C, NaN on days where it is not known; null where it never is.</summary>
    public double[]? LeastC { get; }

    /// <summary>The days just before day 0: they set how wet the soil is on day 0. Null: the soil is full then.</summary>
    public Climate? Before { get; init; }

    /// <summary>How many days.</summary>
    public int Days => EtoMm.Length;

    /// <summary>Date of the last day.</summary>
    public LocalDate Last => First.PlusDays(Days - 1);

    /// <summary>Date of a day.</summary>
    public LocalDate DateOf(int day) => First.PlusDays(day);

    /// <summary>Number of the day on a date; may lie outside 0 to <see cref="Days"/>.</summary>
    public int DayOf(LocalDate date) => Period.DaysBetween(First, date);

    /// <summary>The days from one date to another, both included, with nothing before them.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The dates reach beyond the record.</exception>
    public Climate Between(LocalDate from, LocalDate to)
    {
        int start = DayOf(from);
        int end = DayOf(to) + 1;
        ArgumentOutOfRangeException.ThrowIfNegative(start);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(end, Days);
        return new Climate(from, EtoMm[start..end], RainMm[start..end], MeanC?[start..end], LeastC?[start..end]);
    }

    /// <summary>The same days with those before them in front, as one stretch; itself where there are none.</summary>
    public Climate WithBefore() => Before is not { } lead ? this : new Climate(
        lead.First,
        [.. lead.EtoMm, .. EtoMm],
        [.. lead.RainMm, .. RainMm],
        MeanC is null || lead.MeanC is null ? null : [.. lead.MeanC, .. MeanC],
        LeastC is null || lead.LeastC is null ? null : [.. lead.LeastC, .. LeastC]);
}
