using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Choices;

/// <summary>The part of the year in which a controller is on.</summary>
/// <param name="From">First date on.</param>
/// <param name="To">First date off again; equal to <paramref name="From"/> means on all year.</param>
internal sealed record IrrigationSeason(AnnualDate From, AnnualDate To)
{
    private const int DaysOfMargin = 7;
    private const int DaysThatCountAsAllYear = 340;

    public static IrrigationSeason AllYear { get; } = new(new AnnualDate(1, 1), new AnnualDate(1, 1));

    public bool IsAllYear => From == To;

    /// <summary>From the first to the last watering that any of the zones needs in nine training years of ten, and a week either way.</summary>
    public static IrrigationSeason Of(IEnumerable<ZoneYears> zones)
    {
        List<int> firsts = [], lasts = [];
        Climate? calendar = null;
        foreach (ZoneYears zone in zones)
        {
            calendar ??= zone.Training[0];
            (int first, int last)[] needed = [.. zone.NeedsWaterBetween().Where(n => n.First >= 0)];
            if (needed.Length > 0)
            {
                firsts.Add(needed.Select(n => n.first).Order().ElementAt(needed.Length / 10));
                lasts.Add(needed.Select(n => n.last).OrderDescending().ElementAt(needed.Length / 10));
            }
        }

        if (calendar is null || firsts.Count == 0)
        {
            return AllYear;
        }

        int from = Math.Max(0, firsts.Min() - DaysOfMargin);
        int to = lasts.Max() + DaysOfMargin + 1;
        return to - from >= DaysThatCountAsAllYear ? AllYear : new IrrigationSeason(Annual(calendar.DateOf(from)), Annual(calendar.DateOf(to)));
    }

    public bool IsOnAt(LocalDate date)
    {
        AnnualDate day = Annual(date);
        return IsAllYear || (From.CompareTo(To) < 0 ? day.CompareTo(From) >= 0 && day.CompareTo(To) < 0 : day.CompareTo(From) >= 0 || day.CompareTo(To) < 0);
    }

    /// <summary>The visits that switch it on and off.</summary>
    public ListOf<Visit> Visits(int percent) =>
        IsAllYear ? [] : [.. new[] { new Visit(From, percent), new Visit(To, 0) }.OrderBy(v => v.Date)];

    private static AnnualDate Annual(LocalDate date) => date is { Month: 2, Day: 29 } ? new AnnualDate(2, 28) : new AnnualDate(date.Month, date.Day);
}
