using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning;

/// <summary>Programs and season together: each is chosen for what the other does, until neither gets better.</summary>
/// <remarks>
/// The first programs are chosen as for one percent all season. Under a season's percents other water days or run times may be
/// cheaper: the planner prices its choices again under these percents, the season is planned anew for the programs it finds, and so on. What is
/// kept is the round whose season costs least over the years that both were made with; docs/season.md has the reasoning.
/// </remarks>
public static class PlanAndSeason
{
    private const int MostRounds = 4;

    /// <summary>
    /// After each round the planner is asked to tolerate less stress by this factor: it tolerates some days of it at any amount of water less, a season
    /// weighs each. Run times for somewhat more than the peak leave the percents to say how much of it is set.
    /// </summary>
    private const double Tightening = 3;

    /// <summary>Plans both.</summary>
    /// <param name="site">The survey.</param>
    /// <param name="training">Whole years of climate to plan with.</param>
    /// <param name="options">The planner's measures; its percents are set here.</param>
    /// <param name="season">Visits, exchange rate, aim and wishes.</param>
    /// <param name="progress">Told what is being done.</param>
    /// <param name="cancel">Stops the search.</param>
    /// <exception cref="ArgumentException">The season's wishes cannot be met, or the years are not whole.</exception>
    public static PlanAndSeasonResult Of(
        Site site, ListOf<Climate> training, PlannerOptions options, SeasonOptions season, IProgress<PlanProgress>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(season);
        PlanResult result = Planner.Plan(site, training, options with { ShareOn = null }, progress, cancel);
        if (result.Plan is not { } first || SeasonControllers.Of(site, first) is not { Count: > 0 } only)
        {
            return new PlanAndSeasonResult(result, null, []);
        }

        SeasonOptions quick = season with { NearBound = false, ProgramChanges = false, AboveFull = false };
        SeasonPlan best = SeasonPlanner.Of(site, first, training, quick, only);
        List<SeasonRound> rounds = [new SeasonRound(first, best, options.StressToleratedDaysPerYear, true)];
        double tolerated = options.StressToleratedDaysPerYear;
        for (int round = 1; round <= MostRounds; round++)
        {
            cancel.ThrowIfCancellationRequested();
            PlannerOptions asked = options with { StressToleratedDaysPerYear = tolerated, ShareOn = Shares(best.ApplyTo(result.Plan!), only) };
            PlanResult next = Planner.Plan(site, training, asked, progress, cancel);
            if (next.Plan is { } programs && !rounds.Any(r => HoldsTheSame(r.Plan, programs)) && SeasonControllers.Of(site, programs).SequenceEqual(only))
            {
                SeasonPlan found = SeasonPlanner.Of(site, programs, training, quick, only);
                rounds.Add(new SeasonRound(programs, found, tolerated, found.IsBetterThan(best)));
                (result, best) = rounds[^1].IsBetter ? (next, found) : (result, best);
            }

            if (round > 1 && !(rounds.Count > round && rounds[^1].IsBetter))
            {
                break;
            }

            tolerated /= Tightening;
        }

        // The nearer bound and further freedoms take their time: they are worked out for what is kept.
        return new PlanAndSeasonResult(result, season == quick ? best : SeasonPlanner.Of(site, result.Plan!, training, season, only), rounds.ToListOf());
    }

    /// <summary>The part of its run times that a controller waters with on a date; null for one that the season leaves out.</summary>
    internal static Func<string, LocalDate, double?> Shares(Plan plan, ListOf<string> only)
    {
        Dictionary<string, Visit[]> visits = plan.Controllers
            .Where(c => only.Contains(c.Controller) && c.Visits.Count > 0)
            .ToDictionary(c => c.Controller, c => c.Visits.ToArray());
        return (controller, date) =>
        {
            if (!visits.TryGetValue(controller, out Visit[]? own))
            {
                return null;
            }

            AnnualDate day = new(date.Month, date.Day);
            int visit = Array.FindLastIndex(own, v => v.Date <= day);
            return own[visit < 0 ? own.Length - 1 : visit].Percent / 100.0;
        };
    }

    private static bool HoldsTheSame(Plan one, Plan other) => one.Controllers.Select(c => c.Settings).SequenceEqual(other.Controllers.Select(c => c.Settings));
}

/// <summary>Programs and the season that was found with them.</summary>
/// <param name="Plan">What planning came to in the round that is kept.</param>
/// <param name="Season">Its season; null where there is no plan, or nothing that a season serves.</param>
/// <param name="Rounds">Every round: programs, and their season.</param>
public sealed record PlanAndSeasonResult(PlanResult Plan, SeasonPlan? Season, ListOf<SeasonRound> Rounds);

/// <summary>One round.</summary>
/// <param name="Plan">The programs, not yet with the season's visits.</param>
/// <param name="Season">Their season.</param>
/// <param name="StressToleratedDays">What the planner was told to tolerate, stress days a year.</param>
/// <param name="IsBetter">Whether it is the best so far.</param>
public sealed record SeasonRound(Plan Plan, SeasonPlan Season, double StressToleratedDays, bool IsBetter);
