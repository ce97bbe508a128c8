using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Planning.Season;

/// <summary>Finds the dates of a year's visits and the percents to leave each controller at: least water and weighed unmet use.</summary>
/// <remarks>docs/season.md has the reasoning: a bound, a first schedule, a better one, single moves.</remarks>
public static class SeasonPlanner
{
    /// <summary>Plans a season.</summary>
    /// <param name="site">The site.</param>
    /// <param name="plan">Its programs; the visits that they carry are replaced.</param>
    /// <param name="years">Whole years of record, from 1 January, or 1 July south of the equator.</param>
    /// <param name="options">Visits, goal and wishes.</param>
    /// <param name="only">Controllers to plan for; null takes all, and one visit serves them all.</param>
    /// <param name="cancel">Stops the search.</param>
    /// <exception cref="UnmetWishException">The wishes cannot be met.</exception>
    /// <exception cref="ArgumentException">The years are not whole.</exception>
    public static SeasonPlan Of(
        Site site, Plan plan, IReadOnlyList<Climate> years, SeasonOptions options, IReadOnlyList<string>? only = null,
            CancellationToken cancel = default) =>
        Curve(site, plan, years, options, [(options ?? throw new ArgumentNullException(nameof(options))).Visits], only, cancel)[0];

    /// <summary>Plans a season for each of several numbers of visits; what they share is worked out once.</summary>
    /// <returns>By number of visits as given.</returns>
    public static ListOf<SeasonPlan> Curve(
        Site site, Plan plan, IReadOnlyList<Climate> years, SeasonOptions options, IReadOnlyList<int> visits,
            IReadOnlyList<string>? only = null,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(years);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(visits);
        YearsOfZones known = new(years);
        List<SeasonPlan> seasons = [];
        Schedule? fewer = null;
        foreach (int n in visits)
        {
            SeasonSearch search = new(SeasonProblem.Of(site, plan, years, options with { Visits = n }, only, known), cancel);
            seasons.Add(search.Run(fewer?.Dates.Length == n - 1 ? fewer : null));
            fewer = search.Found;
        }

        return seasons.ToListOf();
    }

    /// <summary>The same with the zones' years known already.</summary>
    internal static SeasonPlan Of(
        Site site, Plan plan, IReadOnlyList<Climate> years, SeasonOptions options, IReadOnlyList<string>? only, YearsOfZones known,
            CancellationToken cancel) =>
        new SeasonSearch(SeasonProblem.Of(site, plan, years, options, only, known), cancel).Run();
}
