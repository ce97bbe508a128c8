using NodaTime;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;

namespace Valvewright.Planning.Choices;

/// <summary>The part of the year in which a controller is on.</summary>
/// <param name="From">First date on.</param>
/// <param name="To">First date off again; equal to <paramref name="From"/> means on all year.</param>
internal sealed record IrrigationSeason(AnnualDate From, AnnualDate To)
{
    private const int DaysOfMargin = 7;
    private const int DaysThatCountAsAllYear = 340;
    private const int Year = 365;

    /// <summary>A year without 29 February to count days in.</summary>
    private static readonly LocalDate Start = new(2001, 1, 1);

    public static IrrigationSeason AllYear { get; } = new(new AnnualDate(1, 1), new AnnualDate(1, 1));

    public bool IsAllYear => From == To;

    /// <summary>All of the year but the longest stretch in which no zone asks for irrigation, less a week at either end.</summary>
    public static IrrigationSeason Of(IEnumerable<PeriodOfYear?> zones)
    {
        PeriodOfYear[] asked = [.. zones.OfType<PeriodOfYear>()];
        bool[] on = [.. Enumerable.Range(0, Year).Select(d => asked.Any(p => p.Contains(Start.PlusDays(d))))];
        int longest = 0, end = 0, run = 0;
        for (int day = 0; day < 2 * Year; day++)
        {
            run = on[day % Year] ? 0 : run + 1;
            (longest, end) = run > longest ? (run, day + 1) : (longest, end);
        }

        if (longest >= Year || Year - longest + 2 * DaysOfMargin >= DaysThatCountAsAllYear)
        {
            return AllYear;
        }

        int from = end - DaysOfMargin, to = end - longest + DaysOfMargin;
        return new IrrigationSeason(Annual(Start.PlusDays(from % Year)), Annual(Start.PlusDays((to + Year) % Year)));
    }

    /// <summary>The visits that switch it on and off.</summary>
    public ListOf<Visit> Visits(int percent) =>
        IsAllYear ? [] : [.. new[] { new Visit(From, percent), new Visit(To, 0) }.OrderBy(v => v.Date)];

    private static AnnualDate Annual(LocalDate date) =>
        date is { Month: 2, Day: 29 } ? new AnnualDate(2, 28) : new AnnualDate(date.Month, date.Day);
}
