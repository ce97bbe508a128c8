using Valvewright.Engine.Values;

namespace Valvewright.Engine.Season;

/// <summary>What a visit is worth: seasons of more and more visits beside each other.</summary>
/// <param name="Steps">By rising number of visits.</param>
/// <param name="KneeVisits">The number of visits after which more are worth little.</param>
public sealed record VisitCurve(ListOf<VisitStep> Steps, int KneeVisits)
{
    /// <summary>
    /// The curve of seasons. Its knee is the point farthest below the straight line from the fewest visits to the most, in the figure that
    /// was made least (Satopaa et al. 2011, "Finding a 'kneedle' in a haystack", for a falling convex curve); the fewest visits of several.
    /// </summary>
    /// <param name="seasons">Seasons for the same site, years and options, by rising number of visits.</param>
    /// <exception cref="ArgumentException">No season, or numbers of visits that do not rise.</exception>
    public static VisitCurve Of(IReadOnlyList<SeasonPlan> seasons)
    {
        ArgumentNullException.ThrowIfNull(seasons);
        if (seasons.Count == 0 || seasons.Zip(seasons.Skip(1)).Any(s => s.First.Dates.Count >= s.Second.Dates.Count))
        {
            throw new ArgumentException("A curve needs seasons of more and more visits.", nameof(seasons));
        }

        ListOf<VisitStep> steps = seasons.Select((s, i) => new VisitStep(
            s.Dates.Count,
            s.WaterM3,
            s.WaterRatio,
            s.UseMet,
            s.CostLitres,
            i == 0 ? double.NaN : seasons[i - 1].CostLitres - s.CostLitres,
            i == 0 ? double.NaN : seasons[i - 1].WaterM3 - s.WaterM3,
            i == 0 ? double.NaN : s.UseMet - seasons[i - 1].UseMet)).ToListOf();
        return new VisitCurve(steps, Knee(seasons));
    }

    /// <summary>The season's own step; null where the curve has none for that many visits.</summary>
    public VisitStep? StepOf(int visits) => Steps.FirstOrDefault(s => s.Visits == visits);

    private static int Knee(IReadOnlyList<SeasonPlan> seasons)
    {
        // Under a limit of unmet use every season has weights of its own, so that costs cannot be compared, but water can.
        double[] spent = [.. seasons.Select(s => s.Options.Goal is Goal.UnmetWithin ? 1000 * s.WaterM3 : s.CostLitres)];
        double[] visits = [.. seasons.Select(s => (double)s.Dates.Count)];
        double slope = seasons.Count == 1 ? 0 : (spent[^1] - spent[0]) / (visits[^1] - visits[0]);
        double[] below = [.. spent.Select((s, i) => spent[0] + (slope * (visits[i] - visits[0])) - s)];
        double least = 1e-9 * Math.Abs(spent[0]);
        int knee = 0;
        for (int i = 1; i < below.Length; i++)
        {
            knee = below[i] > below[knee] + least ? i : knee;
        }

        return seasons[knee].Dates.Count;
    }
}

/// <summary>One number of visits.</summary>
/// <param name="Visits">How many.</param>
/// <param name="WaterM3">Water of a mean year, m3.</param>
/// <param name="WaterRatio">Water over minimum water; NaN where none is needed.</param>
/// <param name="UseMet">The part of the low quarters' use that is met in a mean year.</param>
/// <param name="CostLitres">Water and weighed unmet use, L per year.</param>
/// <param name="SavedLitres">What this visit saves of that against the step before; NaN for the first.</param>
/// <param name="WaterSavedM3">Water that this visit saves against the step before, m3 per year; NaN for the first.</param>
/// <param name="UseMetGained">What it adds to the part of the use that is met; NaN for the first.</param>
public sealed record VisitStep(
    int Visits, double WaterM3, double WaterRatio, double UseMet, double CostLitres, double SavedLitres, double WaterSavedM3,
        double UseMetGained);
