using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Season;

/// <summary>One controller from today to the year's end, from the state that this year's weather has left its spots in.</summary>
internal sealed class RestOfYear
{
    /// <summary>A visit is brought forward only when that saves this part of what is still to be spent.</summary>
    private const double WorthComing = 0.02;

    private const int LongestOutlook = 60;

    private readonly SeasonCase season;
    private readonly ControllerCase controller;
    private readonly LocalDate today, nextYear;
    private readonly LocalDate[] visits;
    private readonly int[] percents;
    private readonly double[][] depletion;

    public RestOfYear(SeasonCase season, ControllerCase controller, Plan plan, SeasonPlan dates, ControllerSeason own, Climate soFar)
    {
        this.season = season;
        this.controller = controller;
        today = soFar.Last.PlusDays(1);
        LocalDate begins = soFar.First;
        nextYear = begins.PlusYears(1);
        visits = [.. dates.Dates.Select(d => d.InYear(begins.Year) >= begins ? d.InYear(begins.Year) : d.InYear(begins.Year + 1))];
        percents = [.. own.Percents];
        ControllerCase thisYear = ControllerCase.Of(controller.Controller, plan.For(controller.Controller.Name), [soFar]);
        depletion = [.. thisYear.Zones.Select(z => StateAfter(z, soFar))];
    }

    /// <summary>What the season says the controller is at today.</summary>
    public int PercentBySeason => PercentOn(today.PlusDays(-1));

    public InYearAdvice Advise(int percentNow)
    {
        LocalDate next = visits.Where(v => v > today).Select(v => (LocalDate?)v).FirstOrDefault() ?? visits.Min().PlusYears(1);
        double stay = CostOf(percentNow, next);
        (int percent, double cost) = controller.Percents.Select(p => (p, CostOf(p, next))).MinBy(c => c.Item2);
        (LocalDate? earlier, double saves) = Earlier(percent, next, cost);
        ZoneToday[] zones = [.. controller.Zones.Select((z, i) => Today(z, depletion[i]))];
        int hold = Math.Min(controller.Controller.Profile.LargestRainHoldDays, zones.Length == 0 ? 0 : zones.Min(z => z.DaysLeft));
        return new InYearAdvice(controller.Controller.Name, percentNow, percent, stay - cost, next, earlier, saves, percent == 0 || hold < 2 ? 0 : hold, zones.ToListOf());
    }

    private (LocalDate? Date, double Saves) Earlier(int percent, LocalDate next, double cost)
    {
        (LocalDate Date, double Cost)? best = null;
        for (LocalDate date = today.PlusDays(7); date < next.PlusDays(-6); date = date.PlusDays(7))
        {
            double changed = CostOf(percent, date);
            if (changed < (best?.Cost ?? cost * (1 - WorthComing)))
            {
                best = (date, changed);
            }
        }

        return best is { } found ? (found.Date, cost - found.Cost) : (null, 0);
    }

    /// <summary>Mean cost to the year's end with a percent till the next visit, made on a date, and the season after it.</summary>
    private double CostOf(int percent, LocalDate nextVisit)
    {
        double sum = 0;
        for (int z = 0; z < controller.Zones.Length; z++)
        {
            ZoneCase zone = controller.Zones[z];
            for (int year = 0; year < season.YearCount; year++)
            {
                sum += CostOf(zone, depletion[z], year, percent, nextVisit);
            }
        }

        return sum / season.YearCount;
    }

    private double CostOf(ZoneCase zone, double[] start, int year, int percent, LocalDate nextVisit)
    {
        BalanceLanes lanes = zone.LanesFor(1);
        lanes.Reset();
        start.CopyTo(lanes.DepletionMm, 0);
        LocalDate next = visits.Where(v => v > today).Select(v => (LocalDate?)v).FirstOrDefault() ?? LocalDate.MaxIsoValue;
        LocalDate[] changes = [nextVisit, .. visits.Where(v => v > next)];
        int from = DayIn(year, today);
        double water = 0;
        for (int stretch = 0; stretch <= changes.Length; stretch++)
        {
            int to = stretch < changes.Length && changes[stretch] < nextYear ? DayIn(year, changes[stretch]) : season.YearDays[year];
            int set = stretch == 0 ? percent : PercentOn(changes[stretch - 1] < next ? next : changes[stretch - 1]);
            if (to > from)
            {
                double depth = zone.DepthMm[Array.IndexOf(controller.Percents, set)];
                zone.SetWater(lanes, 1, 0, depth);
                water += depth * zone.WaterDays(year, from, to);
                zone.Advance(year, from, to, lanes);
                from = to;
            }
        }

        return season.Cost(zone, water, zone.StressDays(lanes, 1, 0));
    }

    private double[] StateAfter(ZoneCase zone, Climate soFar)
    {
        BalanceLanes lanes = zone.LanesFor(1);
        lanes.Reset();
        for (int day = 0; day < soFar.Days;)
        {
            int percent = PercentOn(soFar.DateOf(day)), until = day + 1;
            while (until < soFar.Days && PercentOn(soFar.DateOf(until)) == percent)
            {
                until++;
            }

            zone.SetWater(lanes, 1, 0, zone.DepthMm[Array.IndexOf(controller.Percents, percent)]);
            zone.Advance(0, day, until, lanes);
            day = until;
        }

        return lanes.DepletionMm[..zone.Spots];
    }

    private ZoneToday Today(ZoneCase zone, double[] depletions)
    {
        double mean = depletions.Select((d, s) => d * zone.Weight[s]).Sum();
        double driest = depletions.Max(), left = zone.Root.ReadilyMm - driest;
        int days = 0;
        while (days < LongestOutlook && left > 0)
        {
            left -= Enumerable.Range(0, season.YearCount).Average(y => WantedOn(zone, y, days));
            days += left > 0 ? 1 : 0;
        }

        return new ZoneToday(zone.Zone.Name, mean, driest, zone.Root.ReadilyMm, days);
    }

    private double WantedOn(ZoneCase zone, int year, int daysAhead) =>
        zone.Years[year].WantedMm[Math.Min(DayIn(year, today) + daysAhead, season.YearDays[year] - 1)];

    private int PercentOn(LocalDate date)
    {
        int visit = visits.Length - 1;
        for (int v = 0; v < visits.Length && visits[v] <= date; v++)
        {
            visit = v;
        }

        return percents[visit];
    }

    /// <summary>The same date in a year of record; 29 February counts as 1 March where there is none.</summary>
    private int DayIn(int year, LocalDate date)
    {
        Climate climate = controller.Zones.Length > 0 ? controller.Zones[0].Years[year].Climate : throw new InvalidOperationException("A controller without zones has no cost.");
        int calendarYear = climate.First.Year + (date.Month < climate.First.Month ? 1 : 0);
        bool leapless = date is { Month: 2, Day: 29 } && !CalendarSystem.Iso.IsLeapYear(calendarYear);
        return climate.DayOf(leapless ? new LocalDate(calendarYear, 3, 1) : new LocalDate(calendarYear, date.Month, date.Day));
    }
}
