using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;
using Valvewright.Engine.Season;

namespace Valvewright.Planning.Season;

/// <summary>What each percent of a controller costs between any two possible days, in a mean year, L.</summary>
/// <remarks>
/// The soil at the beginning of a stretch depends on everything before it. Two ways to settle it make two tables. From the soil under 100 %
/// all year no stretch costs less than the table says, whatever came before, because a wetter beginning never makes a later day drier:
/// summed up, that is a bound. From the soil under a given schedule the sums are what that schedule's neighbors nearly cost.
/// </remarks>
internal sealed class StretchCosts
{
    private readonly double[] water, unmet;
    private readonly int points, percents;

    private StretchCosts(int points, int percents)
    {
        (this.points, this.percents) = (points, percents);
        water = new double[points * percents];
        unmet = new double[points * points * percents];
    }

    /// <summary>How many percents there are.</summary>
    public int Percents => percents;

    /// <summary>From the first possible day's beginning to the second's, both counted with 0 as the year's beginning and then the possible
    /// days.</summary>
    public double Cost(int from, int to, int percent, double factor) =>
        water[(to * percents) + percent] - water[(from * percents) + percent] + (
            factor * unmet[(((from * points) + to) * percents) + percent]);

    /// <summary>Between two possible days.</summary>
    public double Between(int from, int to, int percent, double factor) => Cost(from + 1, to + 1, percent, factor);

    /// <summary>From the last visit over the year's end to the first.</summary>
    public double OverNewYear(int last, int first, int percent, double factor) =>
        Cost(last + 1, points - 1, percent, factor) + Cost(0, first + 1, percent, factor);

    /// <summary>The table of a controller, every stretch begun with the soil that a schedule leaves; null: that 100 % all year
    /// leaves.</summary>
    public static StretchCosts Of(SeasonProblem season, int controller, Schedule? under)
    {
        SeasonController own = season.Controllers[controller];
        int points = season.Days.Count + 2, years = season.YearCount;
        StretchCosts sum = new(points, own.Percents.Length);
        foreach (PlannedZone zone in own.Zones)
        {
            StretchCosts[] parts = new StretchCosts[years];
            Parallel.For(0, years, new ParallelOptions { MaxDegreeOfParallelism = Math.Max(1, season.Options.Threads) }, year =>
            {
                parts[year] = new StretchCosts(points, own.Percents.Length);
                parts[year].Fill(season, own, zone, year, under?.Dates, under?.Percents[controller]);
            });
            foreach (StretchCosts part in parts)
            {
                Add(sum.water, part.water, years);
                Add(sum.unmet, part.unmet, years);
            }
        }

        return sum;
    }

    private static void Add(double[] sum, double[] part, int years)
    {
        for (int i = 0; i < sum.Length; i++)
        {
            sum[i] += part[i] / years;
        }
    }

    private void Fill(SeasonProblem season, SeasonController own, PlannedZone zone, int year, int[]? dates, int[]? set)
    {
        ZoneDays days = zone.Years[year];
        int[] at = [days.Lead, .. season.DayIndex[year].Select(d => days.Lead + d), days.Steps];
        double area = zone.Zone.AreaM2, weighed = area * zone.Weight;
        double[] depth = [.. own.Percents.Select(p => zone.DepthMm(p))], watered = zone.IsWatered(year);
        double waterings = 0;
        for (int point = 1; point < points; point++)
        {
            for (int step = at[point - 1]; step < at[point]; step++)
            {
                waterings += watered[step];
            }

            for (int p = 0; p < percents; p++)
            {
                water[(point * percents) + p] = area * waterings * depth[p];
            }
        }

        double[] left = Beginnings(point => SettingAt(point, dates, set));
        BalanceLanes lanes = new(percents);
        for (int p = 0; p < percents; p++)
        {
            lanes.WaterMm[p] = depth[p] * zone.Reaching;
        }

        for (int from = 0; from < points - 1; from++)
        {
            lanes.Reset(left[from]);
            for (int to = from + 1; to < points; to++)
            {
                zone.Advance(year, at[to - 1], at[to], lanes);
                int cell = ((from * points) + to) * percents;
                for (int p = 0; p < percents; p++)
                {
                    unmet[cell + p] = weighed * lanes.UnmetMm[p];
                }
            }
        }

        double[] Beginnings(Func<int, int> settingAt)
        {
            double[] states = new double[points];
            BalanceLanes one = new(1);
            one.Reset(zone.Root.TotalMm);
            one.WaterMm[0] = depth[settingAt(0)] * zone.Reaching;
            zone.Advance(year, 0, at[0], one);
            for (int point = 0; point < points; point++)
            {
                states[point] = one.LeftMm[0];
                if (point + 1 < points)
                {
                    one.WaterMm[0] = depth[settingAt(point)] * zone.Reaching;
                    zone.Advance(year, at[point], at[point + 1], one);
                }
            }

            return states;
        }
    }

    /// <summary>Index of the percent in force from a point on.</summary>
    private int SettingAt(int point, int[]? dates, int[]? set)
    {
        if (dates is null || set is null)
        {
            return percents - 1;
        }

        int visit = Array.FindLastIndex(dates, d => d + 1 <= point);
        return set[visit < 0 ? set.Length - 1 : visit];
    }
}
