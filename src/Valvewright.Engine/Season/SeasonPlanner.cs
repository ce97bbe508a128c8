using Valvewright.Engine.Balance;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Season;

/// <summary>
/// Finds the dates of a year's visits and the percents to leave each controller at, so that plants lack nothing and least water is lost.
/// </summary>
/// <remarks>
/// Three steps. Dynamic programming over the possible days, with every stretch begun as wet as it can be: a bound and a first
/// schedule. The same with every stretch begun as the best schedule so far begins it, until that finds nothing better. Then single
/// moves of a date or a percent on the full balance, until none helps. docs/season.md has the reasoning.
/// </remarks>
public static class SeasonPlanner
{
    private const int Rounds = 4;

    /// <summary>Plans a season.</summary>
    /// <param name="site">The site.</param>
    /// <param name="plan">Its programs; the visits that they carry are replaced.</param>
    /// <param name="years">Whole years of record, from 1 January, or 1 July south of the equator.</param>
    /// <param name="options">Visits, exchange rate, aim and wishes.</param>
    /// <param name="only">Controllers to plan for; null takes all, and one visit serves them all.</param>
    /// <exception cref="ArgumentException">The wishes cannot be met, or the years are not whole.</exception>
    public static SeasonPlan Of(Site site, Plan plan, IReadOnlyList<Climate> years, SeasonOptions options, IReadOnlyList<string>? only = null) =>
        Curve(site, plan, years, options, [(options ?? throw new ArgumentNullException(nameof(options))).Visits], only)[0];

    /// <summary>Plans a season for each of several numbers of visits; what they share is worked out once.</summary>
    /// <returns>By number of visits as given.</returns>
    /// <exception cref="ArgumentException">The wishes cannot be met, or the years are not whole.</exception>
    public static ListOf<SeasonPlan> Curve(
        Site site, Plan plan, IReadOnlyList<Climate> years, SeasonOptions options, IReadOnlyList<int> visits, IReadOnlyList<string>? only = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(years);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(visits);
        SeasonCase season = SeasonCase.Of(site, plan, years, options with { Visits = visits.Max() }, only);
        double[] weights = YearWeights(season);
        SegmentCosts[] wettest = Tables(season, c => SegmentCosts.Wettest(season, c, weights));
        List<SeasonPlan> plans = [];
        Schedule? before = null;
        foreach (int n in visits)
        {
            cancel.ThrowIfCancellationRequested();
            (Schedule first, double bound) = DateChain.Best(season, wettest, n)
                ?? throw new ArgumentException($"No {n} dates satisfy the wishes: they lie too close together, or an agreed date is skipped.");
            Schedule best = Improve(season, weights, first, n, cancel);
            best = Better(season, best, before is null ? null : SeasonPolish.WithOneMore(season, before, n));
            before = best = SeasonPolish.Run(season, weights, best, cancel);
            plans.Add(Describe(season, best, options with { Visits = n }, options.Aim == SeasonAim.MeanYear ? bound : null));
        }

        return plans.ToListOf();
    }

    private static Schedule Improve(SeasonCase season, double[] weights, Schedule first, int visits, CancellationToken cancel)
    {
        Schedule best = first;
        double cost = SeasonReplay.Cost(season, first);
        Schedule from = first;
        for (int round = 0; round < Rounds; round++)
        {
            cancel.ThrowIfCancellationRequested();
            Schedule begun = from;
            SegmentCosts[] tables = Tables(season, c => SegmentCosts.Under(season, c, weights, begun));
            Schedule next = DateChain.Best(season, tables, visits)!.Value.Schedule;
            double nextCost = SeasonReplay.Cost(season, next);
            if (nextCost < cost)
            {
                (best, cost) = (next, nextCost);
            }
            else if (round > 0)
            {
                break;
            }

            from = next;
        }

        return best;
    }

    private static Schedule Better(SeasonCase season, Schedule one, Schedule? other) =>
        other is not null && SeasonReplay.Cost(season, other) < SeasonReplay.Cost(season, one) ? other : one;

    internal static SegmentCosts[] Tables(SeasonCase season, Func<int, SegmentCosts> make) => [.. season.Controllers.Select((_, c) => make(c))];

    /// <summary>
    /// How much each year counts in the additive steps: all alike for the mean year, else the years whose least possible water is
    /// among the highest (two in five for eight years in ten, one in five for the worst). The full balance has the last word.
    /// </summary>
    internal static double[] YearWeights(SeasonCase season)
    {
        double[] need = [.. Enumerable.Range(0, season.YearCount).Select(y => LeastLitres(season, y))];
        double share = season.Options.Aim switch { SeasonAim.MeanYear => 1, SeasonAim.EightYearsInTen => 0.4, _ => 0.2 };
        int counted = Math.Max(1, (int)Math.Ceiling(share * season.YearCount));
        HashSet<int> chosen = [.. Enumerable.Range(0, season.YearCount).OrderByDescending(y => need[y]).ThenBy(y => y).Take(counted)];
        return [.. Enumerable.Range(0, season.YearCount).Select(y => chosen.Contains(y) ? 1.0 / counted : 0)];
    }

    private static double LeastLitres(SeasonCase season, int year) =>
        season.Controllers.Sum(c => c.Zones.Sum(z => z.Zone.AreaM2 * LeastPossibleWater.Of(z.Zone, z.Years[year]).TotalMm));

    private static SeasonPlan Describe(SeasonCase season, Schedule schedule, SeasonOptions options, double? bound)
    {
        double water = 0, stress = 0, area = 0, least = 0;
        for (int c = 0; c < season.Controllers.Length; c++)
        {
            foreach (ZoneCase zone in season.Controllers[c].Zones)
            {
                area += zone.Zone.AreaM2;
                for (int year = 0; year < season.YearCount; year++)
                {
                    (double[] waterMm, double[] stressDays) = SeasonReplay.OfZoneYear(season, zone, year, schedule.Dates, [schedule.Percents[c]]);
                    water += zone.Zone.AreaM2 * waterMm[0] / season.YearCount;
                    stress += zone.Zone.AreaM2 * stressDays[0] / season.YearCount;
                }
            }
        }

        for (int year = 0; year < season.YearCount; year++)
        {
            least += LeastLitres(season, year) / season.YearCount;
        }

        return new SeasonPlan
        {
            Dates = schedule.Dates.Select(season.Days.DateOf).ToListOf(),
            Controllers = season.Controllers
                .Select((c, i) => new ControllerSeason(c.Controller.Name, schedule.Percents[i].Select(p => c.Percents[p]).ToListOf()))
                .ToListOf(),
            CostLitres = SeasonReplay.Cost(season, schedule),
            BoundLitres = bound,
            WaterM3 = water / 1000,
            LeastM3 = least / 1000,
            StressDays = area > 0 ? stress / area : 0,
            Options = options,
        };
    }
}
