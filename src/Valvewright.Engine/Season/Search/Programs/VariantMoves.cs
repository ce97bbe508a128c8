namespace Valvewright.Engine.Season.Search.Programs;

/// <summary>Other variants of a program over some visits on end, together with the percents that go with them, judged on the full balance, until none helps.</summary>
internal static class VariantMoves
{
    private const double LeastGain = 1e-9;
    private const int MostRounds = 30;

    /// <summary>Percents tried about the one that a variant asks for, in steps.</summary>
    private const int Around = 2;

    /// <summary>The best variants and percents for the schedule's dates.</summary>
    public static Schedule Run(SeasonCase season, Schedule schedule)
    {
        Schedule best = SeasonPolish.Percents(season, schedule);
        int[] changing = [.. Enumerable.Range(0, season.Controllers.Length).Where(c => season.Controllers[c].HasVariants)];
        if (season.Options.Aim != SeasonAim.MeanYear)
        {
            return Run(season, best, changing);
        }

        // In the mean year costs add up, so that controllers do not depend on each other.
        Schedule[] each = new Schedule[changing.Length];
        Parallel.For(0, each.Length, new ParallelOptions { MaxDegreeOfParallelism = Math.Max(1, season.Options.Threads) }, i => each[i] = Run(season, best, [changing[i]]));
        return best with
        {
            Percents = [.. best.Percents.Select((p, c) => Array.IndexOf(changing, c) is >= 0 and var at ? each[at].Percents[c] : p)],
            Variants = [.. best.Variants!.Select((v, c) => Array.IndexOf(changing, c) is >= 0 and var at ? each[at].Variants![c] : v)],
        };
    }

    /// <summary>Moves of some controllers, always the best of all, until none helps.</summary>
    private static Schedule Run(SeasonCase season, Schedule schedule, int[] controllers)
    {
        Schedule best = schedule;
        double cost = Cost(season, best, controllers);
        for (int round = 0; round < MostRounds; round++)
        {
            (Schedule Schedule, double Cost)? moved = null;
            foreach (int controller in controllers)
            {
                if (BestMove(season, best, controller, controllers, cost) is { } found && found.Cost < (moved?.Cost ?? cost * (1 - LeastGain)))
                {
                    moved = found;
                }
            }

            if (moved is null)
            {
                return best;
            }

            best = SeasonPolish.Percents(season, moved.Value.Schedule, controllers);
            cost = Cost(season, best, controllers);
        }

        return best;
    }

    /// <summary>What is compared: of one controller in the mean year, else of the whole site.</summary>
    private static double Cost(SeasonCase season, Schedule schedule, int[] controllers) => season.Options.Aim == SeasonAim.MeanYear
        ? SeasonReplay.Cost(season, schedule, controllers)
        : SeasonReplay.Cost(season, schedule);

    private static (Schedule Schedule, double Cost)? BestMove(SeasonCase season, Schedule schedule, int controller, int[] controllers, double cost)
    {
        ControllerCase own = season.Controllers[controller];
        bool mean = season.Options.Aim == SeasonAim.MeanYear;
        double[] others = mean ? new double[season.YearCount] : OthersByYear(season, schedule, controller);
        (Schedule Schedule, double Cost)? best = null;
        for (int program = 0; program < own.Programs.Length; program++)
        {
            foreach (int[] variants in Moves(schedule.Variants![controller][program], own.Programs[program].Variants.Length))
            {
                int[][] all = [.. schedule.Variants[controller].Select((v, p) => p == program ? variants : v)];
                Schedule moved = schedule with { Variants = [.. schedule.Variants.Select((v, c) => c == controller ? all : v)] };
                double keys = mean ? season.KeysCost(moved, controllers) : season.KeysCost(moved);
                if (keys >= cost)
                {
                    continue;
                }

                List<int[]> percents = [.. PercentsFor(season, schedule, controller, variants, program)];
                double[,] costs = SeasonReplay.Costs(season, controller, schedule.Dates, percents, all);
                for (int candidate = 0; candidate < percents.Count; candidate++)
                {
                    int at = candidate;
                    double total = keys + SeasonReplay.Aimed(season, y => costs[at, y] + others[y]);
                    if (total < (best?.Cost ?? cost * (1 - LeastGain)))
                    {
                        best = (moved with { Percents = [.. moved.Percents.Select((p, c) => c == controller ? percents[at] : p)] }, total);
                    }
                }
            }
        }

        return best;
    }

    private static double[] OthersByYear(SeasonCase season, Schedule schedule, int controller)
    {
        double[] sum = new double[season.YearCount];
        for (int other = 0; other < season.Controllers.Length; other++)
        {
            if (other != controller)
            {
                double[,] costs = SeasonReplay.Costs(season, other, schedule.Dates, [schedule.Percents[other]], schedule.Variants?[other]);
                for (int year = 0; year < sum.Length; year++)
                {
                    sum[year] += costs[0, year];
                }
            }
        }

        return sum;
    }

    /// <summary>Every other variant over every run of visits on end, over the new year too.</summary>
    private static IEnumerable<int[]> Moves(int[] variants, int count)
    {
        int visits = variants.Length;
        for (int first = 0; first < visits; first++)
        {
            for (int length = 1; length < visits || (length == visits && first == 0); length++)
            {
                for (int to = 0; to < count; to++)
                {
                    int[] moved = [.. variants];
                    for (int i = 0; i < length; i++)
                    {
                        moved[(first + i) % visits] = to;
                    }

                    if (!moved.AsSpan().SequenceEqual(variants))
                    {
                        yield return moved;
                    }
                }
            }
        }
    }

    /// <summary>The percents as they are and about them; and, over the visits that change, scaled by how many more or fewer waterings the variant has.</summary>
    private static IEnumerable<int[]> PercentsFor(SeasonCase season, Schedule schedule, int controller, int[] variants, int program)
    {
        ControllerCase own = season.Controllers[controller];
        int[] percents = schedule.Percents[controller], was = schedule.Variants![controller][program];
        ZoneCase? zone = Array.Find(own.Zones, z => z.Program == program);
        int Scaled(int visit)
        {
            double before = zone is null ? 0 : zone.WaterDays(0, 0, season.YearDays[0], was[visit]), after = zone is null ? 0 : zone.WaterDays(0, 0, season.YearDays[0], variants[visit]);
            double wanted = before <= 0 || after <= 0 ? own.Percents[percents[visit]] : own.Percents[percents[visit]] * before / after;
            return Enumerable.Range(0, own.Percents.Length).MinBy(p => Math.Abs(own.Percents[p] - wanted));
        }

        foreach (bool scaled in (bool[])[false, true])
        {
            for (int step = -Around; step <= Around; step++)
            {
                int[] tried =
                [
                    .. percents.Select((p, v) => was[v] == variants[v] || !season.Allows(schedule.Dates[v], 1)
                        ? p
                        : Math.Clamp((scaled ? Scaled(v) : p) + step, 0, own.Percents.Length - 1)),
                ];
                yield return tried;
            }
        }
    }
}
