using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Season;

/// <summary>How a plan waters a site through the year, week by week, mean of several years: what a page for the owner shows.</summary>
/// <param name="Begins">First day of the first week.</param>
/// <param name="Weeks">52 weeks; the odd day or two at the year's end is left out.</param>
public sealed record YearOfWater(AnnualDate Begins, ListOf<WeekOfWater> Weeks)
{
    private const int WeeksInAYear = 52;
    private const int DaysInAWeek = 7;

    /// <summary>One in ten zones and years is drier than the lower line.</summary>
    private const double DryShare = 0.1;

    /// <summary>Follows every zone that lasts (seedbeds pass within weeks) through the years, as the emulator waters it.</summary>
    /// <param name="site">The site.</param>
    /// <param name="plan">Its plan with the visits of the season.</param>
    /// <param name="years">Whole years, each begun with the soil that the months before it leave.</param>
    /// <exception cref="ArgumentException">No years, or no zone that lasts.</exception>
    public static YearOfWater Of(Site site, Plan plan, IReadOnlyList<Climate> years)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(years);
        if (years.Count == 0 || !site.Controllers.Any(c => c.Zones.Any(z => z.Lasts)))
        {
            throw new ArgumentException("A year of water needs years of weather, and a zone that lasts.");
        }

        DateTimeZone zone = RulesNowInForce.Of(site.Zone());
        double[] need = new double[WeeksInAYear], rain = new double[WeeksInAYear], water = new double[WeeksInAYear],
            store = new double[WeeksInAYear];
        List<double>[] stores = [.. Enumerable.Range(0, WeeksInAYear).Select(_ => new List<double>())];
        double area = years.Count * site.Controllers.Sum(c => c.Zones.Where(z => z.Lasts).Sum(z => z.AreaM2));
        foreach (SiteController controller in site.Controllers)
        {
            ControllerPlan? own = plan.Controllers.FirstOrDefault(c => c.Controller == controller.Name);
            foreach (Climate year in years)
            {
                IReadOnlyList<Opening> openings = own is null ? []
                    : Watered.Of(zone, controller, own, (year.Before ?? year).First.PlusDays(-1), year.Last).Openings;
                ILookup<int, Opening> byStation = openings.ToLookup(o => o.Run.Station);
                foreach (Zone planted in controller.Zones.Where(z => z.Lasts))
                {
                    double part = planted.AreaM2 / area;
                    ZoneDays days = ZoneDays.Of(planted, year);
                    double[] applied = AppliedByStep(zone, days, byStation[planted.Station]);
                    double[] full = StoreByDay(planted, days, applied);
                    for (int day = 0; day < WeeksInAYear * DaysInAWeek; day++)
                    {
                        int week = day / DaysInAWeek;
                        need[week] += part * days.WantedMm[days.Lead + day];
                        rain[week] += part * year.RainMm[day];
                        water[week] += part * applied[days.Lead + day];
                        store[week] += part * full[day] / DaysInAWeek;
                    }

                    for (int week = 0; week < WeeksInAYear; week++)
                    {
                        stores[week].Add(full[((week + 1) * DaysInAWeek) - 1]);
                    }
                }
            }
        }

        LocalDate first = years[0].First;
        return new YearOfWater(
            new AnnualDate(first.Month, first.Day),
            Enumerable.Range(0, WeeksInAYear)
                .Select(w => new WeekOfWater(need[w], rain[w], water[w], store[w], YearRange.Quantile(stores[w], DryShare))).ToListOf());
    }

    private static double[] AppliedByStep(DateTimeZone zone, ZoneDays days, IEnumerable<Opening> openings)
    {
        double[] applied = new double[days.Steps];
        foreach (Opening opening in openings)
        {
            int step = days.Lead + days.Climate.DayOf(opening.SiteTime(zone).Date);
            if (step >= 0 && step < applied.Length)
            {
                applied[step] += opening.DepthMm;
            }
        }

        return applied;
    }

    /// <summary>How full the part of the low quarter's root zone is that plants use freely, percent; below 0 where they lack
    /// water.</summary>
    private static double[] StoreByDay(Zone zone, ZoneDays days, double[] applied)
    {
        double[] full = new double[days.Days];
        RootZone root = RootZone.Of(zone);
        SpotStore column = new(root, 0);
        for (int step = 0; step < days.Steps; step++)
        {
            column.Step(days, step, applied[step] * zone.ReachingShare);
            if (step >= days.Lead)
            {
                full[days.DayOf(step)] = 100 * (1 - (column.DepletionMm / root.ReadilyMm));
            }
        }

        return full;
    }
}

/// <summary>One week, mean of the zones by area and of the years.</summary>
/// <param name="NeedMm">What the plants would use.</param>
/// <param name="RainMm">Rain that falls.</param>
/// <param name="WaterMm">Irrigation, gross.</param>
/// <param name="StorePercent">How full the store is that plants use freely: 100 full, 0 where they begin to lack water, below 0 past
/// that.</param>
/// <param name="DryStorePercent">What one in ten zones and years is below at the week's end.</param>
public sealed record WeekOfWater(double NeedMm, double RainMm, double WaterMm, double StorePercent, double DryStorePercent);
