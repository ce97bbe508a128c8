namespace Valvewright.Planning.Season;

/// <summary>Single moves of a date and of one or two percents on the full balance, until none makes a schedule better.</summary>
internal sealed class Moves(SeasonProblem season, ScheduleReplay replay, Func<SeasonTotals, double> score, CancellationToken cancel)
{
    private const double LeastGain = 1e-9;
    private const int MostRounds = 40;

    private static readonly int[] DateSteps = [-1, 1, -2, 2, -4, 4];
    private static readonly int[] PercentSteps = [-2, -1, 1, 2];

    /// <summary>The schedule that no move betters.</summary>
    public Schedule Run(Schedule schedule)
    {
        (Schedule best, double cost) = (schedule, score(replay.Of(schedule)));
        for (int round = 0; round < MostRounds; round++)
        {
            cancel.ThrowIfCancellationRequested();
            (best, cost) = WithPercents(best, thorough: true);
            (Schedule Schedule, double Cost) moved = (best, cost);
            foreach (int[] dates in DatesNear(best.Dates))
            {
                (Schedule there, double own) = WithPercents(best with { Dates = dates }, thorough: false);
                moved = own < moved.Cost ? (there, own) : moved;
            }

            if (moved.Cost >= cost * (1 - LeastGain))
            {
                break;
            }

            (best, cost) = moved;
        }

        return best;
    }

    /// <summary>The schedule with a visit more that leaves all as it was, on the first date that the wishes allow; null where they allow
    /// none.</summary>
    public Schedule? WithOneMore(Schedule schedule)
    {
        foreach (int date in Enumerable.Range(0, season.Days.Count).Where(d => !schedule.Dates.Contains(d)))
        {
            int[] dates = [.. schedule.Dates.Append(date).Order()];
            int at = Array.IndexOf(dates, date), before = at == 0 ? schedule.Dates.Length - 1 : at - 1;
            if (DateChain.IsChain(season, dates) && season.Controllers.Select((_, c) => schedule.Percents[c][before])
                .All(p => season.Allows(date, p)))
            {
                return new Schedule(dates, [.. schedule.Percents.Select(p => p[..at].Append(p[before]).Concat(p[at..]).ToArray())]);
            }
        }

        return null;
    }

    /// <summary>The best percents found near those of a schedule, on its dates.</summary>
    private (Schedule Schedule, double Cost) WithPercents(Schedule schedule, bool thorough)
    {
        SeasonTotals[] each = [.. season.Controllers.Select((_, c) => replay.Of(c, schedule.Dates, [schedule.Percents[c]])[0])];
        double cost = score(Sum(each));
        for (int round = 0; round < MostRounds; round++)
        {
            bool better = false;
            for (int c = 0; c < each.Length; c++)
            {
                List<int[]> candidates = [.. PercentsNear(schedule, c, thorough)];
                SeasonTotals others = Sum(each.Where((_, o) => o != c));
                SeasonTotals[] totals = replay.Of(c, schedule.Dates, candidates);
                for (int i = 0; i < totals.Length; i++)
                {
                    double tried = score(others + totals[i]);
                    if (tried < cost * (1 - LeastGain))
                    {
                        (schedule, each[c], cost, better) = (schedule.With(c, candidates[i]), totals[i], tried, true);
                    }
                }
            }

            if (!better || !thorough)
            {
                break;
            }
        }

        return (schedule, cost);
    }

    private IEnumerable<int[]> PercentsNear(Schedule schedule, int controller, bool thorough)
    {
        int settings = season.Controllers[controller].Percents.Length;
        int[] percents = schedule.Percents[controller];
        bool May(int visit, int to) => to >= 0 && to < settings && to != percents[visit] && season.Allows(schedule.Dates[visit], to);
        for (int one = 0; one < percents.Length; one++)
        {
            foreach (int to in Enumerable.Range(0, settings).Where(p => May(one, p)))
            {
                int[] moved = [.. percents];
                moved[one] = to;
                yield return moved;
            }

            foreach (int step in PercentSteps.Where(s => thorough && May(one, percents[one] + s)))
            {
                for (int other = one + 1; other < percents.Length; other++)
                {
                    foreach (int otherStep in PercentSteps.Where(s => May(other, percents[other] + s)))
                    {
                        int[] both = [.. percents];
                        (both[one], both[other]) = (percents[one] + step, percents[other] + otherStep);
                        yield return both;
                    }
                }
            }
        }
    }

    private IEnumerable<int[]> DatesNear(int[] dates)
    {
        for (int visit = 0; visit < dates.Length; visit++)
        {
            foreach (int step in DateSteps.Where(s => dates[visit] + s >= 0 && dates[visit] + s < season.Days.Count))
            {
                int[] moved = [.. dates];
                moved[visit] += step;
                if (DateChain.IsChain(season, moved))
                {
                    yield return moved;
                }
            }
        }
    }

    private static SeasonTotals Sum(IEnumerable<SeasonTotals> totals) => totals.Aggregate(default(SeasonTotals), (a, b) => a + b);
}
