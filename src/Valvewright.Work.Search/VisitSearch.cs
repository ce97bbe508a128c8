using Valvewright.Engine.Plans;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Planning.Season;

namespace Valvewright.Work.Search;

/// <summary>Seasons of fewer and more visits for given programs.</summary>
internal sealed class VisitSearch(SiteYears years, Plan programs, SeasonOptions options)
{
    private const int Most = 12;
    private const int FewestDaysOfYear = 365;

    private readonly Site site = SeedbedVisits.AsLawns(years.Site, programs);

    /// <summary>A season comes round every year: it is chosen on whole ones. A shorter record serves for programs alone.</summary>
    /// <exception cref="RefusalException">There are none.</exception>
    public static void RequireWholeYears(ListOf<Climate> training)
    {
        if (training.Any(y => y.Days < FewestDaysOfYear))
        {
            throw new RefusalException(new Refusal.WeatherTooShort());
        }
    }

    /// <summary>Limits that cannot be met are the person's to change; whatever else goes wrong is a defect.</summary>
    public static T Refused<T>(Func<T> search)
    {
        try
        {
            return search();
        }
        catch (UnmetWishException reason)
        {
            throw new RefusalException(new Refusal.NoSeason(reason.Why));
        }
    }

    /// <summary>Seasons of 1 to 12 visits that set percents alone, or to as many as the limits leave room for.</summary>
    public ListOf<SeasonPlan> UpToTwelve(CancellationToken cancel)
    {
        ListOf<string> only = Controllers();
        int fixedVisits = options.Agreed.Concat(options.Shutdown is { } winter ? [winter.Off, winter.On] : []).Distinct().Count();
        int fewest = Math.Clamp(fixedVisits, 1, options.Visits);
        for (int most = Most; most > options.Visits; most--)
        {
            try
            {
                return Seasons(most);
            }
            catch (UnmetWishException)
            {
                // So many visits do not fit the limits; one fewer may.
            }
        }

        return Refused(() => Seasons(options.Visits));

        ListOf<SeasonPlan> Seasons(int most) =>
            SeasonPlanner.Curve(site, programs, years.Training, options, [.. Enumerable.Range(fewest, most - fewest + 1)], only, cancel);
    }

    /// <summary>The season that is wanted: one of those found, or searched for by itself.</summary>
    public SeasonPlan Wanted(ListOf<SeasonPlan>? found, CancellationToken cancel) =>
        found?.First(s => s.Dates.Count == options.Visits)
        ?? Refused(() => SeasonPlanner.Of(site, programs, years.Training, options, Controllers(), cancel));

    private ListOf<string> Controllers() => SeasonControllers.Of(site, programs) is { Count: > 0 } names
        ? names
        : throw new RefusalException(new Refusal.NoSeason("No controller of the plan has a program and a planting that lasts."));
}
