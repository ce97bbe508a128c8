using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Survey;

namespace Valvewright.Planning.Choices;

/// <summary>What a zone would get, month by month, on given watering days, if a percent could be set to suit it every month.</summary>
/// <param name="MonthMm">Gross depth per watering day, January first; 0 is off.</param>
/// <param name="WaterMm">Gross water of a mean year.</param>
/// <param name="UnmetMm">Unmet use of a mean year.</param>
/// <param name="Waterings">Watering days of a mean year.</param>
internal sealed record MonthlyDepths(double[] MonthMm, double WaterMm, double UnmetMm, double Waterings)
{
    /// <summary>The depth of the month that asks most.</summary>
    public double LargestMm => MonthMm.Max();
}

/// <summary>
/// Finds the depths that cost a zone least on given watering days: water plus weighed unmet use over the training years. Month after month each depth is
/// tried at many values on the full balance, for a few rounds.
/// </summary>
internal sealed class DepthSearch
{
    private const int Months = 12;
    private const int Lanes = BalanceLanesPerBlock;
    private const int BalanceLanesPerBlock = 32;
    private const int Rounds = 3;

    /// <summary>A millimeter that is lacking of the use that must be met weighs more than any water that could bring it.</summary>
    private const double ShortWeight = 25;

    /// <summary>A plan must meet its goal in years it has not seen.</summary>
    private const double Margin = 0.02;

    private readonly Zone zone;
    private readonly RootZone root;
    private readonly ZoneDays[] years;
    private readonly int[][] monthStarts;
    private readonly double weight, mostUnmetMm, reaching;
    private readonly double[] dailyNeedMm;
    private readonly Dictionary<(DayRule Rule, bool Skips31, bool Skips29, double Least, double Most), MonthlyDepths> known = [];
    private readonly Lock gate = new();

    public DepthSearch(Zone zone, ZoneDays[] years, double unmetUseWeight)
    {
        (this.zone, this.years, root, reaching) = (zone, years, RootZone.Of(zone), zone.ReachingShare);
        QualityGoal goal = QualityGoal.Of(zone.Quality);
        weight = unmetUseWeight * goal.WeightFactor;
        DemandMm = years.Average(y => y.DemandMm);
        mostUnmetMm = Math.Max(0, 1 - goal.LeastUseMet - Margin) * DemandMm;
        monthStarts = [.. years.Select(StartsOfMonths)];
        dailyNeedMm = [.. Enumerable.Range(1, Months).Select(DailyNeed)];
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
            var key = (days.Phases[0].Rule, profile.OddSkips31, profile.OddSkips29February, leastMm, mostMm);
            if (!known.TryGetValue(key, out MonthlyDepths? found))
            {
                known.Add(key, found = Searched(days, profile, Math.Min(leastMm, mostMm), mostMm));
            }

            return found;
        }
    }

    /// <summary>The same depths times a part.</summary>
    public MonthlyDepths Scaled(WaterDays days, Profile profile, MonthlyDepths depths, double part)
    {
        lock (gate)
        {
            double[] scaled = [.. depths.MonthMm.Select(d => d * part)];
            return Outcome(WateredOf(days, profile), scaled);
        }
    }

    private MonthlyDepths Searched(WaterDays days, Profile profile, double leastMm, double mostMm)
    {
        double[][] watered = WateredOf(days, profile);
        double between = 1 / days.Frequency;
        double[] depths = [.. dailyNeedMm.Select(need => Clamp(need * between / reaching))];
        double[] candidates = new double[Lanes];
        double best = double.PositiveInfinity;
        for (int round = 0; round < Rounds; round++)
        {
            double before = best;
            for (int month = 0; month < Months; month++)
            {
                double around = Math.Max(depths[month], 0.5 * between / reaching), reach = round == 0 ? 0.9 : 0.3;
                candidates[0] = 0;
                candidates[1] = depths[month];
                for (int c = 2; c < Lanes; c++)
                {
                    candidates[c] = Clamp(around * (1 - reach + (2 * reach * (c - 2) / (Lanes - 3))));
                }

                double[] costs = Costs(watered, depths, month, candidates);
                int cheapest = 1;
                for (int c = 0; c < Lanes; c++)
                {
                    cheapest = costs[c] < costs[cheapest] - 1e-9 ? c : cheapest;
                }

                (depths[month], best) = (candidates[cheapest], costs[cheapest]);
            }

            if (best > before - (0.002 * before))
            {
                break;
            }
        }

        return Outcome(watered, depths);

        double Clamp(double depth) => depth < 0.5 * leastMm ? 0 : Math.Clamp(depth, leastMm, mostMm);
    }

    private MonthlyDepths Outcome(double[][] watered, double[] depths)
    {
        (double[] water, double[] unmet, double waterings) = Replay(watered, depths, 0, [depths[0]]);
        return new MonthlyDepths(depths, water[0], unmet[0], waterings);
    }

    private double[] Costs(double[][] watered, double[] depths, int month, double[] candidates)
    {
        (double[] water, double[] unmet, _) = Replay(watered, depths, month, candidates);
        return [.. water.Zip(unmet, (w, u) => w + (weight * u) + (ShortWeight * ShortMm(u)))];
    }

    /// <summary>Mean water and unmet use of a year when one month has each of the candidates' depths.</summary>
    private (double[] WaterMm, double[] UnmetMm, double Waterings) Replay(double[][] watered, double[] depths, int month, double[] candidates)
    {
        int count = candidates.Length;
        double[] water = new double[count], unmet = new double[count];
        double waterings = 0;
        BalanceLanes lanes = new(count);
        for (int year = 0; year < years.Length; year++)
        {
            lanes.Reset(root.TotalMm);
            int[] starts = monthStarts[year];
            for (int piece = 0; piece + 1 < starts.Length; piece++)
            {
                int from = starts[piece], to = starts[piece + 1], at = years[year].DateOf(from).Month - 1;
                if (from == years[year].Lead)
                {
                    lanes.ClearSums();
                }

                double share = 0;
                for (int step = from; step < to; step++)
                {
                    share += watered[year][step];
                }

                bool counts = from >= years[year].Lead;
                waterings += counts && depths[at] > 0 ? share / years.Length : 0;
                for (int c = 0; c < count; c++)
                {
                    double depth = at == month ? candidates[c] : depths[at];
                    lanes.WaterMm[c] = depth * reaching;
                    water[c] += counts ? share * depth / years.Length : 0;
                }

                BalanceKernel.Run(root, years[year], from, to, watered[year], lanes);
            }

            for (int c = 0; c < count; c++)
            {
                unmet[c] += lanes.UnmetMm[c] / years.Length;
            }
        }

        return (water, unmet, waterings);
    }

    /// <summary>The first phase of a spread stands for all: years of weather do not know which date is a Monday.</summary>
    private double[][] WateredOf(WaterDays days, Profile profile)
    {
        DayRule rule = days.Phases[0].Rule;
        return [.. years.Select(y => Enumerable.Range(0, y.Steps).Select(s => rule.WatersOn(y.DateOf(s), profile) ? 1.0 : 0).ToArray())];
    }

    private double DailyNeed(int month)
    {
        double need = 0;
        int days = 0;
        foreach (ZoneDays year in years)
        {
            for (int step = year.Lead; step < year.Steps; step++)
            {
                if (year.DateOf(step).Month == month)
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
