using Valvewright.Engine.Season;

namespace Valvewright.Planning.Season;

/// <summary>
/// The best dates and percents for costs that add up stretch by stretch: dynamic programming along the year, for every first visit.
/// </summary>
/// <remarks>The dates are one for all controllers, so a stretch costs the sum over controllers of each one's best percent.</remarks>
internal static class DateChain
{
    /// <summary>The best schedule and its cost; null where no dates satisfy the wishes.</summary>
    /// <param name="season">The problem.</param>
    /// <param name="costs">One table per controller.</param>
    /// <param name="visits">How many visits.</param>
    /// <param name="factor">Times each zone's weight of unmet use.</param>
    public static (Schedule Schedule, double Cost)? Best(SeasonProblem season, IReadOnlyList<StretchCosts> costs, int visits, double factor)
    {
        VisitDays days = season.Days;
        double[,] stretch = BestStretches(season, costs, factor);
        (double Cost, int[] Dates)? best = null;
        for (int first = 0; first < days.Count && !days.IsAgreedBetween(-1, first); first++)
        {
            if (BestFrom(season, costs, stretch, first, visits, factor) is { } found && (best is null || found.Cost < best.Value.Cost))
            {
                best = found;
            }
        }

        return best is { } chosen
            ? (new Schedule(chosen.Dates,
                [.. costs.Select(c => chosen.Dates.Select((_, v) => CheapestOf(season, c, chosen.Dates, v, factor)).ToArray())]),
                    chosen.Cost)
            : null;
    }

    /// <summary>Whether dates follow each other as the wishes ask.</summary>
    public static bool IsChain(SeasonProblem season, int[] dates)
    {
        for (int visit = 1; visit < dates.Length; visit++)
        {
            if (dates[visit] <= dates[visit - 1] || !IsAllowed(season, dates[visit - 1], dates[visit]))
            {
                return false;
            }
        }

        return !IsTooCloseOverNewYear(season, dates[0], dates[^1], dates.Length)
            && !season.Days.IsAgreedBetween(-1, dates[0]) && !season.Days.IsAgreedBetween(dates[^1], season.Days.Count);
    }

    private static bool IsTooCloseOverNewYear(SeasonProblem season, int first, int last, int visits) =>
        visits > 1 && season.Days.Offsets[first] + 365 - season.Days.Offsets[last] < season.Options.LeastDaysBetween;

    /// <summary>Two visits far enough apart, and no agreed one skipped between them.</summary>
    private static bool IsAllowed(SeasonProblem season, int from, int to) =>
        season.Days.Offsets[to] - season.Days.Offsets[from] >= season.Options.LeastDaysBetween && !season.Days.IsAgreedBetween(from, to);

    private static int CheapestOf(SeasonProblem season, StretchCosts costs, int[] dates, int visit, double factor) =>
        Enumerable.Range(0, costs.Percents).Where(p => season.Allows(dates[visit], p)).MinBy(p =>
            visit + 1 < dates.Length ? costs.Between(dates[visit], dates[visit + 1], p, factor)
                : costs.OverNewYear(dates[visit], dates[0], p, factor));

    private static double[,] BestStretches(SeasonProblem season, IReadOnlyList<StretchCosts> costs, double factor)
    {
        int points = season.Days.Count;
        double[,] stretch = new double[points, points];
        for (int from = 0; from < points; from++)
        {
            for (int to = from + 1; to < points; to++)
            {
                stretch[from, to] = IsAllowed(season, from, to)
                    ? costs.Sum(c => Least(season, from, c.Percents, p => c.Between(from, to, p, factor)))
                    : double.PositiveInfinity;
            }
        }

        return stretch;
    }

    private static (double Cost, int[] Dates)? BestFrom(
        SeasonProblem season, IReadOnlyList<StretchCosts> costs, double[,] stretch, int first, int visits, double factor)
    {
        int points = season.Days.Count;
        double[,] least = new double[visits, points];
        int[,] previous = new int[visits, points];
        for (int visit = 0; visit < visits; visit++)
        {
            for (int at = 0; at < points; at++)
            {
                least[visit, at] = visit == 0 && at == first ? 0 : double.PositiveInfinity;
                for (int from = first; visit > 0 && from < at; from++)
                {
                    double cost = least[visit - 1, from] + stretch[from, at];
                    if (cost < least[visit, at])
                    {
                        (least[visit, at], previous[visit, at]) = (cost, from);
                    }
                }
            }
        }

        int last = -1;
        double total = double.PositiveInfinity;
        for (int at = first; at < points; at++)
        {
            if (double.IsPositiveInfinity(least[visits - 1, at]) || season.Days.IsAgreedBetween(at, points)
                || IsTooCloseOverNewYear(season, first, at, visits))
            {
                continue;
            }

            double cost = least[visits - 1, at] + costs.Sum(c => Least(season, at, c.Percents, p => c.OverNewYear(at, first, p, factor)));
            (total, last) = cost < total ? (cost, at) : (total, last);
        }

        return last < 0 ? null : (total, Trace(previous, last, visits));
    }

    private static int[] Trace(int[,] previous, int last, int visits)
    {
        int[] dates = new int[visits];
        dates[^1] = last;
        for (int visit = visits - 1; visit > 0; visit--)
        {
            dates[visit - 1] = previous[visit, dates[visit]];
        }

        return dates;
    }

    private static double Least(SeasonProblem season, int from, int percents, Func<int, double> cost)
    {
        double least = double.PositiveInfinity;
        for (int percent = 0; percent < percents && season.Allows(from, percent); percent++)
        {
            least = Math.Min(least, cost(percent));
        }

        return least;
    }
}
