using Valvewright.Engine.Season.Search.Programs;

namespace Valvewright.Engine.Season.Search;

/// <summary>Single moves of a date or a percent, judged on the full balance, until none helps.</summary>
internal static class SeasonPolish
{
    /// <summary>A move must save this part of the cost to count, so that rounding does not move dates about.</summary>
    private const double LeastGain = 1e-9;

    private const int MostRounds = 20;

    /// <summary>The schedule that no single move betters.</summary>
    public static Schedule Run(SeasonCase season, double[] weights, Schedule schedule, CancellationToken cancel)
    {
        Schedule best = Settled(season, schedule);
        double cost = SeasonReplay.Cost(season, best);
        for (int round = 0; round < MostRounds; round++)
        {
            cancel.ThrowIfCancellationRequested();
            Schedule begun = best;

            int[][] moves = [.. DateMoves(season, best.Dates)];
            bool changing = best.Variants is not null;

            // On a large site the settings are found anew only for the dates that are taken: tables with variants take their time.
            SegmentCosts[] tables = changing && !season.IsSmall
                ? []
                : SeasonPlanner.Tables(season, c => SegmentCosts.Under(season, c, weights, begun, changing && season.Controllers[c].HasVariants, Needed(season, moves)));
            (Schedule Schedule, double Cost)? moved = null;
            foreach (int[] dates in moves)
            {
                Schedule[] chosen = tables.Length == 0 ? [] : [changing ? ProgramSearch.Chosen(season, tables, dates) : DateChain.WithPercents(season, tables, dates)];
                foreach (Schedule candidate in (Schedule[])[best with { Dates = dates }, .. chosen])
                {
                    double candidateCost = SeasonReplay.Cost(season, candidate);
                    if (candidateCost < (moved?.Cost ?? cost) * (1 - LeastGain))
                    {
                        moved = (candidate, candidateCost);
                    }
                }
            }

            if (moved is null)
            {
                break;
            }

            best = Settled(season, moved.Value.Schedule);
            cost = SeasonReplay.Cost(season, best);
        }

        return best;
    }

    /// <summary>The stretches that seasons on any of some dates consist of: by beginning, the last end.</summary>
    private static int[] Needed(SeasonCase season, int[][] moves)
    {
        int[] until = new int[season.Days.Count + 1];
        Array.Fill(until, -1);
        foreach (int[] dates in moves)
        {
            until[0] = Math.Max(until[0], dates[0] + 1);
            for (int visit = 0; visit < dates.Length; visit++)
            {
                int end = visit + 1 < dates.Length ? dates[visit + 1] : season.Days.Count;
                until[dates[visit] + 1] = Math.Max(until[dates[visit] + 1], end + 1);
            }
        }

        return until;
    }

    private static Schedule Settled(SeasonCase season, Schedule schedule) => schedule.Variants is null ? Percents(season, schedule) : VariantMoves.Run(season, schedule);

    /// <summary>A season of one visit more that does the same: its longest stretch halved.</summary>
    public static Schedule? WithOneMore(SeasonCase season, Schedule schedule, int visits)
    {
        if (schedule.Dates.Length >= visits)
        {
            return null;
        }

        int[] free = [.. Enumerable.Range(0, season.Days.Count).Where(d => IsFree(season, schedule.Dates, d))];
        if (free.Length == 0)
        {
            return null;
        }

        int added = free.MaxBy(d => schedule.Dates.Min(x => Math.Abs(season.Days.Offsets[x] - season.Days.Offsets[d])));
        int visitBefore = Array.FindLastIndex(schedule.Dates, x => x < added);
        int copied = visitBefore < 0 ? schedule.Dates.Length - 1 : visitBefore;
        Schedule more = new(
            [.. schedule.Dates.Append(added).Order()],
            [.. schedule.Percents.Select(WithCopy)],
            schedule.Variants is null ? null : [.. schedule.Variants.Select(c => c.Select(WithCopy).ToArray())]);
        int[] WithCopy(int[] byVisit) => [.. byVisit[..(visitBefore + 1)], byVisit[copied], .. byVisit[(visitBefore + 1)..]];
        return more.Dates.Length == visits ? more : WithOneMore(season, more, visits);
    }

    private static bool IsFree(SeasonCase season, int[] dates, int day)
    {
        int apart = season.Options.LeastDaysBetween;
        return dates.All(x =>
        {
            int between = Math.Abs(season.Days.Offsets[x] - season.Days.Offsets[day]);
            return between >= apart && 365 - between >= apart;
        });
    }

    /// <summary>The best percents for the dates, one or two neighbouring visits at a time; controllers do not depend on each other.</summary>
    /// <param name="season">The problem.</param>
    /// <param name="schedule">Where to begin.</param>
    /// <param name="controllers">In the mean year, the controllers whose percents may move; null for all.</param>
    public static Schedule Percents(SeasonCase season, Schedule schedule, int[]? controllers = null)
    {
        int[][] percents = [.. schedule.Percents.Select(p => p.ToArray())];
        if (season.Options.Aim == SeasonAim.MeanYear)
        {
            foreach (int controller in controllers ?? [.. Enumerable.Range(0, percents.Length)])
            {
                percents[controller] = Best(season, controller, schedule, percents[controller], y => 0);
            }

            return schedule with { Percents = percents };
        }

        double[][,] costs = [.. percents.Select((p, c) => SeasonReplay.Costs(season, c, schedule.Dates, [p], schedule.Variants?[c]))];
        for (int controller = 0; controller < percents.Length; controller++)
        {
            int own = controller;
            percents[own] = Best(season, own, schedule, percents[own], y => costs.Where((_, c) => c != own).Sum(c => c[0, y]));
            costs[own] = SeasonReplay.Costs(season, own, schedule.Dates, [percents[own]], schedule.Variants?[own]);
        }

        return schedule with { Percents = percents };
    }

    private static int[] Best(SeasonCase season, int controller, Schedule schedule, int[] percents, Func<int, double> othersInYear)
    {
        int[] dates = schedule.Dates;
        int settings = season.Controllers[controller].Percents.Length;
        int[] best = percents;
        for (int round = 0; round < MostRounds; round++)
        {
            List<int[]> candidates = [best, .. PercentMoves(best, settings).Where(p => p.Zip(dates).All(v => season.Allows(v.Second, v.First)))];
            double[,] costs = SeasonReplay.Costs(season, controller, dates, candidates, schedule.Variants?[controller]);
            double[] aimed = [.. candidates.Select((_, i) => SeasonReplay.Aimed(season, y => costs[i, y] + othersInYear(y)))];
            int least = Enumerable.Range(0, aimed.Length).MinBy(i => aimed[i]);
            if (aimed[least] >= aimed[0] * (1 - LeastGain))
            {
                break;
            }

            best = candidates[least];
        }

        return best;
    }

    private static IEnumerable<int[]> PercentMoves(int[] percents, int settings)
    {
        for (int visit = 0; visit < percents.Length; visit++)
        {
            for (int to = 0; to < settings; to++)
            {
                if (to != percents[visit] && (Math.Abs(to - percents[visit]) <= 3 || to == 0))
                {
                    yield return With(percents, (visit, to));
                }
            }

            int next = (visit + 1) % percents.Length;
            foreach (int step in (int[])[1, -1])
            {
                int up = percents[visit] + step, down = percents[next] - step;
                if (next != visit && up >= 0 && up < settings && down >= 0 && down < settings)
                {
                    yield return With(percents, (visit, up), (next, down));
                }
            }
        }
    }

    private static int[] With(int[] percents, params (int Visit, int Percent)[] changes)
    {
        int[] changed = [.. percents];
        foreach ((int visit, int percent) in changes)
        {
            changed[visit] = percent;
        }

        return changed;
    }

    public static IEnumerable<int[]> DateMoves(SeasonCase season, int[] dates)
    {
        for (int visit = 0; visit < dates.Length; visit++)
        {
            foreach (int step in (int[])[-1, 1, -2, 2, -4, 4])
            {
                int to = dates[visit] + step;
                if (season.Days.Agreed[dates[visit]] || to < 0 || to >= season.Days.Count)
                {
                    continue;
                }

                int[] moved = [.. dates];
                moved[visit] = to;
                if (IsChain(season, moved))
                {
                    yield return moved;
                }
            }
        }
    }

    private static bool IsChain(SeasonCase season, int[] dates)
    {
        for (int visit = 1; visit < dates.Length; visit++)
        {
            if (dates[visit] <= dates[visit - 1] || !DateChain.IsAllowed(season, dates[visit - 1], dates[visit]))
            {
                return false;
            }
        }

        bool wide = dates.Length == 1 || season.Days.Offsets[dates[0]] + 365 - season.Days.Offsets[dates[^1]] >= season.Options.LeastDaysBetween;
        return wide && !season.Days.Agreed.AsSpan(0, dates[0]).Contains(true) && !season.Days.Agreed.AsSpan(dates[^1] + 1).Contains(true);
    }
}
