using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Season;

namespace Valvewright.Planning;

/// <summary>Programs and season together.</summary>
/// <remarks>
/// A first draft of the programs is chosen as if every zone could have a percent of its own every month. A season finds the percents that a
/// controller's zones share at the visits there are. Programs are then chosen for these percents, with dates and start times; season and
/// run times are set in turn until nothing gets better.
/// </remarks>
public static class PlanAndSeason
{
    private const int MostRounds = 4;

    /// <summary>A round that gains less than this part of the cost is the last.</summary>
    private const double LeastGain = 0.01;

    /// <summary>Shares of the work done after each part, roughly.</summary>
    private const double Drafted = 0.3, ForPercents = 0.4, Timed = 0.7, TimedAgain = 0.85;

    /// <summary>Plans both.</summary>
    /// <param name="site">The survey.</param>
    /// <param name="training">Whole years of climate to plan with.</param>
    /// <param name="options">The planner's measures.</param>
    /// <param name="season">Visits, goal and wishes.</param>
    /// <param name="progress">Receives what is being done.</param>
    /// <param name="cancel">Stops the search.</param>
    /// <exception cref="UnmetWishException">The season's wishes cannot be met.</exception>
    /// <exception cref="ArgumentException">The years are not whole.</exception>
    public static PlanAndSeasonResult Of(
        Site site, ListOf<Climate> training, PlannerOptions options, SeasonOptions season, IProgress<PlanProgress>? progress = null,
            CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(season);
        YearsOfZones known = new(training);
        PlanResult result = Planner.Plan(site, training, known, options with { PercentOn = null, WithoutHours = true },
            new PartOfProgress(progress, 0, Drafted), cancel);
        if (result.Plan is not { } draft || SeasonControllers.Of(site, draft) is not { Count: > 0 } only)
        {
            return new PlanAndSeasonResult(
                Planner.Plan(site, training, known, options, new PartOfProgress(progress, Drafted, 1), cancel), null, []);
        }

        progress?.Report(new PlanProgress("", "Visits and percents", Drafted));
        SeasonPlan drafted = SeasonPlanner.Of(site, draft, training, season, only, known, cancel);
        result = Planner.Plan(site, training, known, options with { PercentOn = PercentsOf(drafted.ApplyTo(draft), only) },
            new PartOfProgress(progress, ForPercents, Timed), cancel);
        if (result.Plan is not { } plan)
        {
            result = Planner.Plan(site, training, known, options, new PartOfProgress(progress, Timed, TimedAgain), cancel);
        }

        if (result.Plan is not { } first)
        {
            return new PlanAndSeasonResult(result, null, []);
        }

        plan = first;
        progress?.Report(new PlanProgress("", "Visits and percents", TimedAgain));
        SeasonPlan best = SeasonPlanner.Of(site, plan, training, season, only, known, cancel);
        List<SeasonRound> rounds = [new SeasonRound(plan, best, true)];
        SeasonPlan before;
        do
        {
            before = best;
            Plan tuned = RunTimeTuning.Of(site, plan, training, best, only, known);
            SeasonPlan found = SeasonPlanner.Of(site, tuned, training, season, only, known, cancel);
            rounds.Add(new SeasonRound(tuned, found, found.IsBetterThan(best)));
            (plan, best) = rounds[^1].IsBetter ? (tuned, found) : (plan, best);
        }
        while (rounds.Count <= MostRounds && Costs(best) < Costs(before) * (1 - LeastGain));

        return new PlanAndSeasonResult(result with { Plan = plan }, best, rounds.ToListOf());
    }

    private static double Costs(SeasonPlan season) => season.CostLitres + (SeasonTotals.ShortWeight * season.ShortLitres);

    /// <summary>The percent of a controller on a date; null for one that the season leaves out, or leaves off all year.</summary>
    private static Func<string, LocalDate, double?> PercentsOf(Plan plan, ListOf<string> only)
    {
        Dictionary<string, Visit[]> visits = plan.Controllers
            .Where(c => only.Contains(c.Controller) && c.Visits.Any(v => v.Percent > 0))
            .ToDictionary(c => c.Controller, c => c.Visits.ToArray());
        return (controller, date) =>
        {
            if (!visits.TryGetValue(controller, out Visit[]? own))
            {
                return null;
            }

            AnnualDate day = new(date.Month, date.Day);
            int visit = Array.FindLastIndex(own, v => v.Date <= day);
            return own[visit < 0 ? own.Length - 1 : visit].Percent;
        };
    }
}

/// <summary>Programs and the season that was found with them.</summary>
/// <param name="Plan">What planning gave, with the run times of the round that is kept.</param>
/// <param name="Season">Its season; null where there is no plan, or nothing that a season serves.</param>
/// <param name="Rounds">Every round: programs, and their season.</param>
public sealed record PlanAndSeasonResult(PlanResult Plan, SeasonPlan? Season, ListOf<SeasonRound> Rounds);

/// <summary>One round.</summary>
/// <param name="Plan">The programs, not yet with the season's visits.</param>
/// <param name="Season">Their season.</param>
/// <param name="IsBetter">Whether it is the best so far.</param>
public sealed record SeasonRound(Plan Plan, SeasonPlan Season, bool IsBetter);
