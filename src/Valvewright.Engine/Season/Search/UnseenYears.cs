using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Season.Search;

/// <summary>What stress a season has in years that it was not chosen with.</summary>
/// <remarks>
/// A season suits the years that it was chosen with better than others. Leaving out one part of the years after the other, choosing
/// for the rest at the same exchange rate, and looking at what is left out tells by how much (cross-validation; Stone 1974).
/// </remarks>
internal static class UnseenYears
{
    private const int Parts = 4;

    /// <summary>So little more stress is none.</summary>
    private const double LeastMargin = 0.01;

    /// <summary>A season whose stress in unseen years keeps within a limit, as far as can be told from the years that are known.</summary>
    /// <param name="mostStressDays">The limit.</param>
    /// <param name="plan">The season within a limit on the years that are known.</param>
    /// <param name="season">The problem.</param>
    /// <param name="years">The years that are known, at least two.</param>
    /// <param name="only">The controllers that it is for.</param>
    public static SeasonPlan Within(double mostStressDays, Func<double, SeasonPlan> plan, SeasonCase season, IReadOnlyList<Climate> years, IReadOnlyList<string>? only)
    {
        SeasonPlan found = plan(mostStressDays);
        (double known, double unseen) = StressDays(season, found, years, only);
        double worse = known > 0 ? Math.Max(1, unseen / known) : 1;
        if (worse > 1 + LeastMargin)
        {
            found = plan(mostStressDays / worse) with { LeastWithinStressM3 = found.LeastWithinStressM3 };
        }

        return found with { UnseenStressDays = found.StressDays * worse, Options = found.Options with { MostStressDays = mostStressDays } };
    }

    /// <summary>Of the season at one exchange rate: stress in the years it was chosen with, and in those left out.</summary>
    private static (double Known, double Unseen) StressDays(SeasonCase season, SeasonPlan found, IReadOnlyList<Climate> years, IReadOnlyList<string>? only)
    {
        // Percents alone: how much a season owes to its years is nearly the same with changes of programs, and found far sooner.
        SeasonOptions options = found.Options with { MostStressDays = null, StressOfUnseenYears = false, NearBound = false, ProgramChanges = false, AboveFull = false };
        int parts = Math.Min(Parts, years.Count);
        double known = 0, unseen = 0;
        for (int part = 0; part < parts; part++)
        {
            Climate[] kept = [.. years.Where((_, y) => y % parts != part)], left = [.. years.Where((_, y) => y % parts == part)];
            SeasonPlan chosen = SeasonPlanner.Curve(season.Site, season.Plan, kept, options, [options.Visits], only)[0];
            SeasonCase others = SeasonCase.Of(season.Site, season.Plan, left, options, only);
            known += chosen.StressDays / parts;
            unseen += left.Length * SeasonPlanner.StressOf(others, ScheduleOf(others, chosen)) / years.Count;
        }

        return (known, unseen);
    }

    /// <summary>A season that was found for other years, as the search sees it; its percents alone.</summary>
    public static Schedule ScheduleOf(SeasonCase season, SeasonPlan plan) => new(
        [.. plan.Dates.Select(d => Enumerable.Range(0, season.Days.Count).First(i => season.Days.DateOf(i) == d))],
        [.. plan.Controllers.Select((c, i) => c.Percents.Select(p => Array.IndexOf(season.Controllers[i].Percents, p)).ToArray())]);
}
