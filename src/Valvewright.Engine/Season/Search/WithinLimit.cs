namespace Valvewright.Engine.Season.Search;

/// <summary>
/// Moves of dates and percents towards the least water within a limit of stress, or the least stress within a limit of water. An exchange rate alone finds only seasons on the convex edge of
/// stress and water; between two of these lie others that come nearer to the limit.
/// </summary>
internal static class WithinLimit
{
    private const double LeastGain = 1e-9;
    private const int MostRounds = 40;

    /// <summary>What lies beyond the limit weighs more than all else.</summary>
    private const double BeyondMm = 1e5;

    /// <summary>Where the water is given, a stress day weighs more than any water within it.</summary>
    private const double StressFirstMm = 1e4;

    /// <summary>The schedule that no move of a date, together with one or two percents of a controller, betters.</summary>
    public static Schedule Run(SeasonCase season, Schedule schedule, CancellationToken cancel)
    {
        Schedule best = schedule;
        double score = Score(season, Totals(season, best));
        for (int round = 0; round < MostRounds; round++)
        {
            cancel.ThrowIfCancellationRequested();
            (Schedule Schedule, double Score)? moved = null;
            foreach (int[] dates in SeasonPolish.DateMoves(season, best.Dates).Prepend(best.Dates))
            {
                Schedule there = best with { Dates = dates };
                (double Water, double Stress)[] each = [.. season.Controllers.Select((_, c) => Totals(season, there, c, [there.Percents[c]])[0])];
                for (int controller = 0; controller < each.Length; controller++)
                {
                    List<int[]> candidates = [there.Percents[controller], .. Moves(season, there, controller)];
                    (double Water, double Stress)[] totals = Totals(season, there, controller, candidates);
                    double otherWater = each.Where((_, c) => c != controller).Sum(e => e.Water), otherStress = each.Where((_, c) => c != controller).Sum(e => e.Stress);
                    for (int candidate = 0; candidate < candidates.Count; candidate++)
                    {
                        double tried = Score(season, (otherWater + totals[candidate].Water, otherStress + totals[candidate].Stress));
                        if (tried < (moved?.Score ?? score * (1 - LeastGain)))
                        {
                            int[] percents = candidates[candidate];
                            moved = (there with { Percents = [.. there.Percents.Select((p, c) => c == controller ? percents : p)] }, tried);
                        }
                    }
                }
            }

            if (moved is null)
            {
                break;
            }

            (best, score) = moved.Value;
        }

        return best;
    }

    /// <summary>Water, L, and stress days x m2, of a mean year.</summary>
    public static (double Water, double Stress) Totals(SeasonCase season, Schedule schedule)
    {
        double water = 0, stress = 0;
        for (int controller = 0; controller < season.Controllers.Length; controller++)
        {
            (double ownWater, double ownStress) = Totals(season, schedule, controller, [schedule.Percents[controller]])[0];
            (water, stress) = (water + ownWater, stress + ownStress);
        }

        return (water, stress);
    }

    /// <summary>What is made least, with what lies beyond the limit before all else.</summary>
    public static double Score(SeasonCase season, (double Water, double Stress) totals) => season.Options.MostWaterM3 is { } most
        ? (totals.Stress * StressFirstMm) + totals.Water + (BeyondMm * Math.Max(0, totals.Water - (1000 * most)))
        : totals.Water + (BeyondMm * Math.Max(0, totals.Stress - (season.Options.MostStressDays!.Value * season.AreaM2)));

    private static (double Water, double Stress)[] Totals(SeasonCase season, Schedule schedule, int controller, List<int[]> sequences)
    {
        ControllerCase own = season.Controllers[controller];
        (double[] Water, double[] Stress)[] parts = new (double[], double[])[own.Zones.Length * season.YearCount];
        Parallel.For(0, parts.Length, new ParallelOptions { MaxDegreeOfParallelism = Math.Max(1, season.Options.Threads) }, part =>
        {
            ZoneCase zone = own.Zones[part / season.YearCount];
            parts[part] = SeasonReplay.OfZoneYear(season, zone, part % season.YearCount, schedule.Dates, sequences, schedule.VariantsOf(controller, zone.Program));
        });
        (double Water, double Stress)[] sum = new (double, double)[sequences.Count];
        for (int part = 0; part < parts.Length; part++)
        {
            double share = own.Zones[part / season.YearCount].Zone.AreaM2 / season.YearCount;
            for (int candidate = 0; candidate < sum.Length; candidate++)
            {
                sum[candidate] = (sum[candidate].Water + (share * parts[part].Water[candidate]), sum[candidate].Stress + (share * parts[part].Stress[candidate]));
            }
        }

        return sum;
    }

    /// <summary>One visit's percent by up to two steps, or two visits' by one or two each.</summary>
    private static IEnumerable<int[]> Moves(SeasonCase season, Schedule schedule, int controller)
    {
        int settings = season.Controllers[controller].Percents.Length;
        int[] percents = schedule.Percents[controller], steps = [-2, -1, 1, 2];
        bool May(int visit, int to) => to >= 0 && to < settings && season.Allows(schedule.Dates[visit], to);
        for (int one = 0; one < percents.Length; one++)
        {
            foreach (int step in steps.Where(s => May(one, percents[one] + s)))
            {
                int[] moved = [.. percents];
                moved[one] += step;
                yield return moved;
                for (int other = one + 1; other < percents.Length; other++)
                {
                    foreach (int otherStep in steps.Where(s => May(other, percents[other] + s)))
                    {
                        int[] both = [.. moved];
                        both[other] += otherStep;
                        yield return both;
                    }
                }
            }
        }
    }
}
