using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Season.Search;
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
    /// <param name="years">Whole years, each begun with full root zones.</param>
    /// <exception cref="ArgumentException">No years, or no zone that lasts.</exception>
    public static YearOfWater Of(Site site, Plan plan, IReadOnlyList<Climate> years)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(years);
        if (years.Count == 0 || !site.Controllers.Any(c => c.Zones.Any(ControllerCase.Lasts)))
        {
            throw new ArgumentException("A year of water needs years of weather, and a zone that lasts.");
        }

        DateTimeZone zone = site.Zone();
        double[] need = new double[WeeksInAYear], rain = new double[WeeksInAYear], water = new double[WeeksInAYear], store = new double[WeeksInAYear];
        List<double>[] stores = [.. Enumerable.Range(0, WeeksInAYear).Select(_ => new List<double>())];
        double area = years.Count * site.Controllers.Sum(c => c.Zones.Where(ControllerCase.Lasts).Sum(z => z.AreaM2));
        foreach (SiteController controller in site.Controllers)
        {
            ControllerPlan? own = plan.Controllers.FirstOrDefault(c => c.Controller == controller.Name);
            foreach (Climate year in years)
            {
                IReadOnlyList<Opening> openings = own is null ? [] : Watered.Of(zone, controller, own, year.First, year.Last).Openings;
                ILookup<int, Opening> byStation = openings.ToLookup(o => o.Run.Station);
                foreach (Zone planted in controller.Zones.Where(ControllerCase.Lasts))
                {
                    double part = planted.AreaM2 / area;
                    ZoneDays days = ZoneDays.Of(planted, year);
                    double[] applied = AppliedByDay(zone, year, byStation[planted.Station]);
                    double[] full = StoreByDay(planted, days, applied);
                    for (int day = 0; day < WeeksInAYear * DaysInAWeek; day++)
                    {
                        int week = day / DaysInAWeek;
                        need[week] += part * days.WantedMm[day];
                        rain[week] += part * year.RainMm[day];
                        water[week] += part * applied[day];
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
            Enumerable.Range(0, WeeksInAYear).Select(w => new WeekOfWater(need[w], rain[w], water[w], store[w], YearRange.Quantile(stores[w], DryShare))).ToListOf());
    }

    private static double[] AppliedByDay(DateTimeZone zone, Climate year, IEnumerable<Opening> openings)
    {
        double[] applied = new double[year.Days];
        foreach (Opening opening in openings)
        {
            int day = year.DayOf(opening.SiteTime(zone).Date);
            if (day >= 0 && day < applied.Length)
            {
                applied[day] += opening.DepthMm;
            }
        }

        return applied;
    }

    /// <summary>How full the part of the root zone is that plants use freely, mean of the spots, percent; below 0 where they lack water.</summary>
    private static double[] StoreByDay(Zone zone, ZoneDays days, double[] applied)
    {
        double[] full = new double[applied.Length];
        RootZone root = RootZone.Of(zone);
        double reaching = 1 - zone.Emission.ApplicationLossFraction;
        foreach ((double share, double weight) in zone.Emission.Spots.Share.Zip(zone.Emission.Spots.Weight))
        {
            SpotStore spot = new(root, 0);
            for (int day = 0; day < full.Length; day++)
            {
                spot.Step(days.RainInMm[day] + (applied[day] * share * reaching), days.WantedMm[day]);
                full[day] += weight * 100 * (1 - (spot.DepletionMm / root.ReadilyMm));
            }
        }

        return full;
    }
}

/// <summary>One week, mean of the zones by area and of the years.</summary>
/// <param name="NeedMm">What the plants would use.</param>
/// <param name="RainMm">Rain that falls.</param>
/// <param name="WaterMm">Irrigation, gross.</param>
/// <param name="StorePercent">How full the store is that plants use freely: 100 full, 0 where they begin to lack water, below 0 past that.</param>
/// <param name="DryStorePercent">What one in ten zones and years is below at the week's end.</param>
public sealed record WeekOfWater(double NeedMm, double RainMm, double WaterMm, double StorePercent, double DryStorePercent);
