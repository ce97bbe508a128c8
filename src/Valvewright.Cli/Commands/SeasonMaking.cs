using NodaTime;
using Valvewright.Cli.Inputs;
using Valvewright.Cli.Output;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Problems;
using Valvewright.Planning;

namespace Valvewright.Cli.Commands;

/// <summary>A plan with the visits of its season.</summary>
/// <param name="Plan">The plan with its visits.</param>
/// <param name="Season">The season.</param>
internal sealed record SeasonMade(Plan Plan, SeasonPlan Season);

/// <summary>Plans the season of a site's plan on the years to plan with.</summary>
internal static class SeasonMaking
{
    /// <summary>The season for one number of visits.</summary>
    /// <exception cref="ProblemsException">The wishes cannot be met.</exception>
    public static SeasonMade Of(SiteInputs inputs, Plan plan, SeasonOptions options) =>
        With(inputs.Site, plan, Explained(() => SeasonPlanner.Of(inputs.Site, plan, inputs.Training, options, Controllers(inputs.Site, plan))));

    /// <summary>Programs and season together.</summary>
    /// <exception cref="ProblemsException">The wishes cannot be met.</exception>
    public static PlanAndSeasonResult WithPrograms(SiteInputs inputs, LocalDate from, SeasonOptions season, IProgress<PlanProgress> progress, CancellationToken cancel)
    {
        try
        {
            return PlanAndSeason.Of(inputs.Site, inputs.Training, new PlannerOptions { InForceFrom = from }, season, progress, cancel);
        }
        catch (ArgumentException reason)
        {
            throw Told(reason);
        }
    }

    /// <summary>The plan with a season's visits.</summary>
    public static SeasonMade With(Site site, Plan plan, SeasonPlan season) =>
        new(SeedbedVisits.Keep(site, season.ApplyTo(plan)), season);

    /// <summary>Seasons of 1 to 12 visits that set percents alone, or to as many as the wishes leave room for.</summary>
    /// <exception cref="ProblemsException">The wishes cannot be met for as many visits as are wanted.</exception>
    public static ListOf<SeasonPlan> UpToTwelve(SiteInputs inputs, Plan plan, SeasonOptions options, CancellationToken cancel)
    {
        string[] only = Controllers(inputs.Site, plan);
        int fewest = Math.Max(1, options.Agreed.Concat(options.Shutdown is { } winter ? [winter.Off, winter.On] : []).Distinct().Count());
        SeasonOptions alone = options with { ProgramChanges = false, AboveFull = false };
        for (int most = 12; ; most--)
        {
            try
            {
                int[] visits = [.. Enumerable.Range(fewest, most - fewest + 1)];
                return SeasonPlanner.Curve(inputs.Site, plan, inputs.Training, alone, visits, only, cancel);
            }
            catch (ArgumentException) when (most > options.Visits)
            {
                // So many visits do not fit the wishes; one fewer may.
            }
            catch (ArgumentException reason)
            {
                throw Told(reason);
            }
        }
    }

    /// <summary>Those that water a planting that lasts: seedbeds pass within weeks and have their own waterings.</summary>
    private static string[] Controllers(Site site, Plan plan)
    {
        string[] names = [.. SeasonControllers.Of(site, plan)];
        return names.Length > 0
            ? names
            : throw new ProblemsException(new Problem(site.Name, 0, 0, "no such controller", "a controller with a program and a planting that lasts", null, "there is nothing to plan a season for"));
    }

    private static SeasonPlan Explained(Func<SeasonPlan> plan)
    {
        try
        {
            return plan();
        }
        catch (ArgumentException reason)
        {
            throw Told(reason);
        }
    }

    private static ProblemsException Told(ArgumentException reason) => new(new Problem("season", 0, 0, "", "", null, Reason.Of(reason).TrimEnd('.')));
}
