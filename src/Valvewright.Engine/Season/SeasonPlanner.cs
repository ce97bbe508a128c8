using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season.Search.Programs;
using Valvewright.Engine.Season.Search;
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
    private const int Full = 100;
    private const int Rounds = 4;
    private const int MostZoneYearsToLead = 400;
    private const double SmallestRateMm = 5;
    private const double LargestRateMm = 5000;
    private const int RateSteps = 6;

    /// <summary>So little stress is none.</summary>
    private const double NoStressDays = 0.005;

    /// <summary>Use of years that ask more than those known, over theirs.</summary>
    private static readonly double[] MoreUse = [1.1, 1.2, 1.35, 1.5];

    /// <summary>Plans a season.</summary>
    /// <param name="site">The site.</param>
    /// <param name="plan">Its programs; the visits that they carry are replaced.</param>
    /// <param name="years">Whole years of record, from 1 January, or 1 July south of the equator.</param>
    /// <param name="options">Visits, exchange rate, aim and wishes.</param>
    /// <param name="only">Controllers to plan for; null takes all, and one visit serves them all.</param>
    /// <exception cref="ArgumentException">The wishes cannot be met, or the years are not whole.</exception>
    public static SeasonPlan Of(Site site, Plan plan, IReadOnlyList<Climate> years, SeasonOptions options, IReadOnlyList<string>? only = null)
    {
        ArgumentNullException.ThrowIfNull(options);
        int[] visits = Leading(site, years, options);
        SeasonCase season = SeasonCase.Of(site, plan, years, options, only);
        Found? searched = null;
        SeasonPlan found = options is { StressOfUnseenYears: true, MostStressDays: { } most } && years.Count > 1
            ? UnseenYears.Within(most, limit => Search(season.Within(limit), options with { MostStressDays = limit }, visits, default, leading: true)[^1].Plan, season, years, only)
            : Last(Search(season, options, visits, default, leading: true), out searched);
        found = options.MostWaterM3 is not null && options.Aim == SeasonAim.MeanYear && found.KeyedSettings == 0 ? Hardened(season, found, years, options, only) : found;

        // Percents above 100 are looked at for controllers that the season would turn to 100 and beyond.
        Dictionary<string, int> largest = !options.AboveFull ? [] : found.Controllers
            .Where(c => c.Percents.Contains(Full))
            .Select(c => (c.Controller, Percent: season.Rules.LargestPercent(c.Controller)))
            .Where(c => c.Percent > Full)
            .ToDictionary(c => c.Controller, c => c.Percent);
        if (largest.Count == 0)
        {
            return found;
        }

        SeasonOptions asked = options with { MostStressDays = found.Options.MostStressDays };
        bool limited = asked.MostStressDays is not null || asked.MostWaterM3 is not null;
        SeasonCase wide = season.Wider(largest, years, asked);
        SeasonPlan wider = Search(wide, asked, [options.Visits], default, start: limited ? null : searched)[^1].Plan with { UnseenStressDays = found.UnseenStressDays };
        return wider.IsBetterThan(found) && season.Rules.Hold(wider.ApplyTo(plan)) ? wider : found;
    }

    private static SeasonPlan Last(List<(SeasonPlan Plan, Found Found)> searched, out Found found)
    {
        found = searched[^1].Found;
        return searched[^1].Plan;
    }

    /// <summary>
    /// Where the water that there is spares plants all stress in the years known, what is left of it is spent on years that ask more than any known: the season is
    /// planned for rising use until some stress is left, and the last one without stress in the years known is kept.
    /// </summary>
    private static SeasonPlan Hardened(SeasonCase season, SeasonPlan found, IReadOnlyList<Climate> years, SeasonOptions options, IReadOnlyList<string>? only)
    {
        SeasonPlan best = found;
        foreach (double more in MoreUse)
        {
            if (best.StressDays > NoStressDays)
            {
                break;
            }

            Climate[] harder = [.. years.Select(y => new Climate(y.First, [.. y.EtoMm.Select(e => e * more)], [.. y.RainMm]))];
            SeasonPlan tried = Search(SeasonCase.Of(season.Site, season.Plan, harder, options, only), options, [options.Visits], default)[0].Plan;
            Schedule schedule = UnseenYears.ScheduleOf(season, tried);
            SeasonPlan known = Describe(new Found(season.At(found.Options.StressWeightMm), schedule, schedule, 0, [], found.LeastStressDaysWithinWater), found.Options, found.BoundLitres);
            best = tried.KeyedSettings == 0 && known.StressDays <= NoStressDays ? known : best;
            if (tried.StressDays > NoStressDays)
            {
                break;
            }
        }

        return best;
    }

    /// <summary>
    /// The seasons of fewer visits to plan on the way: each begins the search of the next, which finds better ones. For large sites,
    /// where that takes long, none; nor within a limit, where each has its own exchange rate.
    /// </summary>
    private static int[] Leading(Site site, IReadOnlyList<Climate> years, SeasonOptions options)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(years);
        if (options.MostStressDays is not null || options.MostWaterM3 is not null)
        {
            return [options.Visits];
        }

        bool small = site.Controllers.Sum(c => c.Zones.Count) * years.Count <= MostZoneYearsToLead;
        int fewest = Math.Max(1, VisitDays.Of(options, site.Place.LatitudeDeg < 0).Agreed.Count(a => a));
        return small && options.Visits > fewest ? [.. Enumerable.Range(fewest, options.Visits - fewest + 1)] : [options.Visits];
    }

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
        return Search(SeasonCase.Of(site, plan, years, options with { Visits = visits.Max() }, only), options, visits, cancel).Select(f => f.Plan).ToListOf();
    }

    /// <param name="season">The problem.</param>
    /// <param name="options">How it was asked for.</param>
    /// <param name="visits">Numbers of visits.</param>
    /// <param name="cancel">Stops the search.</param>
    /// <param name="leading">Whether all but the last only lead to it: they then set percents alone.</param>
    /// <param name="start">What the search of a narrower problem came to, which this one goes on from: of as many visits, with fewer percents at some controllers.</param>
    private static List<(SeasonPlan Plan, Found Found)> Search(
        SeasonCase season, SeasonOptions options, IReadOnlyList<int> visits, CancellationToken cancel, bool leading = false, Found? start = null)
    {
        SeasonCase steady = season.Without([.. Enumerable.Range(0, season.Controllers.Length)]);
        double[] weights = YearWeights(season);
        SegmentCosts[] wettest = Tables(season, c => start is not null && start.Season.Controllers[c] == season.Controllers[c] ? start.Wettest[c] : SegmentCosts.Wettest(season, c, weights));
        bool changing = season.Controllers.Any(c => c.HasVariants);

        // The nearer bound knows nothing of programs that change.
        MemoryCosts[] memories = options.NearBound && !changing ? [.. season.Controllers.Select((_, c) => MemoryCosts.Of(season, c, weights))] : [];
        List<(SeasonPlan, Found)> plans = [];
        Found? before = null;
        foreach (int n in visits)
        {
            cancel.ThrowIfCancellationRequested();
            Found found = options.MostStressDays is not null || options.MostWaterM3 is not null
                ? changing ? WithinOrAlone(season, steady, weights, wettest, n, cancel) : Within(season, weights, wettest, n, cancel)
                : At(leading && n != visits[^1] ? steady : season, weights, wettest, n, before, cancel, start: start);
            before = found;

            // Each controller's own bound lets it choose its own dates; the sum is a bound for dates in common.
            double bound = memories.Length > 0 ? Math.Max(found.Bound, memories.Sum(m => MemoryChain.Bound(found.Season, m, n))) : found.Bound;
            SeasonOptions used = options with { Visits = n, StressWeightMm = found.Season.Options.StressWeightMm };
            plans.Add((Describe(found, used, options.Aim == SeasonAim.MeanYear ? bound : null), found));
        }

        return plans;
    }

    private static Found At(SeasonCase season, double[] weights, SegmentCosts[] wettest, int visits, Found? fewer, CancellationToken cancel, bool polished = true, Found? start = null)
    {
        SegmentCosts[] rated = Rated(wettest, season), alone = [.. rated.Select(t => t.OfPercentsAlone())];
        (Schedule first, double bound) = DateChain.Best(season, alone, visits)
            ?? throw new UnmetWishException($"No {visits} dates satisfy the wishes: they lie too close together, or an agreed date is skipped.");
        Schedule best = start is null ? Improve(season, weights, first, visits, cancel) : Improve(season, weights, start.Alone, visits, cancel, rounds: 1);
        best = Better(season, best, fewer is null ? null : SeasonPolish.WithOneMore(season, fewer.Alone, visits));
        best = Better(season, best, OfMeanYear(season, visits, cancel));
        best = polished ? SeasonPolish.Run(season, weights, best, cancel) : best;
        if (!season.Controllers.Any(c => c.HasVariants))
        {
            return new Found(season, best, best, bound, wettest);
        }

        if (start is not null)
        {
            Schedule more = WithinRules(season, best, s => ProgramSearch.GoOn(s, weights, best, start.Best, cancel));
            return new Found(season, more, best, DateChain.Best(season, rated, visits)!.Value.Cost, wettest);
        }

        Schedule[] seeds = fewer?.Best.Variants is null ? [] : [.. new[] { SeasonPolish.WithOneMore(season, fewer.Best, visits) }.OfType<Schedule>()];
        Schedule changing = WithinRules(season, best, s => ProgramSearch.Run(s, weights, best, visits, seeds, cancel));
        return new Found(season, changing, best, DateChain.Best(season, rated, visits)!.Value.Cost, wettest);
    }

    /// <summary>Program changes that keep the rules: controllers whose changes break one are left out, and the rest is found anew.</summary>
    private static Schedule WithinRules(SeasonCase season, Schedule alone, Func<SeasonCase, Schedule> search)
    {
        HashSet<int> left = [];
        while (true)
        {
            SeasonCase tried = season.Without(left);
            Schedule found = search(tried);
            int[] breaking = Breaking(tried, found);
            if (breaking.Length == 0)
            {
                return found.Variants is null || season.Rules.Hold(Visited(season, found)) ? found : alone;
            }

            left.UnionWith(breaking);
        }
    }

    private static int[] Breaking(SeasonCase season, Schedule found) =>
        found.Variants is null ? [] : [.. Enumerable.Range(0, season.Controllers.Length).Where(c => !Holds(season, found, c))];

    private static bool KeepsRules(SeasonCase season, Schedule found) => Breaking(season, found).Length == 0 && season.Rules.Hold(Visited(season, found));

    private static Plan Visited(SeasonCase season, Schedule found) => new SeasonPlan
    {
        Dates = found.Dates.Select(season.Days.DateOf).ToListOf(), Controllers = season.InWords(found), Options = season.Options,
        CostLitres = 0, BoundLitres = null, WaterM3 = 0, LeastM3 = 0, StressDays = 0,
    }.ApplyTo(season.Plan);

    /// <summary>Whether every set of programs that a controller's visits leave keeps the rules all year, at the largest percent set with it.</summary>
    private static bool Holds(SeasonCase season, Schedule schedule, int controller)
    {
        ControllerCase own = season.Controllers[controller];
        ListOf<Program> planned = season.Plan.For(own.Controller.Name).Settings.Programs;
        return Enumerable.Range(0, schedule.Dates.Length)
            .Select(v => (Programs: season.ProgramsAfter(controller, schedule, v), Percent: own.Percents[schedule.Percents[controller][v]]))
            .Where(v => v.Percent > 0 && !v.Programs.Equals(planned))
            .GroupBy(v => v.Programs)
            .All(g => season.Rules.Hold(own.Controller.Name, g.Key, g.Max(v => v.Percent)));
    }

    /// <summary>For another aim than the mean year: the mean year's season, which the search must at least equal; else null.</summary>
    private static Schedule? OfMeanYear(SeasonCase season, int visits, CancellationToken cancel)
    {
        if (season.Options.Aim == SeasonAim.MeanYear)
        {
            return null;
        }

        SeasonCase mean = season.For(SeasonAim.MeanYear).Without([.. Enumerable.Range(0, season.Controllers.Length)]);
        double[] weights = YearWeights(mean);
        return At(mean, weights, Tables(mean, c => SegmentCosts.Wettest(mean, c, weights)), visits, null, cancel).Best;
    }

    /// <summary>
    /// A season within a limit of stress or of water. The smallest exchange rate whose season keeps stress within the limit, or the largest whose season keeps the water
    /// within it, by halving the span of rates; then, for the mean year, moves from it and from the last season beyond the limit to the best within it.
    /// </summary>
    private static Found Within(SeasonCase season, double[] weights, SegmentCosts[] wettest, int visits, CancellationToken cancel)
    {
        // Moves within the limit follow, so that the rates need no polish of their own.
        bool polished = season.Options.Aim != SeasonAim.MeanYear, ofWater = season.Options.MostWaterM3 is not null;
        double inside = Math.Log(ofWater ? SmallestRateMm : LargestRateMm), outside = Math.Log(ofWater ? LargestRateMm : SmallestRateMm);
        Found At(double logRate) => SeasonPlanner.At(season.At(Math.Exp(logRate)), weights, wettest, visits, null, cancel, polished);
        Found within = At(inside);
        Found? beyond = null;
        double least = LeastWithin(within);
        for (int step = 0; step < RateSteps && IsWithin(within); step++)
        {
            double middle = (inside + outside) / 2;
            Found tried = At(middle);
            least = Math.Max(least, LeastWithin(tried));
            if (IsWithin(tried))
            {
                (within, inside) = (tried, middle);
            }
            else
            {
                (beyond, outside) = (tried, middle);
            }
        }

        Found[] ends = season.Options.Aim != SeasonAim.MeanYear ? [] : beyond is null ? [within] : [within, beyond];
        Schedule[] moved = [within.Best, .. ends.Select(e => WithinLimit.Run(season, e.Best, cancel)).Where(s => s.Variants is null || KeepsRules(season, s))];
        Schedule best = moved.MinBy(s => WithinLimit.Score(season, WithinLimit.Totals(season, s)) + season.KeysCost(s))!;
        return within with { Best = best, Least = least };
    }

    /// <summary>The same where visits may change programs: never worse than with percents alone, which are searched by themselves.</summary>
    private static Found WithinOrAlone(SeasonCase season, SeasonCase steady, double[] weights, SegmentCosts[] wettest, int visits, CancellationToken cancel)
    {
        Found changing = Within(season, weights, wettest, visits, cancel), alone = Within(steady, weights, wettest, visits, cancel);
        double Score(Found found) => WithinLimit.Score(season, WithinLimit.Totals(season, found.Best)) + season.KeysCost(found.Best);
        if (Score(changing) < Score(alone))
        {
            return changing;
        }

        SeasonCase rated = season.At(alone.Season.Options.StressWeightMm);
        return alone with { Season = rated, Least = changing.Least, Bound = DateChain.Best(rated, Rated(wettest, rated), visits)!.Value.Cost };
    }

    private static bool IsWithin(Found found)
    {
        (double water, double stress) = Totals(found.Season, found.Best);
        return found.Season.Options.MostWaterM3 is { } most ? water <= 1000 * most : stress <= found.Season.Options.MostStressDays;
    }

    /// <summary>
    /// Water, L, that a season within a limit of stress uses at least, or stress days within a limit of water: its cost at any exchange rate is no less
    /// than the bound, and the other of the two no more than the limit.
    /// </summary>
    private static double LeastWithin(Found found)
    {
        SeasonOptions options = found.Season.Options;
        double litresADay = options.StressWeightMm * found.Season.AreaM2;
        return options.MostWaterM3 is { } most
            ? Math.Max(0, found.Bound - (1000 * most)) / litresADay
            : found.Bound - (litresADay * options.MostStressDays!.Value);
    }

    private static SegmentCosts[] Rated(SegmentCosts[] tables, SeasonCase season) => [.. tables.Select(t => t.At(season.Options.StressWeightMm))];

    internal static double StressOf(SeasonCase season, Schedule schedule)
    {
        (_, double stress) = Totals(season, schedule);
        return stress;
    }

    private static Schedule Improve(SeasonCase season, double[] weights, Schedule first, int visits, CancellationToken cancel, int rounds = Rounds)
    {
        Schedule best = first;
        double cost = SeasonReplay.Cost(season, first);
        Schedule from = first;
        for (int round = 0; round < rounds; round++)
        {
            cancel.ThrowIfCancellationRequested();
            Schedule begun = from;
            SegmentCosts[] tables = Tables(season, c => SegmentCosts.Under(season, c, weights, begun, withVariants: false));
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

    /// <summary>Mean water of a year, L, and stress days of a year, mean over zones by area.</summary>
    private static (double WaterLitres, double StressDays) Totals(SeasonCase season, Schedule schedule)
    {
        double water = 0, stress = 0, area = 0;
        for (int c = 0; c < season.Controllers.Length; c++)
        {
            foreach (ZoneCase zone in season.Controllers[c].Zones)
            {
                area += zone.Zone.AreaM2;
                for (int year = 0; year < season.YearCount; year++)
                {
                    (double[] waterMm, double[] stressDays) = SeasonReplay.OfZoneYear(season, zone, year, schedule.Dates, [schedule.Percents[c]], schedule.VariantsOf(c, zone.Program));
                    water += zone.Zone.AreaM2 * waterMm[0] / season.YearCount;
                    stress += zone.Zone.AreaM2 * stressDays[0] / season.YearCount;
                }
            }
        }

        return (water, area > 0 ? stress / area : 0);
    }

    private static SeasonPlan Describe(Found found, SeasonOptions options, double? bound)
    {
        (SeasonCase season, Schedule schedule) = (found.Season, found.Best);
        (double water, double stress) = Totals(season, schedule);
        (double aloneWater, double aloneStress) = schedule.Variants is null ? (water, stress) : Totals(season, found.Alone);
        return new SeasonPlan
        {
            Dates = schedule.Dates.Select(season.Days.DateOf).ToListOf(),
            Controllers = season.InWords(schedule),
            CostLitres = SeasonReplay.Cost(season, schedule),
            BoundLitres = bound,
            WaterM3 = water / 1000,
            LeastM3 = Enumerable.Range(0, season.YearCount).Average(y => LeastLitres(season, y)) / 1000,
            StressDays = stress,
            LeastWithinStressM3 = options.MostStressDays is null ? null : found.Least / 1000,
            LeastStressDaysWithinWater = options.MostWaterM3 is null ? null : found.Least,
            KeyedSettings = season.KeysOf(schedule),
            PercentsAlone = schedule.Variants is null ? null : new PercentsAlone(SeasonReplay.Cost(season, found.Alone), aloneWater / 1000, aloneStress),
            Options = options,
        };
    }

    /// <summary>What a search came to.</summary>
    /// <param name="Season">The problem, at its exchange rate.</param>
    /// <param name="Best">The best schedule.</param>
    /// <param name="Alone">The best of percents alone.</param>
    /// <param name="Bound">What none costs less than.</param>
    /// <param name="Wettest">By controller, the tables of the bound.</param>
    /// <param name="Least">Water (L) or stress days that none within a limit of the other goes below; null without a limit.</param>
    private sealed record Found(SeasonCase Season, Schedule Best, Schedule Alone, double Bound, SegmentCosts[] Wettest, double? Least = null);
}
