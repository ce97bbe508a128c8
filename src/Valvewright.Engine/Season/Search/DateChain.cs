namespace Valvewright.Engine.Season.Search;

/// <summary>
/// The best dates and percents for costs that add up stretch by stretch: dynamic programming along the year, for every first visit.
/// </summary>
/// <remarks>
/// The dates are one for all controllers, so a stretch costs the sum over controllers of each one's best percent. With
/// <see cref="SegmentCosts.Wettest"/> the result's cost is a bound that no schedule on these days goes below.
/// </remarks>
internal static class DateChain
{
    /// <summary>The best schedule and its cost; null where no dates satisfy the wishes.</summary>
    public static (Schedule Schedule, double Cost)? Best(SeasonCase season, IReadOnlyList<SegmentCosts> costs, int visits)
    {
        VisitDays days = season.Days;
        double[,] stretch = BestStretches(season, costs);
        (double Cost, int[] Dates)? best = null;
        for (int first = 0; first < days.Count; first++)
        {
            if (days.Agreed.AsSpan(0, first).Contains(true))
            {
                break;
            }

            if (BestFrom(season, costs, stretch, first, visits) is { } found && (best is null || found.Cost < best.Value.Cost))
            {
                best = found;
            }
        }

        return best is { } chosen ? (WithPercents(season, costs, chosen.Dates), chosen.Cost) : null;
    }

    /// <summary>The cheapest percents for given dates, controller by controller.</summary>
    public static Schedule WithPercents(SeasonCase season, IReadOnlyList<SegmentCosts> costs, int[] dates) =>
        new(dates, [.. costs.Select(c => dates.Select((_, v) => CheapestOf(season, c, dates, v)).ToArray())]);

    private static int CheapestOf(SeasonCase season, SegmentCosts costs, int[] dates, int visit) => Enumerable.Range(0, costs.Percents).Where(p => season.Allows(dates[visit], p)).MinBy(p =>
        visit + 1 < dates.Length ? costs.Between(dates[visit], dates[visit + 1], p) : costs.OverNewYear(dates[visit], dates[0], p));

    private static double[,] BestStretches(SeasonCase season, IReadOnlyList<SegmentCosts> costs)
    {
        int points = season.Days.Count;
        double[,] stretch = new double[points, points];
        for (int from = 0; from < points; from++)
        {
            for (int to = from + 1; to < points; to++)
            {
                stretch[from, to] = IsAllowed(season, from, to) ? costs.Sum(c => Least(season, from, c.Percents, p => c.Between(from, to, p))) : double.PositiveInfinity;
            }
        }

        return stretch;
    }

    private static (double Cost, int[] Dates)? BestFrom(SeasonCase season, IReadOnlyList<SegmentCosts> costs, double[,] stretch, int first, int visits)
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
            bool missesAgreed = season.Days.Agreed.AsSpan(at + 1).Contains(true);
            bool tooClose = visits > 1 && season.Days.Offsets[first] + 365 - season.Days.Offsets[at] < season.Options.LeastDaysBetween;
            if (double.IsPositiveInfinity(least[visits - 1, at]) || missesAgreed || tooClose)
            {
                continue;
            }

            double cost = least[visits - 1, at] + costs.Sum(c => Least(season, at, c.Percents, p => c.OverNewYear(at, first, p)));
            if (cost < total)
            {
                (total, last) = (cost, at);
            }
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

    /// <summary>Two visits far enough apart, and no agreed one skipped between them.</summary>
    internal static bool IsAllowed(SeasonCase season, int from, int to) =>
        season.Days.Offsets[to] - season.Days.Offsets[from] >= season.Options.LeastDaysBetween
        && !season.Days.Agreed.AsSpan(from + 1, to - from - 1).Contains(true);

    private static double Least(SeasonCase season, int from, int percents, Func<int, double> cost)
    {
        double least = double.PositiveInfinity;
        for (int percent = 0; percent < percents && season.Allows(from, percent); percent++)
        {
            least = Math.Min(least, cost(percent));
        }

        return least;
    }
}
