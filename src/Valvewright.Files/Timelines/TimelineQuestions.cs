using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;

namespace Valvewright.Files.Timelines;

/// <summary>Water that a supply gives in a month.</summary>
/// <param name="Supply">The supply's name.</param>
/// <param name="Litres">What it gives, from the month's first midnight to its last.</param>
/// <param name="LargestFlowLpm">The largest flow taken at once.</param>
/// <param name="LimitLpm">What it can give at once.</param>
public sealed record MonthOfWater(string Supply, double Litres, double LargestFlowLpm, double LimitLpm);

/// <summary>Questions that people ask about a timeline.</summary>
public static class TimelineQuestions
{
    /// <summary>How far ahead a next run is looked for: leap years and visits have come round by then.</summary>
    public const int LookAheadDays = 400;

    /// <summary>The first opening of a station at or after the beginning of a date, on one controller or, by rising time, on each that has
    /// it.</summary>
    public static ListOf<Watering> NextOf(
        Site site, Plan plan, int station, LocalDate from, string? controller, Func<SiteController, Circumstances,
            Circumstances>? befalls = null, LocalDate? since = null)
    {
        ArgumentNullException.ThrowIfNull(site);
        List<Watering> found = [];
        foreach (SiteController one in site.Controllers.Where(c => controller is null || c.Name == controller))
        {
            for (int days = 0; days < LookAheadDays; days += 40)
            {
                LocalDate begin = from.PlusDays(days);
                SiteWaterings ahead = SiteWaterings.Of(site, plan, begin, begin.PlusDays(39), one.Name, befalls, since);
                Watering? next = ahead.Waterings.FirstOrDefault(w => w.Station == station && !w.CarriedIn);
                if (next is not null)
                {
                    found.Add(next);
                    break;
                }
            }
        }

        return found.OrderBy(w => w.Opens).ToListOf();
    }

    /// <summary>What each supply gives in a month.</summary>
    public static ListOf<MonthOfWater> WaterIn(
        Site site, Plan plan, YearMonth month, string? controller, Func<SiteController, Circumstances, Circumstances>? befalls = null,
            LocalDate? since = null)
    {
        ArgumentNullException.ThrowIfNull(site);
        LocalDate first = month.OnDayOfMonth(1);
        LocalDate last = month.ToDateInterval().End;
        SiteWaterings all = SiteWaterings.Of(site, plan, first, last, controller, befalls, since);
        return site.Supplies.Select(s => new MonthOfWater(
            s.Name,
            SupplyFlow.Litres(all, s.Name, first, last),
            SupplyFlow.Of(all, s.Name).Select(f => f.FlowLpm).DefaultIfEmpty(0).Max(),
            s.FlowLpm)).ToListOf();
    }
}
