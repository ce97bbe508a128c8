using System.Collections.Concurrent;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;
using Valvewright.Engine.Season;

namespace Valvewright.Planning.Season;

/// <summary>What schedules amount to on the full balance, over all years; what was tried once is remembered.</summary>
internal sealed class ScheduleReplay(SeasonProblem season)
{
    private const int MostKnown = 1 << 16;

    [ThreadStatic]
    private static BalanceLanes? room;

    private readonly ConcurrentDictionary<string, SeasonTotals> known = new(StringComparer.Ordinal);

    /// <summary>A whole schedule.</summary>
    public SeasonTotals Of(Schedule schedule)
    {
        SeasonTotals sum = default;
        for (int c = 0; c < season.Controllers.Length; c++)
        {
            sum += Of(c, schedule.Dates, [schedule.Percents[c]])[0];
        }

        return sum;
    }

    /// <summary>One controller under each of many sequences of percents on the same dates.</summary>
    public SeasonTotals[] Of(int controller, int[] dates, IReadOnlyList<int[]> sequences)
    {
        string[] keys = [.. sequences.Select(s => KeyOf(controller, dates, s))];
        int[] missing = [.. Enumerable.Range(0, keys.Length).Where(i => !known.ContainsKey(keys[i])).GroupBy(i => keys[i])
            .Select(g => g.First())];
        SeasonTotals[] found = new SeasonTotals[keys.Length];
        Dictionary<string, SeasonTotals> fresh = [];
        if (missing.Length > 0)
        {
            PlannedZone[] zones = season.Controllers[controller].Zones;
            int[] percents = season.Controllers[controller].Percents;
            SeasonTotals[] sums =
                Of(zones, dates, [.. missing.Select(m => sequences[m])], (zone, s, visit) => zone.DepthMm(percents[s[visit]]));
            for (int i = 0; i < missing.Length; i++)
            {
                fresh[keys[missing[i]]] = sums[i];
            }
        }

        if (known.Count > MostKnown)
        {
            known.Clear();
        }

        for (int i = 0; i < keys.Length; i++)
        {
            found[i] = fresh.TryGetValue(keys[i], out SeasonTotals own) ? own : known[keys[i]];
            known.TryAdd(keys[i], found[i]);
        }

        return found;
    }

    /// <summary>Zones under candidates whose depth by visit is asked for.</summary>
    public SeasonTotals[] Of<T>(
        IReadOnlyList<PlannedZone> zones, int[] dates, IReadOnlyList<T> candidates, Func<PlannedZone, T, int, double> depthMm)
    {
        int years = season.YearCount, count = candidates.Count;
        double[][] water = new double[zones.Count * years][], unmet = new double[water.Length][];
        Parallel.For(0, water.Length, new ParallelOptions { MaxDegreeOfParallelism = Math.Max(1, season.Options.Threads) }, part =>
        {
            PlannedZone zone = zones[part / years];
            double[][] depths = [.. dates.Select((_, v) => candidates.Select(c => depthMm(zone, c, v)).ToArray())];
            (water[part], unmet[part]) = OfZoneYear(zone, part % years, season.DayIndex[part % years], dates, depths, count);
        });
        SeasonTotals[] sums = new SeasonTotals[count];
        for (int z = 0; z < zones.Count; z++)
        {
            double mostUnmet = SeasonTotals.MostUnmet(zones[z].LeastUseMet, zones[z].Years.Average(y => y.DemandMm));
            double[] unmetByYear = new double[years];
            for (int c = 0; c < count; c++)
            {
                double zoneWater = 0;
                for (int y = 0; y < years; y++)
                {
                    zoneWater += water[(z * years) + y][c] / years;
                    unmetByYear[y] = unmet[(z * years) + y][c];
                }

                sums[c] += SeasonTotals.Of(
                    zones[z].Zone.AreaM2, zones[z].Weight, mostUnmet, zoneWater, unmetByYear, season.Options.Prudence);
            }
        }

        return sums;
    }

    /// <summary>Water and unmet use of one zone in one year, mm, by candidate; depths by visit and candidate.</summary>
    private static (double[] WaterMm, double[] UnmetMm) OfZoneYear(
        PlannedZone zone, int year, int[] dayIndex, int[] dates, double[][] depths, int count)
    {
        ZoneDays days = zone.Years[year];
        BalanceLanes lanes = room ??= new BalanceLanes(count);
        lanes.Begin(count);
        lanes.Reset(zone.Root.TotalMm);
        double[] water = new double[count], unmet = new double[count];
        double[] watered = zone.IsWatered(year);

        // The soil of the first day comes from the days before it, under the setting that holds over the new year.
        SetWater(lanes, depths[^1], zone.Reaching);
        zone.Advance(year, 0, days.Lead, lanes);
        lanes.ClearSums();
        int from = days.Lead;
        for (int stretch = 0; stretch <= dates.Length; stretch++)
        {
            int to = stretch < dates.Length ? days.Lead + dayIndex[dates[stretch]] : days.Steps;
            double[] depth = depths[stretch == 0 ? dates.Length - 1 : stretch - 1];
            double waterings = Waterings(watered, from, to);
            for (int c = 0; c < count; c++)
            {
                water[c] += waterings * depth[c];
            }

            SetWater(lanes, depth, zone.Reaching);
            zone.Advance(year, from, to, lanes);
            from = to;
        }

        Array.Copy(lanes.UnmetMm, unmet, count);
        return (water, unmet);
    }

    private static double Waterings(double[] watered, int from, int to)
    {
        double sum = 0;
        for (int step = from; step < to; step++)
        {
            sum += watered[step];
        }

        return sum;
    }

    private static void SetWater(BalanceLanes lanes, double[] depthMm, double reaching)
    {
        for (int c = 0; c < depthMm.Length; c++)
        {
            lanes.WaterMm[c] = depthMm[c] * reaching;
        }
    }

    /// <summary>What is set from when on, without visits that leave all as it was.</summary>
    private static string KeyOf(int controller, int[] dates, int[] percents)
    {
        Span<char> key = stackalloc char[(2 * dates.Length) + 2];
        int length = 0, before = percents[^1];
        key[length++] = (char)controller;
        for (int visit = 0; visit < dates.Length; visit++)
        {
            if (percents[visit] != before)
            {
                key[length++] = (char)dates[visit];
                key[length++] = (char)(before = percents[visit]);
            }
        }

        if (length == 1)
        {
            key[length++] = (char)before;
        }

        return new string(key[..length]);
    }
}
