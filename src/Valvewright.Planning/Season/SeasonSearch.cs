using Valvewright.Engine.Balance;
using Valvewright.Engine.Season;
using Valvewright.Engine.Values;

namespace Valvewright.Planning.Season;

/// <summary>The search for one season.</summary>
internal sealed class SeasonSearch(SeasonProblem season, CancellationToken cancel)
{
    private const int Rounds = 4;
    private const int LimitSteps = 8;
    private const int FewVisits = 2;

    /// <summary>A season further above its bound than this part is looked for again.</summary>
    private const double WideGap = 0.1;
    private const double SmallestFactor = 0.1;
    private const double LargestFactor = 50;

    /// <summary>What lies beyond a limit weighs more than all else.</summary>
    private const double BeyondWeight = 1e4;

    private readonly ScheduleReplay replay = new(season);
    private StretchCosts[]? wettest;
    private Schedule? fewer;

    /// <summary>What was found last.</summary>
    public Schedule? Found { get; private set; }

    /// <summary>The best season found for the goal of the options.</summary>
    /// <param name="fewer">A schedule of one visit fewer, which this one must at least equal; null where there is none.</param>
    public SeasonPlan Run(Schedule? fewer = null)
    {
        this.fewer = fewer;
        (Schedule schedule, double bound, double factor) = season.Options.Goal switch
        {
            Goal.UnmetWithin limit => WithinLimit(t => t.Unmet <= limit.Share * season.DemandLitres, limitsWater: false,
                t => t.Water + (BeyondWeight * Math.Max(0, t.Unmet - (limit.Share * season.DemandLitres)))),
            Goal.WaterWithin limit => WithinLimit(t => t.Water <= 1000 * limit.CubicMeters, limitsWater: true,
                t => t.Weighed + (BeyondWeight * Math.Max(0, t.Water - (1000 * limit.CubicMeters)))),
            _ => Weighed(1),
        };
        Found = schedule;
        return Described(schedule, bound, factor);
    }

    /// <summary>A limit of one's own stands in for the goals of the zones.</summary>
    private double Cost(SeasonTotals totals, double factor) =>
        totals.Water + (factor * totals.Weighed)
        + (season.Options.Goal is Goal.Weigh or null ? SeasonTotals.ShortWeight * totals.Short : 0);

    /// <summary>Least water and unmet use, each zone's times a factor.</summary>
    private (Schedule Schedule, double Bound, double Factor) Weighed(double factor)
    {
        int visits = season.Options.Visits;
        (Schedule chained, double bound) = Chained(visits, factor)
            ?? throw new UnmetWishException(
                $"No {visits} dates satisfy the wishes: they lie too close together, or an agreed date is skipped.");
        Moves moves = new(season, replay, t => Cost(t, factor), cancel);
        Schedule best = moves.Run(chained);
        if (fewer is not null)
        {
            best = BetterOf(best, WithOneMore(moves, fewer), factor);
        }
        else if (visits > FewVisits && Cost(replay.Of(best), factor) > bound * (1 + WideGap))
        {
            // Moves end at the nearest valley. Where that is far from the bound, begin again from fewer visits, which have fewer valleys.
            Schedule? more = Chained(FewVisits, factor)?.Schedule is { } few ? moves.Run(few) : null;
            while (more is not null && more.Dates.Length < visits)
            {
                more = WithOneMore(moves, more);
            }

            best = BetterOf(best, more, factor);
        }

        return (best, bound, factor);
    }

    private static Schedule? WithOneMore(Moves moves, Schedule fewer) => moves.WithOneMore(fewer) is { } more ? moves.Run(more) : null;

    private Schedule BetterOf(Schedule best, Schedule? other, double factor) =>
        other is not null && Cost(replay.Of(other), factor) < Cost(replay.Of(best), factor) ? other : best;

    /// <summary>The best schedule by costs that add up stretch by stretch, and what no schedule costs less than; null where no dates
    /// satisfy the wishes.</summary>
    private (Schedule Schedule, double Bound)? Chained(int visits, double factor)
    {
        wettest ??= Tables(null);
        if (DateChain.Best(season, wettest, visits, factor) is not (var best, var bound))
        {
            return null;
        }

        double cost = Cost(replay.Of(best), factor);
        Schedule from = best;
        for (int round = 0; round < Rounds; round++)
        {
            cancel.ThrowIfCancellationRequested();
            Schedule next = DateChain.Best(season, Tables(from), visits, factor)!.Value.Schedule;
            double nextCost = Cost(replay.Of(next), factor);
            if (nextCost >= cost && round > 0)
            {
                break;
            }

            (best, cost) = nextCost < cost ? (next, nextCost) : (best, cost);
            from = next;
        }

        return (best, bound);
    }

    /// <summary>The factor at which the season comes nearest to a limit, by halving its span; then moves to the best season within the
    /// limit.</summary>
    private (Schedule Schedule, double Bound, double Factor) WithinLimit(
        Func<SeasonTotals, bool> isWithin, bool limitsWater, Func<SeasonTotals, double> score)
    {
        double inside = Math.Log(limitsWater ? SmallestFactor : LargestFactor),
            outside = Math.Log(limitsWater ? LargestFactor : SmallestFactor);
        (Schedule Schedule, double Bound, double Factor) within = Weighed(Math.Exp(inside));
        for (int step = 0; step < LimitSteps && isWithin(replay.Of(within.Schedule)); step++)
        {
            double middle = (inside + outside) / 2;
            (Schedule Schedule, double Bound, double Factor) tried = Weighed(Math.Exp(middle));
            if (isWithin(replay.Of(tried.Schedule)))
            {
                (within, inside) = (tried, middle);
            }
            else
            {
                outside = middle;
            }
        }

        return within with { Schedule = new Moves(season, replay, score, cancel).Run(within.Schedule) };
    }

    private StretchCosts[] Tables(Schedule? under) => [.. season.Controllers.Select((_, c) => StretchCosts.Of(season, c, under))];

    private SeasonPlan Described(Schedule schedule, double bound, double factor)
    {
        SeasonTotals totals = replay.Of(schedule);
        double least = season.Controllers
            .Sum(c => c.Zones.Sum(z => z.Zone.AreaM2 * z.Years.Average(y => MinimumWater.Of(z.Zone, y).GrossMm)));
        double demand = season.DemandLitres;
        return new SeasonPlan
        {
            Dates = schedule.Dates.Select(season.Days.DateOf).ToListOf(),
            Controllers = season.PercentsOf(schedule),
            CostLitres = totals.Water + (factor * totals.Weighed),
            BoundLitres = season.Options.Goal is Goal.Weigh or null ? bound : null,
            WaterM3 = totals.Water / 1000,
            MinimumM3 = least / 1000,
            UseMet = demand > 0 ? 1 - (totals.Unmet / demand) : 1,
            ShortLitres = totals.Short,
            Options = season.Options,
        };
    }
}
