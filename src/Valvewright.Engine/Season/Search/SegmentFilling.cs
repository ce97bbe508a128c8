using Valvewright.Engine.Balance.Kernel;

namespace Valvewright.Engine.Season.Search;

/// <summary>Works out one table of stretches: of the zones that share a program, or of a whole controller.</summary>
internal sealed class SegmentFilling
{
    private readonly SeasonCase season;
    private readonly ZoneCase[] zones;
    private readonly int[] years;
    private readonly int[][] days;
    private readonly double[] yearWeights;
    private readonly SegmentTable table;
    private readonly int[]? until;
    private readonly int points;

    /// <summary>By zone and counted year: the stores of the spots at every beginning of a stretch.</summary>
    private readonly double[][][] left;

    /// <param name="season">The problem.</param>
    /// <param name="zones">The zones whose costs are summed.</param>
    /// <param name="yearWeights">How much each year counts.</param>
    /// <param name="table">Where the costs go.</param>
    /// <param name="until">By beginning, the last end that is needed; null for all.</param>
    public SegmentFilling(SeasonCase season, ZoneCase[] zones, double[] yearWeights, SegmentTable table, int[]? until)
    {
        (this.season, this.zones, this.yearWeights, this.table, this.until) = (season, zones, yearWeights, table, until);
        points = season.Days.Count;
        years = [.. Enumerable.Range(0, season.YearCount).Where(y => yearWeights[y] > 0)];
        days = [.. Enumerable.Range(0, season.YearCount).Select(y => (int[])[0, .. season.DayIndex[y], season.YearDays[y]])];
        left = [.. zones.Select(_ => new double[years.Length][])];
    }

    /// <summary>How many zones x years there are to follow.</summary>
    public int ZoneYears => zones.Length * years.Length;

    /// <summary>Water by point of the year; it does not depend on the stores.</summary>
    public void AddWater()
    {
        foreach (ZoneCase zone in zones)
        {
            for (int variant = 0; variant < table.Variants; variant++)
            {
                int own = Math.Min(variant, zone.Variants - 1);
                for (int point = 1; point <= points + 1; point++)
                {
                    double waterDays = years.Sum(y => yearWeights[y] * zone.WaterDays(y, 0, days[y][point], own));
                    for (int percent = 0; percent < table.Percents; percent++)
                    {
                        table.AddWater(point, variant, percent, zone.Zone.AreaM2 * waterDays * zone.DepthMm(own, percent));
                    }
                }
            }
        }
    }

    /// <summary>Follows one zone through one year, under the percent and the variant of each day.</summary>
    public void Follow(int zoneYear, Func<int, int, int> percentAt, Func<int, int, int, int> variantAt)
    {
        ZoneCase zone = zones[zoneYear / years.Length];
        int year = years[zoneYear % years.Length];
        double[] states = new double[(points + 1) * zone.Spots];
        UnitLanes lanes = new();
        lanes.Begin(zone.Spots);
        lanes.Left.AsSpan().Fill(zone.Full);
        for (int from = 0; from <= points; from++)
        {
            int begin = from == 0 ? 0 : days[year][from - 1];
            for (int day = begin; day < days[year][from];)
            {
                int percent = percentAt(year, day), variant = variantAt(zone.Program, year, day), end = day + 1;
                while (end < days[year][from] && percentAt(year, end) == percent && variantAt(zone.Program, year, end) == variant)
                {
                    end++;
                }

                zone.SetWater(lanes, 1, 0, zone.DepthMm(variant, percent));
                zone.Advance(year, day, end, lanes, variant);
                day = end;
            }

            lanes.Left.AsSpan(0, zone.Spots).CopyTo(states.AsSpan(from * zone.Spots));
        }

        left[zoneYear / years.Length][zoneYear % years.Length] = states;
    }

    /// <summary>All stretches with one beginning, over all zones and years in their order.</summary>
    public void Fill(int from, UnitLanes lanes)
    {
        int last = until is null ? points + 1 : until[from];
        if (last < points + 1)
        {
            table.LeaveOut(from, Math.Max(from, last) + 1);
        }

        if (last <= from)
        {
            return;
        }

        int percents = table.Percents;
        Span<double> byPercent = stackalloc double[percents], dry = stackalloc double[points + 2];
        for (int zone = 0; zone < zones.Length; zone++)
        {
            for (int at = 0; at < years.Length; at++)
            {
                double share = yearWeights[years[at]] * zones[zone].Zone.AreaM2;
                int own = Math.Min(table.Variants, zones[zone].Variants);
                for (int variant = 0; variant < own; variant++)
                {
                    if (variant > 0 && zones[zone].IsOff(variant))
                    {
                        AddDry(from, last, variant, dry);
                        continue;
                    }

                    Begin(zones[zone], left[zone][at].AsSpan(from * zones[zone].Spots), lanes, variant);
                    for (int to = from + 1; to <= last; to++)
                    {
                        zones[zone].Advance(years[at], days[years[at]][to - 1], days[years[at]][to], lanes, variant);
                        zones[zone].StressDays(lanes, days[years[at]][to] - days[years[at]][from], byPercent);
                        dry[to] = variant == 0 ? share * byPercent[0] : dry[to];
                        for (int v = variant; v < (own == 1 ? table.Variants : variant + 1); v++)
                        {
                            Add(table.Stress(from, to, v), byPercent, share);
                        }
                    }
                }
            }
        }
    }

    /// <summary>A variant without water costs what percent 0 does.</summary>
    private void AddDry(int from, int last, int variant, ReadOnlySpan<double> dry)
    {
        for (int to = from + 1; to <= last; to++)
        {
            foreach (ref double stress in table.Stress(from, to, variant))
            {
                stress += dry[to];
            }
        }
    }

    private static void Add(Span<double> sums, ReadOnlySpan<double> byPercent, double share)
    {
        for (int percent = 0; percent < sums.Length; percent++)
        {
            sums[percent] += share * byPercent[percent];
        }
    }

    private void Begin(ZoneCase zone, ReadOnlySpan<double> states, UnitLanes lanes, int variant)
    {
        int percents = table.Percents;
        lanes.Begin(zone.Spots * percents);
        for (int spot = 0; spot < zone.Spots; spot++)
        {
            lanes.Left.AsSpan(spot * percents, percents).Fill(states[spot]);
        }

        for (int percent = 0; percent < percents; percent++)
        {
            zone.SetWater(lanes, percents, percent, zone.DepthMm(variant, percent));
        }
    }
}
