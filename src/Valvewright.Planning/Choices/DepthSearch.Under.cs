using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Planning.Season;

namespace Valvewright.Planning.Choices;

/// <summary>Depths under percents that are known.</summary>
internal sealed partial class DepthSearch
{
    private readonly Dictionary<(string Controller, DayRule Rule, bool Skips31, bool Skips29, double Least, double Most), MonthlyDepths>
        knownUnder = [];
    private readonly Dictionary<string, double[][]> parts = new(StringComparer.Ordinal);

    /// <summary>The depth at 100 % that costs least where a percent is set on every date, from the least that serves at its lowest to the
    /// most.</summary>
    /// <param name="controller">Whose percents they are.</param>
    /// <param name="partOn">Its percent on a date, as a part of 1: the same on every call for one controller.</param>
    public MonthlyDepths FindUnder(
        WaterDays days, Profile profile, string controller, Func<LocalDate, double> partOn, double leastMm, double mostMm)
    {
        lock (gate)
        {
            var key = (controller, days.Phases[0].Rule, profile.OddSkips31, profile.OddSkips29February, leastMm, mostMm);
            if (!knownUnder.TryGetValue(key, out MonthlyDepths? found))
            {
                if (!parts.TryGetValue(controller, out double[][]? part))
                {
                    parts[controller] = part = dates.Map(partOn);
                }

                knownUnder[key] = found =
                    SearchedUnder([.. WateredOf(days, profile).Select(y => y.ToArray())], part, leastMm, mostMm);
            }

            return found;
        }
    }

    private MonthlyDepths SearchedUnder(double[][] watered, double[][] part, double leastMm, double mostMm)
    {
        double lowest = 1, waterings = 0;
        for (int year = 0; year < years.Length; year++)
        {
            for (int step = 0; step < watered[year].Length; step++)
            {
                double share = watered[year][step] *= part[year][step];
                lowest = share > 0 ? Math.Min(lowest, share) : lowest;
                waterings += share > 0 && step >= years[year].Lead ? 1.0 / years.Length : 0;
            }
        }

        double least = Math.Min(mostMm, leastMm / lowest);
        double[] candidates = [.. Enumerable.Range(0, Lanes).Select(c => least + ((mostMm - least) * c * c / ((Lanes - 1) * (Lanes - 1))))];
        (double[] water, double[] unmet) = ReplayShares(watered, candidates);
        double Cost(int c) => water[c] + (weight * unmet[c]) + (SeasonTotals.ShortWeight * ShortMm(unmet[c]));
        int best = Enumerable.Range(0, Lanes).MinBy(Cost);
        double from = candidates[Math.Max(0, best - 1)], to = candidates[Math.Min(Lanes - 1, best + 1)];
        candidates = [.. Enumerable.Range(0, Lanes).Select(c => from + ((to - from) * c / (Lanes - 1)))];
        (water, unmet) = ReplayShares(watered, candidates);
        best = Enumerable.Range(0, Lanes).MinBy(Cost);
        return new MonthlyDepths([candidates[best]], water[best], unmet[best], waterings);
    }
}
