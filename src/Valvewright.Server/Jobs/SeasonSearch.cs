using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;
using Valvewright.Server.Problems;

namespace Valvewright.Server.Jobs;

/// <summary>Seasons of more and more visits, and how the one that is wanted is proven.</summary>
internal static class SeasonSearch
{
    private const int MostVisits = 12;
    private const int FewestDaysOfYear = 365;

    /// <summary>A season comes round every year: it is chosen on whole ones. A shorter record serves for programs alone.</summary>
    /// <exception cref="Refusal">There are none.</exception>
    public static void RequireWholeYears(ListOf<Climate> training)
    {
        if (training.Any(y => y.Days < FewestDaysOfYear))
        {
            throw new Refusal(StatusCodes.Status422UnprocessableEntity, "weather-too-short", "Visits are chosen on whole years of weather, and the record holds none. Without visits a plan can be made.");
        }
    }

    /// <summary>Seasons of 1 to 12 visits that set percents alone, or to as many as the wishes leave room for.</summary>
    /// <exception cref="Refusal">There is nothing to plan for, or the wishes cannot be met for as many visits as are wanted.</exception>
    public static ListOf<SeasonPlan> UpToTwelve(Site site, Plan plan, ListOf<Climate> training, SeasonOptions options, CancellationToken cancel)
    {
        ListOf<string> only = Controllers(site, plan);
        SeasonOptions alone = options with { ProgramChanges = false, AboveFull = false };
        int fixedVisits = options.Agreed.Concat(options.Shutdown is { } winter ? [winter.Off, winter.On] : []).Distinct().Count();
        int fewest = Math.Clamp(fixedVisits, 1, options.Visits);
        for (int most = MostVisits; most > options.Visits; most--)
        {
            try
            {
                return Seasons(most);
            }
            catch (ArgumentException)
            {
                // So many visits do not fit the wishes; one fewer may.
            }
        }

        return Told(() => Seasons(options.Visits));

        ListOf<SeasonPlan> Seasons(int most) => SeasonPlanner.Curve(site, plan, training, alone, [.. Enumerable.Range(fewest, most - fewest + 1)], only, cancel);
    }

    /// <summary>The season that is wanted: one of percents alone, or, where visits may do more, one that may.</summary>
    /// <param name="alone">Seasons of percents alone.</param>
    public static SeasonPlan Wanted(Site site, Plan plan, ListOf<Climate> training, SeasonOptions options, ListOf<SeasonPlan> alone) => options.ProgramChanges || options.AboveFull
        ? Told(() => SeasonPlanner.Of(site, plan, training, options, Controllers(site, plan)))
        : alone.First(s => s.Dates.Count == options.Visits);

    /// <summary>What shows the season beside the same programs at one percent all season.</summary>
    public static ProofOptions ProofOptions(Site site, Plan plan, LocalDate from, ListOf<Climate> known)
    {
        Plan constant = OnePercent.Of(plan);
        ProofOptions options = new(from, known);
        int visits = SeedbedVisits.OthersIn(site, plan);
        return constant == plan
            ? options
            : options with
            {
                PlanName = visits == 1 ? "this plan, 1 visit" : $"this plan, {visits} visits",
                Beside = [new OtherWay("this plan, one percent all season", "one %", constant)],
            };
    }

    /// <summary>Wishes that cannot be met are the person's to change.</summary>
    public static T Told<T>(Func<T> search)
    {
        try
        {
            return search();
        }
        catch (UnmetWishException reason)
        {
            throw NoSeason(reason.Why);
        }
        catch (ArgumentException reason)
        {
            throw NoSeason(Reason.Of(reason));
        }
    }

    private static ListOf<string> Controllers(Site site, Plan plan) => SeasonControllers.Of(site, plan) is { Count: > 0 } names
        ? names
        : throw NoSeason("No controller of the plan has a program and a planting that lasts.");

    private static Refusal NoSeason(Sentence why) => new(StatusCodes.Status422UnprocessableEntity, "no-season", why);
}
