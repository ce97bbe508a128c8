using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season.Search;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Season;

/// <summary>One controller from today to the year's end, from the state that this year's weather has left its spots in.</summary>
internal sealed class RestOfYear
{
    /// <summary>A rain hold takes seconds to set: it is advised when it saves this part of what is still to be spent.</summary>
    private const double WorthSetting = 0.005;

    private const int LongestOutlook = 60;

    /// <summary>An earlier visit is looked for on every seventh day.</summary>
    private const int DaysBetweenTries = 7;

    private readonly ControllerCase controller;
    private readonly IReadOnlyList<Climate> years;
    private readonly double stressWeightMm;
    private readonly LocalDate today, nextYear;
    private readonly Visit[] visits;
    private readonly LocalDate[] dates;

    /// <summary>By visit, which of the plan's sets of programs stands after it.</summary>
    private readonly int[] programs;
    private readonly int percentNow;
    private readonly double[][] depletion;

    /// <param name="controller">The controller.</param>
    /// <param name="plan">Its programs and visits, at least one.</param>
    /// <param name="years">Whole years of record.</param>
    /// <param name="soFar">This year's weather to yesterday.</param>
    /// <param name="percentNow">What it has been set to since its last visit; null where that is what the season says.</param>
    /// <param name="stressWeightMm">What a stress day weighs in water.</param>
    public RestOfYear(SiteController controller, ControllerPlan plan, IReadOnlyList<Climate> years, Climate soFar, int? percentNow, double stressWeightMm)
    {
        this.years = years;
        this.stressWeightMm = stressWeightMm;
        today = soFar.Last.PlusDays(1);
        LocalDate begins = soFar.First;
        nextYear = begins.PlusYears(1);
        visits = [.. plan.Visits.OrderBy(v => InThisYear(v, begins))];
        dates = [.. visits.Select(v => InThisYear(v, begins))];
        ListOf<Program>[] sets = [.. plan.ProgramSets];
        programs = [.. visits.Select(v => Array.IndexOf(sets, plan.ProgramsAfter(Array.IndexOf([.. plan.Visits], v))))];
        this.percentNow = percentNow ?? PercentOn(today.PlusDays(-1));
        int[] known = [this.percentNow, .. visits.Select(v => v.Percent)];
        this.controller = ControllerCase.AsPlanned(controller, plan, years, known);
        ControllerCase thisYear = ControllerCase.AsPlanned(controller, plan, [soFar], known);
        depletion = [.. thisYear.Zones.Select(z => StateAfter(z, soFar))];
    }

    public InYearAdvice Advise()
    {
        LocalDate next = dates.Where(d => d > today).Select(d => (LocalDate?)d).FirstOrDefault() ?? dates[0].PlusYears(1);
        double[] costs = Costs(next, 0);
        double stay = costs[Array.IndexOf(controller.Percents, percentNow)];
        int best = Cheapest(costs);
        (EarlierVisit? earlier, double earlierSaves) = Earlier(next, costs[best]);
        ZoneToday[] zones = [.. controller.Zones.Select((z, i) => Today(z, depletion[i]))];
        (int hold, double holdSaves) = best == 0 ? (0, 0) : RainHold(best, next, costs[best], zones.Min(z => z.DaysLeft));
        return new InYearAdvice(
            controller.Controller.Name, percentNow, controller.Percents[best], Math.Max(0, stay - costs[best]), costs[best], next, earlier, earlierSaves, hold, holdSaves, zones.ToListOf());
    }

    /// <summary>The cheapest percent that a plan may set, the smallest of several.</summary>
    private int Cheapest(double[] costs) => Enumerable.Range(0, costs.Length).Where(p => controller.Percents[p] <= 100).MinBy(p => costs[p]);

    private static LocalDate InThisYear(Visit visit, LocalDate begins)
    {
        LocalDate date = visit.Date.InYear(begins.Year);
        return date >= begins ? date : visit.Date.InYear(begins.Year + 1);
    }

    /// <summary>The date and the percent till then that cost least, where that is worth a drive.</summary>
    private (EarlierVisit? Visit, double Saves) Earlier(LocalDate next, double cost)
    {
        (EarlierVisit? Visit, double Cost) best = (null, cost * (1 - InYearAdvice.WorthADrive));
        for (LocalDate date = today.PlusDays(DaysBetweenTries); date < LocalDate.Min(next, nextYear).PlusDays(1 - DaysBetweenTries); date = date.PlusDays(DaysBetweenTries))
        {
            double[] costs = Costs(date, 0);
            int percent = Cheapest(costs);
            best = costs[percent] < best.Cost ? (new EarlierVisit(date, controller.Percents[percent]), costs[percent]) : best;
        }

        return best.Visit is null ? (null, 0) : (best.Visit, cost - best.Cost);
    }

    /// <summary>The days without water that cost least, none of them past the day on which the driest spot begins to suffer.</summary>
    private (int Days, double Saves) RainHold(int percent, LocalDate next, double cost, int daysLeft)
    {
        (int Days, double Cost) best = (0, cost * (1 - WorthSetting));
        int longest = Math.Min(Math.Min(controller.Controller.Profile.LargestRainHoldDays, daysLeft), Period.DaysBetween(today, LocalDate.Min(next, nextYear)));
        for (int days = 1; days <= longest; days++)
        {
            double held = Costs(next, days)[percent];
            best = held < best.Cost ? (days, held) : best;
        }

        return best.Days == 0 ? (0, 0) : (best.Days, cost - best.Cost);
    }

    /// <summary>
    /// By percent, the mean cost to the year's end, L: no water for some days, that percent till the next visit, which is made on a date, and
    /// the season after it.
    /// </summary>
    private double[] Costs(LocalDate nextVisit, int heldDays)
    {
        LocalDate planned = dates.Where(d => d > today).Select(d => (LocalDate?)d).FirstOrDefault() ?? nextYear;

        // Null stands for the percent that is tried. A visit brought forward sets what it would have set on its own date.
        int now = ProgramsOn(today.PlusDays(-1));
        List<(LocalDate From, int? Percent, int Programs)> spells = heldDays > 0 ? [(today, 0, now), (today.PlusDays(heldDays), null, now)] : [(today, null, now)];
        spells.Add((nextVisit, PercentOn(planned), ProgramsOn(planned)));
        spells.AddRange(dates.Select((d, v) => (d, (int?)visits[v].Percent, programs[v])).Where(d => d.d > planned));
        double[] sum = new double[controller.Percents.Length];
        for (int z = 0; z < controller.Zones.Length; z++)
        {
            BalanceLanes lanes = controller.Zones[z].LanesFor(sum.Length);
            for (int year = 0; year < years.Count; year++)
            {
                AddCosts(controller.Zones[z], depletion[z], year, spells, lanes, sum);
            }
        }

        return [.. sum.Select(s => s / years.Count)];
    }

    private void AddCosts(ZoneCase zone, double[] start, int year, List<(LocalDate From, int? Percent, int Programs)> spells, BalanceLanes lanes, double[] sum)
    {
        int count = sum.Length;
        lanes.Reset();
        for (int spot = 0; spot < zone.Spots; spot++)
        {
            lanes.DepletionMm.AsSpan(spot * count, count).Fill(start[spot]);
        }

        for (int spell = 0; spell < spells.Count; spell++)
        {
            int from = DayIn(year, spells[spell].From);
            int to = spell + 1 < spells.Count ? DayIn(year, spells[spell + 1].From) : years[year].Days;
            int standing = spells[spell].Programs;
            double waterDays = zone.WaterDays(year, from, to, standing);
            for (int candidate = 0; candidate < count; candidate++)
            {
                double depth = spells[spell].Percent is { } set ? DepthOf(zone, standing, set) : zone.DepthMm(standing, candidate);
                zone.SetWater(lanes, count, candidate, depth);
                sum[candidate] += zone.Zone.AreaM2 * depth * waterDays;
            }

            zone.Advance(year, from, to, lanes, standing);
        }

        for (int candidate = 0; candidate < count; candidate++)
        {
            sum[candidate] += zone.Zone.AreaM2 * stressWeightMm * zone.StressDays(lanes, count, candidate);
        }
    }

    /// <summary>Every spot's depletion this morning; the year began with full root zones.</summary>
    private double[] StateAfter(ZoneCase zone, Climate soFar)
    {
        LocalDate lastVisit = dates.Where(d => d < today).Append(soFar.First).Max();
        BalanceLanes lanes = zone.LanesFor(1);
        lanes.Reset();
        for (int day = 0; day < soFar.Days; day++)
        {
            LocalDate date = soFar.DateOf(day);
            zone.SetWater(lanes, 1, 0, DepthOf(zone, ProgramsOn(date), date >= lastVisit ? percentNow : PercentOn(date)));
            zone.Advance(0, day, day + 1, lanes, ProgramsOn(date));
        }

        return lanes.DepletionMm[..zone.Spots];
    }

    private ZoneToday Today(ZoneCase zone, double[] depletions)
    {
        double mean = depletions.Select((d, s) => d * zone.Weight[s]).Sum();
        double driest = depletions.Max(), left = zone.Root.ReadilyMm - driest;
        int days = 0;
        while (days < LongestOutlook)
        {
            left -= Enumerable.Range(0, years.Count).Average(y => zone.Years[y].WantedMm[Math.Min(DayIn(y, today) + days, years[y].Days - 1)]);
            if (left < 0)
            {
                break;
            }

            days++;
        }

        return new ZoneToday(zone.Zone.Name, mean, driest, zone.Root.ReadilyMm, days);
    }

    private double DepthOf(ZoneCase zone, int standing, int percent) => zone.DepthMm(standing, Array.IndexOf(controller.Percents, percent));

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
