using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Season;

/// <summary>One controller from today to the year's end, from the state that this year's weather has left its soil in.</summary>
internal sealed class RestOfYear
{
    /// <summary>A rain delay takes seconds to set: it is advised when it saves this part of what is still to be spent.</summary>
    private const double WorthSetting = 0.005;

    private const int LongestOutlook = 60;

    /// <summary>An earlier visit is looked for on every seventh day.</summary>
    private const int DaysBetweenTries = 7;

    private readonly SiteController controller;
    private readonly PlannedZone[] zones;
    private readonly int[] percents;
    private readonly IReadOnlyList<Climate> years;
    private readonly LocalDate today, nextYear;
    private readonly Visit[] visits;
    private readonly LocalDate[] dates;

    /// <summary>By visit, which of the plan's sets of programs stands after it.</summary>
    private readonly int[] programs;
    private readonly int percentNow;
    private readonly double[] leftMm;

    /// <param name="controller">The controller.</param>
    /// <param name="plan">Its programs and visits, at least one.</param>
    /// <param name="years">Whole years of record.</param>
    /// <param name="soFar">This year's weather to yesterday.</param>
    /// <param name="percentNow">What it has been set to since its last visit; null where that is what the season says.</param>
    /// <param name="unmetUseWeight">What a millimeter of unmet use weighs at normal quality, mm of water.</param>
    public RestOfYear(SiteController controller, ControllerPlan plan, IReadOnlyList<Climate> years, Climate soFar, int? percentNow,
        double unmetUseWeight)
    {
        (this.years, this.controller) = (years, controller);
        today = soFar.Last.PlusDays(1);
        LocalDate begins = soFar.First;
        nextYear = begins.PlusYears(1);
        visits = [.. plan.Visits.OrderBy(v => InThisYear(v, begins))];
        dates = [.. visits.Select(v => InThisYear(v, begins))];
        ListOf<Program>[] sets = [.. plan.ProgramSets];
        programs = [.. visits.Select(v => Array.IndexOf(sets, plan.ProgramsAfter(Array.IndexOf([.. plan.Visits], v))))];
        this.percentNow = percentNow ?? PercentOn(today.PlusDays(-1));
        percents =
        [
            0, .. controller.Profile.Percent.Settings().Append(100).Where(p => p is > 0 and <= 100).Concat(visits.Select(v => v.Percent))
                .Append(this.percentNow)
                .Where(p => p > 0).Distinct().Order(),
        ];
        Zone[] lasting = [.. controller.Zones.Where(z => z.Lasts)];
        zones = [.. lasting.Select(
            z => new PlannedZone(z, controller.Profile, sets, [.. years.Select(y => ZoneDays.Of(z, y))], unmetUseWeight))];
        leftMm = [.. lasting
            .Select(z => StateAfter(new PlannedZone(z, controller.Profile, sets, [ZoneDays.Of(z, soFar)], unmetUseWeight), soFar))];
    }

    public InYearAdvice Advise()
    {
        LocalDate next = dates.Where(d => d > today).Select(d => (LocalDate?)d).FirstOrDefault() ?? dates[0].PlusYears(1);
        double[] costs = Costs(next, 0);
        double stay = costs[Array.IndexOf(percents, percentNow)];
        int best = Cheapest(costs);
        (EarlierVisit? earlier, double earlierSaves) = Earlier(next, costs[best]);
        ZoneToday[] stores = [.. zones.Select((z, i) => Today(z, leftMm[i]))];
        (int hold, double holdSaves) = best == 0 ? (0, 0) : RainHold(best, next, costs[best], stores.Min(z => z.DaysLeft));
        return new InYearAdvice(
            controller.Name, percentNow, percents[best], Math.Max(0, stay - costs[best]), costs[best], next, earlier, earlierSaves, hold,
                holdSaves, stores.ToListOf());
    }

    /// <summary>The cheapest percent that a plan may set, the smallest of several.</summary>
    private int Cheapest(double[] costs) => Enumerable.Range(0, costs.Length).Where(p => percents[p] <= 100).MinBy(p => costs[p]);

    private static LocalDate InThisYear(Visit visit, LocalDate begins)
    {
        LocalDate date = visit.Date.InYear(begins.Year);
        return date >= begins ? date : visit.Date.InYear(begins.Year + 1);
    }

    /// <summary>The date and the percent till then that cost least, where that is worth a drive.</summary>
    private (EarlierVisit? Visit, double Saves) Earlier(LocalDate next, double cost)
    {
        (EarlierVisit? Visit, double Cost) best = (null, cost * (1 - InYearAdvice.WorthADrive));
        for (LocalDate date = today.PlusDays(DaysBetweenTries); date < LocalDate.Min(next, nextYear).PlusDays(1 - DaysBetweenTries);
            date = date.PlusDays(DaysBetweenTries))
        {
            double[] costs = Costs(date, 0);
            int percent = Cheapest(costs);
            best = costs[percent] < best.Cost ? (new EarlierVisit(date, percents[percent]), costs[percent]) : best;
        }

        return best.Visit is null ? (null, 0) : (best.Visit, cost - best.Cost);
    }

    /// <summary>The days without water that cost least, none of them past the day on which the low quarter begins to use less.</summary>
    private (int Days, double Saves) RainHold(int percent, LocalDate next, double cost, int daysLeft)
    {
        (int Days, double Cost) best = (0, cost * (1 - WorthSetting));
        int longest = Math.Min(
            Math.Min(controller.Profile.LargestRainHoldDays, daysLeft), Period.DaysBetween(today, LocalDate.Min(next, nextYear)));
        for (int days = 1; days <= longest; days++)
        {
            double held = Costs(next, days)[percent];
            best = held < best.Cost ? (days, held) : best;
        }

        return best.Days == 0 ? (0, 0) : (best.Days, cost - best.Cost);
    }

    /// <summary>
    /// By percent, the mean cost to the year's end, L: no water for some days, that percent till the next visit, which is made on a date,
    /// and the season after it.
    /// </summary>
    private double[] Costs(LocalDate nextVisit, int heldDays)
    {
        LocalDate planned = dates.Where(d => d > today).Select(d => (LocalDate?)d).FirstOrDefault() ?? nextYear;

        // Null stands for the percent that is tried. A visit brought forward sets what it would have set on its own date.
        int now = ProgramsOn(today.PlusDays(-1));
        List<(LocalDate From, int? Percent, int Programs)> spells = heldDays > 0 ? [(today, 0, now), (today.PlusDays(heldDays), null, now)]
            : [(today, null, now)];
        spells.Add((nextVisit, PercentOn(planned), ProgramsOn(planned)));
        spells.AddRange(dates.Select((d, v) => (d, (int?)visits[v].Percent, programs[v])).Where(d => d.d > planned));
        double[] sum = new double[percents.Length];
        BalanceLanes lanes = new(sum.Length);
        for (int z = 0; z < zones.Length; z++)
        {
            for (int year = 0; year < years.Count; year++)
            {
                AddCosts(zones[z], leftMm[z], year, spells, lanes, sum);
            }
        }

        return [.. sum.Select(s => s / years.Count)];
    }

    private void AddCosts(PlannedZone zone, double startMm, int year, List<(LocalDate From, int? Percent, int Programs)> spells,
        BalanceLanes lanes, double[] sum)
    {
        lanes.Reset(startMm);
        double[] water = new double[sum.Length];
        ZoneDays days = zone.Years[year];
        for (int spell = 0; spell < spells.Count; spell++)
        {
            int from = days.Lead + DayIn(year, spells[spell].From);
            int to = spell + 1 < spells.Count ? days.Lead + DayIn(year, spells[spell + 1].From) : days.Steps;
            int set = spells[spell].Programs;
            double[] watered = zone.IsWatered(year, set);
            double waterings = from < to ? watered.AsSpan(from, to - from).ToArray().Sum() : 0;
            for (int candidate = 0; candidate < sum.Length; candidate++)
            {
                double depth = zone.DepthMm(spells[spell].Percent ?? percents[candidate], set);
                lanes.WaterMm[candidate] = depth * zone.Reaching;
                water[candidate] += depth * waterings;
            }

            zone.Advance(year, from, to, lanes, set);
        }

        for (int candidate = 0; candidate < sum.Length; candidate++)
        {
            sum[candidate] += zone.Cost(water[candidate], lanes.UnmetMm[candidate]);
        }
    }

    /// <summary>Water above wilting point this morning, mm.</summary>
    private double StateAfter(PlannedZone zone, Climate soFar)
    {
        LocalDate lastVisit = dates.Where(d => d < today).Append(soFar.First).Max();
        BalanceLanes lanes = new(1);
        lanes.Reset(zone.Root.TotalMm);
        ZoneDays days = zone.Years[0];
        for (int step = 0; step < days.Steps; step++)
        {
            LocalDate date = days.DateOf(step);
            int set = ProgramsOn(date);
            lanes.WaterMm[0] = zone.DepthMm(date >= lastVisit ? percentNow : PercentOn(date), set) * zone.Reaching;
            zone.Advance(0, step, step + 1, lanes, set);
        }

        return lanes.LeftMm[0];
    }

    private ZoneToday Today(PlannedZone zone, double leftMm)
    {
        double depletion = zone.Root.TotalMm - leftMm, left = zone.Root.ReadilyMm - depletion;
        int days = 0;
        while (days < LongestOutlook)
        {
            left -= Enumerable.Range(0, years.Count)
                .Average(y => zone.Years[y].WantedMm[zone.Years[y].Lead + Math.Min(DayIn(y, today) + days, years[y].Days - 1)]);
            if (left < 0)
            {
                break;
            }

            days++;
        }

        return new ZoneToday(zone.Zone.Name, depletion, zone.Root.ReadilyMm, days);
    }

    /// <summary>What the season says on a date; the last visit's setting holds over the new year.</summary>
    private int PercentOn(LocalDate date) => visits[VisitOn(date)].Percent;

    /// <summary>Which of the plan's sets of programs the season says on a date.</summary>
    private int ProgramsOn(LocalDate date) => programs[VisitOn(date)];

    private int VisitOn(LocalDate date)
    {
        int visit = Array.FindLastIndex(dates, d => d <= date);
        return visit < 0 ? visits.Length - 1 : visit;
    }

    /// <summary>The same date in a year of record, within it; 29 February counts as 1 March where there is none.</summary>
    private int DayIn(int year, LocalDate date)
    {
        if (date >= nextYear)
        {
            return years[year].Days;
        }

        LocalDate first = years[year].First;
        int calendarYear = first.Year + (date.Month < first.Month ? 1 : 0);
        bool leapless = date is { Month: 2, Day: 29 } && !CalendarSystem.Iso.IsLeapYear(calendarYear);
        return years[year].DayOf(leapless ? new LocalDate(calendarYear, 3, 1) : new LocalDate(calendarYear, date.Month, date.Day));
    }
}
