using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Survey;
using Valvewright.Planning.Season;

namespace Valvewright.Planning.Choices;

/// <summary>
/// Finds the depths that cost a zone least on given watering days: water plus weighed unmet use over the training years. Month after month
/// each depth is tried at many values on the full balance, for a few rounds.
/// </summary>
internal sealed partial class DepthSearch
{
    private const int Months = 12;

    /// <summary>As many as the kernel takes at a time.</summary>
    private const int Lanes = 32;
    private const int Rounds = 3;

    private readonly WateringDates dates;
    private readonly RootZone root;
    private readonly ZoneDays[] years;
    private readonly int[][] monthStarts;
    private readonly double weight, mostUnmetMm, reaching;
    private readonly double[] dailyNeedMm;
    private readonly Dictionary<(DayRule Rule, bool Skips31, bool Skips29, double Least, double Most), MonthlyDepths> known = [];
    private readonly Dictionary<MonthlyDepths, MonthlyDepths[]> scaled = new(ReferenceEqualityComparer.Instance);
    private readonly Lock gate = new();
    private readonly CandidateReplay replay;

    public DepthSearch(Zone zone, ZoneDays[] years, WateringDates dates, double unmetUseWeight)
    {
        (this.years, this.dates, root, reaching) = (years, dates, RootZone.Of(zone), zone.ReachingShare);
        replay = new CandidateReplay(zone, years);
        QualityGoal goal = QualityGoal.Of(zone.Quality);
        weight = unmetUseWeight * goal.WeightFactor;
        DemandMm = years.Average(y => y.DemandMm);
        mostUnmetMm = SeasonTotals.MostUnmet(goal.LeastUseMet, DemandMm);
        monthStarts = [.. years.Select(StartsOfMonths)];
        dailyNeedMm = [.. Enumerable.Range(0, Months).Select(DailyNeed)];
    }

    /// <summary>Use wanted in a mean year, mm.</summary>
    public double DemandMm { get; }

    /// <summary>The largest depth that can be of use, gross mm: from wilting point to field capacity.</summary>
    public double MostUsefulMm => root.TotalMm / reaching;

    /// <summary>The mean use of the month that asks most, less half its rain, mm/day.</summary>
    public double PeakNeedMm => dailyNeedMm.Max();

    /// <summary>Unmet use beyond what a plan may leave, mm per year.</summary>
    public double ShortMm(double unmetMm) => Math.Max(0, unmetMm - mostUnmetMm);

    /// <summary>Water and weighed unmet use, mm per year.</summary>
    public double CostMm(MonthlyDepths depths) => depths.WaterMm + (weight * depths.UnmetMm);

    /// <summary>The depths that cost least, each 0 or from the least to the most.</summary>
    public MonthlyDepths Find(WaterDays days, Profile profile, double leastMm, double mostMm)
    {
        lock (gate)
        {
            (DayRule Rule, bool Skips31, bool Skips29, double Least, double Most) key =
                (days.Phases[0].Rule, profile.OddSkips31, profile.OddSkips29February, leastMm, mostMm);
            if (!known.TryGetValue(key, out MonthlyDepths? found))
            {
                // What fits without a limit fits within one that is no tighter.
                var free = key with { Most = MostUsefulMm };
                if (mostMm < MostUsefulMm && !known.ContainsKey(free))
                {
                    known.Add(free, Searched(days, profile, Math.Min(leastMm, mostMm), MostUsefulMm));
                }

                known[key] = found = known.TryGetValue(free, out MonthlyDepths? best) && best.LargestMm <= mostMm ? best
                    : Searched(days, profile, Math.Min(leastMm, mostMm), mostMm);
            }

            return found;
        }
    }

    /// <summary>The same depths times each of some parts, the same on every call for depths that <see cref="Find"/> gave.</summary>
    public MonthlyDepths[] Scaled(WaterDays days, Profile profile, MonthlyDepths depths, double[] parts)
    {
        lock (gate)
        {
            return scaled.TryGetValue(depths, out MonthlyDepths[]? found) ? found
                : scaled[depths] = Outcomes(WateredOf(days, profile), depths.MonthMm, parts);
        }
    }

    /// <summary>
    /// Month after month, each depth is tried at many values from the soil that the months before it leave, and judged by itself and the
    /// two months after it.
    /// </summary>
    private MonthlyDepths Searched(WaterDays days, Profile profile, double leastMm, double mostMm)
    {
        double[][] watered = WateredOf(days, profile);
        double between = 1 / days.Frequency;
        double[] depths = [.. dailyNeedMm.Select(need => Clamp(need * between / reaching))];
        BalanceLanes lanes = new(Lanes);
        MonthlyDepths now = Outcome(watered, depths);
        for (int round = 0; round < Rounds; round++)
        {
            double shortFactor = ShortMm(now.UnmetMm) > 0 ? SeasonTotals.ShortWeight : 0;
            double before = CostMm(now) + (shortFactor * ShortMm(now.UnmetMm));
            double[] left = [.. years.Select((y, n) => Led(lanes, n, watered[n], depths))];
            for (int k = 0; k < Months; k++)
            {
                int month = dates.Months[0][PieceOf(0, k).From];
                double[] candidates = CandidatesAround(
                    Math.Max(depths[month], 0.5 * between / reaching), depths[month], round == 0 ? 0.9 : 0.3, Clamp);
                double[] costs = new double[Lanes], after = new double[years.Length * Lanes];
                for (int year = 0; year < years.Length; year++)
                {
                    Try(lanes, year, k, left[year], watered[year], depths, candidates, costs, after.AsSpan(year * Lanes, Lanes),
                        weight + shortFactor);
                }

                int best = 1;
                for (int c = 0; c < Lanes; c++)
                {
                    best = costs[c] < costs[best] - 1e-9 ? c : best;
                }

                depths[month] = candidates[best];
                left = [.. left.Select((_, year) => after[(year * Lanes) + best])];
            }

            now = Outcome(watered, depths);
            if (CostMm(now) + (SeasonTotals.ShortWeight * ShortMm(now.UnmetMm)) > before * 0.998)
            {
                break;
            }
        }

        return now;

        double Clamp(double depth) => depth < 0.5 * leastMm ? 0 : Math.Clamp(depth, leastMm, mostMm);
    }

    /// <summary>Off, the depth as it is, and depths around a middle.</summary>
    private static double[] CandidatesAround(double middle, double now, double reach, Func<double, double> clamp)
    {
        double[] candidates = new double[Lanes];
        candidates[1] = now;
        for (int c = 2; c < Lanes; c++)
        {
            candidates[c] = clamp(middle * (1 - reach + (2 * reach * (c - 2) / (Lanes - 3))));
        }

        return candidates;
    }

    /// <summary>Water above wilting point on a year's first day.</summary>
    private double Led(BalanceLanes lanes, int year, double[] watered, double[] depths)
    {
        lanes.Reset(root.TotalMm);
        int[] starts = monthStarts[year];
        for (int piece = 0; piece + 1 < starts.Length && starts[piece] < years[year].Lead; piece++)
        {
            lanes.WaterMm[0] = depths[dates.Months[year][starts[piece]]] * reaching;
            BalanceKernel.Run(root, years[year], starts[piece], starts[piece + 1], watered, lanes);
        }

        return lanes.LeftMm[0];
    }

    /// <summary>Adds what each candidate costs in a year's k-th month and the two after it, and keeps the soil that the month
    /// leaves.</summary>
    private void Try(
        BalanceLanes lanes, int year, int k, double leftMm, double[] watered, double[] depths, double[] candidates, double[] costs,
            Span<double> after, double unmetWeight)
    {
        lanes.Reset(leftMm);
        for (int piece = k; piece < Math.Min(k + 3, Months); piece++)
        {
            (int from, int to) = PieceOf(year, piece);
            int month = dates.Months[year][from];
            double share = piece == k ? SumOf(watered, from, to) : 0;
            for (int c = 0; c < Lanes; c++)
            {
                lanes.WaterMm[c] = (piece == k ? candidates[c] : depths[month]) * reaching;
                costs[c] += share * candidates[c] / years.Length;
            }

            BalanceKernel.Run(root, years[year], from, to, watered, lanes);
            if (piece == k)
            {
                lanes.LeftMm.AsSpan(0, Lanes).CopyTo(after);
            }
        }

        for (int c = 0; c < Lanes; c++)
        {
            costs[c] += unmetWeight * lanes.UnmetMm[c] / years.Length;
        }
    }

    /// <summary>The steps of a year's k-th month.</summary>
    private (int From, int To) PieceOf(int year, int k)
    {
        int[] starts = monthStarts[year];
        int first = Array.IndexOf(starts, years[year].Lead), piece = Math.Min(first + k, starts.Length - 2);
        return (starts[piece], starts[piece + 1]);
    }

    private static double SumOf(double[] values, int from, int to)
    {
        double sum = 0;
        for (int step = from; step < to; step++)
        {
            sum += values[step];
        }

        return sum;
    }

    /// <summary>The first phase of a spread stands for all: years of weather do not know which date is a Monday.</summary>
    private double[][] WateredOf(WaterDays days, Profile profile) => dates.Of(days.Phases[0].Rule, profile);

    private double DailyNeed(int month)
    {
        double need = 0;
        int days = 0;
        foreach ((ZoneDays year, int[] monthOf) in years.Zip(dates.Months))
        {
            for (int step = year.Lead; step < year.Steps; step++)
            {
                if (monthOf[step] == month)
                {
                    need += year.WantedMm[step] - (0.5 * year.RainInMm[step]);
                    days++;
                }
            }
        }

        return days == 0 ? 0 : Math.Max(0, need / days);
    }

    /// <summary>Steps on which a month or the year begins, and the end.</summary>
    private static int[] StartsOfMonths(ZoneDays days) =>
        [.. Enumerable.Range(0, days.Steps).Where(s => s == 0 || s == days.Lead || days.DateOf(s).Day == 1), days.Steps];
}
