using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;

namespace Valvewright.Engine.Season.Search;

/// <summary>
/// What a stretch of one controller costs when the percent before it is known, and for how long at least it had been set: never more
/// than the true cost, and much nearer to it than <see cref="SegmentCosts.Wettest"/>.
/// </summary>
/// <remarks>
/// A root zone forgets: after weeks under one percent it hardly matters how they began. A stretch that follows weeks at percent q is
/// begun from the wettest state that many weeks earlier, moved on at q. Longer at q could only be drier, or the same.
/// </remarks>
internal sealed class MemoryCosts
{
    /// <summary>Classes of the time that the percent before had been set at least, days; the class of a gap is the longest that it reaches.</summary>
    private static readonly int[] MemoryDays = [0, 14, 28, 56, 112];

    private readonly float[][] stress;
    private readonly double[][] water;
    private readonly int points, percents;

    private MemoryCosts(int points, int percents)
    {
        (this.points, this.percents) = (points, percents);
        stress = new float[points + 1][];
        water = new double[points + 1][];
    }

    public static int Classes => MemoryDays.Length;

    public int Percents => percents;

    /// <summary>The class of a gap.</summary>
    public static int ClassOf(int days) => Array.FindLastIndex(MemoryDays, m => m <= days);

    /// <summary>Stress over a zone's area, litres of stress days, between possible days; from -1 is the year's beginning, to Count its end.</summary>
    public double Cost(int from, int to, int memory, int before, int percent, double rateMm) =>
        water[from + 1][(to - from - 1) * percents + percent]
        + rateMm * stress[from + 1][(((to - from - 1) * Classes + memory) * percents + before) * percents + percent];

    public static MemoryCosts Of(SeasonCase season, int controller, double[] yearWeights)
    {
        ControllerCase own = season.Controllers[controller];
        MemoryCosts costs = new(season.Days.Count, own.Percents.Length);
        double[][][][] wettest = [.. own.Zones.Select(z => Enumerable.Range(0, season.YearCount).Select(y => costs.WettestStates(season, z, y)).ToArray())];
        Parallel.For(0, season.Days.Count + 1, new ParallelOptions { MaxDegreeOfParallelism = Math.Max(1, season.Options.Threads) }, from => costs.Fill(season, own, yearWeights, wettest, from));
        return costs;
    }

    private void Fill(SeasonCase season, ControllerCase own, double[] yearWeights, double[][][][] wettest, int from)
    {
        int targets = points + 1 - from;
        double[] waterHere = new double[targets * percents], stressHere = new double[targets * Classes * percents * percents];
        for (int z = 0; z < own.Zones.Length; z++)
        {
            for (int year = 0; year < season.YearCount; year++)
            {
                if (yearWeights[year] > 0)
                {
                    FillZoneYear(season, own.Zones[z], wettest[z][year], year, from, yearWeights[year], waterHere, stressHere);
                }
            }
        }

        water[from] = waterHere;

        // Rounded down: the sum stays below the true cost.
        stress[from] = [.. stressHere.Select(s => (float)s > s ? MathF.BitDecrement((float)s) : (float)s)];
    }

    private void FillZoneYear(SeasonCase season, ZoneCase zone, double[][] wettest, int year, int from, double weight, double[] waterHere, double[] stressHere)
    {
        int candidates = Classes * percents * percents;
        BalanceLanes lanes = zone.LanesFor(candidates);
        lanes.Reset();
        Begin(season, zone, wettest, year, from, lanes, candidates);
        int[] day = [0, .. season.DayIndex[year], season.YearDays[year]];
        double area = zone.Zone.AreaM2 * weight, waterDays = 0;
        for (int to = from + 1; to <= points + 1; to++)
        {
            zone.Advance(year, day[to - 1], day[to], lanes);
            waterDays += zone.WaterDays(year, day[to - 1], day[to]);
            int target = to - from - 1;
            for (int percent = 0; percent < percents; percent++)
            {
                waterHere[target * percents + percent] += area * waterDays * zone.DepthMm(0, percent);
            }

            Span<double> sums = stressHere.AsSpan(target * candidates, candidates);
            for (int spot = 0; spot < zone.Spots; spot++)
            {
                double share = area * zone.Weight[spot];
                ReadOnlySpan<double> steps = lanes.StressSteps.AsSpan(spot * candidates, candidates);
                for (int c = 0; c < candidates; c++)
                {
                    sums[c] += share * steps[c];
                }
            }
        }
    }

    /// <summary>Sets the depletion of every lane: by class and percent before, the same for all percents after.</summary>
    private void Begin(SeasonCase season, ZoneCase zone, double[][] wettest, int year, int from, BalanceLanes lanes, int candidates)
    {
        int[] day = [0, .. season.DayIndex[year]];
        BalanceLanes before = zone.LanesFor(percents);
        for (int memory = 0; memory < Classes; memory++)
        {
            int start = Math.Max(0, day[from] - MemoryDays[memory]);
            before.Reset();
            for (int spot = 0; spot < zone.Spots; spot++)
            {
                before.DepletionMm.AsSpan(spot * percents, percents).Fill(wettest[start][spot]);
            }

            for (int q = 0; q < percents; q++)
            {
                zone.SetWater(before, percents, q, zone.DepthMm(0, q));
            }

            zone.Advance(year, start, day[from], before);
            for (int spot = 0; spot < zone.Spots; spot++)
            {
                for (int q = 0; q < percents; q++)
                {
                    lanes.DepletionMm.AsSpan(spot * candidates + ((memory * percents) + q) * percents, percents).Fill(before.DepletionMm[spot * percents + q]);
                }
            }
        }

        for (int c = 0; c < candidates; c++)
        {
            zone.SetWater(lanes, candidates, c, zone.DepthMm(0, c % percents));
        }
    }

    /// <summary>By day, the depletion of each spot under the largest percent since the year's beginning.</summary>
    private double[][] WettestStates(SeasonCase season, ZoneCase zone, int year)
    {
        BalanceLanes lanes = zone.LanesFor(1);
        lanes.Reset();
        zone.SetWater(lanes, 1, 0, zone.DepthMm(0, percents - 1));
        double[][] states = new double[season.YearDays[year] + 1][];
        for (int day = 0; day <= season.YearDays[year]; day++)
        {
            states[day] = lanes.DepletionMm[..zone.Spots];
            zone.Advance(year, day, Math.Min(day + 1, season.YearDays[year]), lanes);
        }

        return states;
    }
}
