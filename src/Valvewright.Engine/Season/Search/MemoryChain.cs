namespace Valvewright.Engine.Season.Search;

/// <summary>
/// A bound for one controller's season, by dynamic programming over dates, percents, and how long the percent before had been set.
/// </summary>
internal static class MemoryChain
{
    /// <summary>What no season with as many visits on these days costs less than, L; infinite where no dates satisfy the wishes.</summary>
    public static double Bound(SeasonCase season, MemoryCosts costs, int visits)
    {
        double[] best = new double[costs.Percents];
        Parallel.For(0, costs.Percents, new ParallelOptions { MaxDegreeOfParallelism = Math.Max(1, season.Options.Threads) }, overNewYear => best[overNewYear] = WithOverNewYear(season, costs, visits, overNewYear));
        return best.Min();
    }

    /// <summary>The same when the percent that holds over the new year is given: it is the first stretch's and the last's.</summary>
    private static double WithOverNewYear(SeasonCase season, MemoryCosts costs, int visits, int overNewYear)
    {
        int points = season.Days.Count, states = MemoryCosts.Classes * costs.Percents;
        double rate = season.Options.StressWeightMm;
        double[][] now = Empty(points, states);
        for (int first = 0; first < points && !season.Days.Agreed.AsSpan(0, first).Contains(true); first++)
        {
            int memory = MemoryCosts.ClassOf(season.Days.Offsets[first]);
            now[first][memory * costs.Percents + overNewYear] = costs.Cost(-1, first, 0, 0, overNewYear, rate);
        }

        for (int visit = 1; visit < visits; visit++)
        {
            double[][] next = Empty(points, states);
            for (int from = 0; from < points; from++)
            {
                Extend(season, costs, now[from], from, next, rate);
            }

            now = next;
        }

        double best = double.PositiveInfinity;
        for (int last = 0; last < points; last++)
        {
            if (season.Days.Agreed.AsSpan(last + 1).Contains(true))
            {
                continue;
            }

            for (int state = 0; state < states; state++)
            {
                if (now[last][state] < best && season.Allows(last, overNewYear))
                {
                    best = Math.Min(best, now[last][state] + costs.Cost(last, points, state / costs.Percents, state % costs.Percents, overNewYear, rate));
                }
            }
        }

        return best;
    }

    private static void Extend(SeasonCase season, MemoryCosts costs, double[] now, int from, double[][] next, double rate)
    {
        for (int to = from + 1; to < next.Length; to++)
        {
            if (!DateChain.IsAllowed(season, from, to))
            {
                continue;
            }

            int memory = MemoryCosts.ClassOf(season.Days.Offsets[to] - season.Days.Offsets[from]);
            for (int state = 0; state < now.Length; state++)
            {
                if (double.IsPositiveInfinity(now[state]))
                {
                    continue;
                }

                for (int percent = 0; percent < costs.Percents && season.Allows(from, percent); percent++)
                {
                    double cost = now[state] + costs.Cost(from, to, state / costs.Percents, state % costs.Percents, percent, rate);
                    ref double known = ref next[to][memory * costs.Percents + percent];
                    known = Math.Min(known, cost);
                }
            }
        }
    }

    private static double[][] Empty(int points, int states)
    {
        double[][] all = new double[points][];
        for (int i = 0; i < points; i++)
        {
            all[i] = new double[states];
            Array.Fill(all[i], double.PositiveInfinity);
        }

        return all;
    }
}
