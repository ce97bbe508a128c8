namespace Valvewright.Engine.Season.Search.Programs;

/// <summary>Which programs to change at which visit: variants join the percents in the dynamic programming, and what keying costs is weighed.</summary>
internal static class ProgramSearch
{
    private const int MostTurns = 8;
    private const int MostRounds = 3;

    /// <summary>A schedule that changes programs where it pays; the one of percents alone where it never does.</summary>
    /// <param name="season">The problem.</param>
    /// <param name="weights">How much each year counts in the additive steps.</param>
    /// <param name="percentsAlone">The best schedule that sets the percent alone.</param>
    /// <param name="visits">Visits a year.</param>
    /// <param name="seeds">Other schedules of as many visits to begin from.</param>
    /// <param name="cancel">Stops the search.</param>
    public static Schedule Run(SeasonCase season, double[] weights, Schedule percentsAlone, int visits, IEnumerable<Schedule> seeds, CancellationToken cancel)
    {
        Schedule best = percentsAlone;
        Schedule[] more = [WithVariants(season, percentsAlone), .. seeds];
        for (int round = 0; round < (season.IsSmall ? MostRounds : 1); round++)
        {
            Schedule begun = best;
            SegmentCosts[] tables = Tables(season, weights, begun);
            int[] freeDates = DateChain.Best(season, tables, visits)!.Value.Schedule.Dates;
            foreach (Schedule start in (Schedule[])[Chosen(season, tables, begun.Dates), Chosen(season, tables, freeDates), .. more])
            {
                cancel.ThrowIfCancellationRequested();
                best = Better(season, best, SeasonPolish.Run(season, weights, start, cancel));
            }

            if (ReferenceEquals(best, begun))
            {
                break;
            }

            more = [];
        }

        return Simplest(best);
    }

    /// <summary>The same from a schedule that was found for fewer percents.</summary>
    public static Schedule GoOn(SeasonCase season, double[] weights, Schedule percentsAlone, Schedule found, CancellationToken cancel)
    {
        Schedule best = percentsAlone;
        foreach (Schedule start in (Schedule[])[Kept(season, found), WithVariants(season, percentsAlone)])
        {
            best = Better(season, best, SeasonPolish.Run(season, weights, start, cancel));
        }

        return Simplest(best);
    }

    private static Schedule Better(SeasonCase season, Schedule one, Schedule other) => SeasonReplay.Cost(season, other) < SeasonReplay.Cost(season, one) ? other : one;

    private static Schedule Simplest(Schedule schedule) =>
        schedule.Variants is { } variants && variants.All(c => c.All(p => p.All(v => v == 0))) ? schedule with { Variants = null } : schedule;

    /// <summary>The schedule with variants, but for controllers whose programs must stay as they are.</summary>
    private static Schedule Kept(SeasonCase season, Schedule schedule)
    {
        Schedule all = WithVariants(season, schedule);
        return all with { Variants = [.. all.Variants!.Select((c, i) => season.Controllers[i].HasVariants ? c : [.. c.Select(p => new int[p.Length])])] };
    }

    /// <summary>Additive costs under a schedule, with every variant of the programs that visits may change.</summary>
    public static SegmentCosts[] Tables(SeasonCase season, double[] weights, Schedule under) =>
        SeasonPlanner.Tables(season, c => SegmentCosts.Under(season, c, weights, under, season.Controllers[c].HasVariants));

    /// <summary>The same schedule, its programs as they are at every visit.</summary>
    public static Schedule WithVariants(SeasonCase season, Schedule schedule) =>
        schedule.Variants is null ? schedule with { Variants = [.. season.Controllers.Select(c => c.Programs.Select(_ => new int[schedule.Dates.Length]).ToArray())] } : schedule;

    /// <summary>Percents and variants for given dates by the additive costs and what keying costs: one is found for the other, in turn.</summary>
    public static Schedule Chosen(SeasonCase season, SegmentCosts[] tables, int[] dates)
    {
        Schedule chosen = WithVariants(season, DateChain.WithPercents(season, tables, dates));
        for (int c = 0; c < tables.Length; c++)
        {
            for (int turn = 0; turn < MostTurns && season.Controllers[c].HasVariants; turn++)
            {
                int[] percents = chosen.Percents[c];
                for (int program = 0; program < season.Controllers[c].Programs.Length; program++)
                {
                    int at = program;
                    chosen.Variants![c][program] = Cheapest(season, season.Controllers[c].Programs[program], dates.Length, (visit, variant) => tables[c].Of(at, dates, visit, variant, percents[visit]));
                }

                int[] next = [.. percents.Select((_, v) => Enumerable.Range(0, tables[c].Percents).Where(p => season.Allows(dates[v], p))
                    .MinBy(p => Enumerable.Range(0, tables[c].Programs).Sum(g => tables[c].Of(g, dates, v, chosen.Variants![c][g][v], p))))];
                if (next.AsSpan().SequenceEqual(percents))
                {
                    break;
                }

                chosen.Percents[c] = next;
            }
        }

        return chosen;
    }

    /// <summary>The variants of a program by visit that cost least with their keys: dynamic programming around the year, for every first one.</summary>
    private static int[] Cheapest(SeasonCase season, ProgramCase program, int visits, Func<int, int, double> cost)
    {
        int count = program.Variants.Length;
        double key = season.Options.SettingWorthLitres;
        (double Cost, int[] Variants) best = (double.PositiveInfinity, []);
        for (int first = 0; first < count; first++)
        {
            double[] least = [.. Enumerable.Range(0, count).Select(v => v == first ? cost(0, v) : double.PositiveInfinity)];
            int[][] from = new int[visits][];
            for (int visit = 1; visit < visits; visit++)
            {
                double[] before = least;
                from[visit] = [.. Enumerable.Range(0, count).Select(to => Enumerable.Range(0, count).MinBy(v => before[v] + (key * program.Keys[v, to])))];
                least = [.. Enumerable.Range(0, count).Select(to => before[from[visit][to]] + (key * program.Keys[from[visit][to], to]) + cost(visit, to))];
            }

            int last = Enumerable.Range(0, count).MinBy(v => least[v] + (key * program.Keys[v, first]));
            double total = least[last] + (key * program.Keys[last, first]);
            if (total < best.Cost)
            {
                int[] variants = new int[visits];
                variants[^1] = last;
                for (int visit = visits - 1; visit > 0; visit--)
                {
                    variants[visit - 1] = from[visit][variants[visit]];
                }

                best = (total, variants);
            }
        }

        return best.Variants;
    }
}
