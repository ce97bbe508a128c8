using Valvewright.Engine.Balance.Kernel;
using Valvewright.Engine.Needs;

namespace Valvewright.Engine.Season.Search;

/// <summary>Water and stress of a schedule on the full balance, year by year.</summary>
internal static class SeasonReplay
{
    /// <summary>Room that each thread uses again and again.</summary>
    [ThreadStatic]
    private static UnitLanes? own;

    /// <summary>What each year of a controller costs under each of many percent sequences that share their dates.</summary>
    /// <param name="season">The problem.</param>
    /// <param name="controller">Which controller.</param>
    /// <param name="dates">Indexes of possible days.</param>
    /// <param name="sequences">By candidate and visit, percent indexes.</param>
    /// <param name="variants">By program and visit; null where programs stay as they are.</param>
    /// <returns>By candidate and year, L, without what keying costs.</returns>
    public static double[,] Costs(SeasonCase season, int controller, int[] dates, IReadOnlyList<int[]> sequences, int[][]? variants)
    {
        ControllerCase own = season.Controllers[controller];
        KnownReplays.Replay[][] known = [.. own.Zones.Select(z => z.Known.Of(z, dates, sequences, VariantsOf(z, variants)))];
        int[][] missing = [.. known.Select(z => Enumerable.Range(0, z.Length).Where(i => z[i].IsNew).ToArray())];
        int[] zones = [.. Enumerable.Range(0, missing.Length).Where(z => missing[z].Length > 0)];
        void Run(int part)
        {
            int z = zones[part / season.YearCount], year = part % season.YearCount;
            (double[] water, double[] stress) = OfZoneYear(season, own.Zones[z], year, dates, [.. missing[z].Select(i => sequences[i])], VariantsOf(own.Zones[z], variants));
            for (int i = 0; i < water.Length; i++)
            {
                known[z][missing[z][i]].Set(year, water[i], stress[i]);
            }
        }

        Parallel.For(0, zones.Length * season.YearCount, new ParallelOptions { MaxDegreeOfParallelism = Math.Max(1, season.Options.Threads) }, Run);
        double[,] sum = new double[sequences.Count, season.YearCount];
        for (int z = 0; z < known.Length; z++)
        {
            own.Zones[z].Known.Add(missing[z].Select(i => known[z][i]));
            for (int candidate = 0; candidate < sequences.Count; candidate++)
            {
                for (int year = 0; year < season.YearCount; year++)
                {
                    sum[candidate, year] += season.Cost(own.Zones[z], known[z][candidate].WaterMm[year], known[z][candidate].StressDays[year]);
                }
            }
        }

        return sum;
    }

    private static int[]? VariantsOf(ZoneCase zone, int[][]? variants) => zone.Program < 0 ? null : variants?[zone.Program];

    /// <summary>The figure that the aim looks at, of one candidate's years.</summary>
    public static double Aimed(SeasonCase season, Func<int, double> costOfYear)
    {
        double[] years = [.. Enumerable.Range(0, season.YearCount).Select(costOfYear)];
        return season.Options.Aim switch
        {
            SeasonAim.MeanYear => years.Average(),
            SeasonAim.EightYearsInTen => YearRange.Quantile(years, 0.8),
            _ => years.Max(),
        };
    }

    /// <summary>Cost of a whole schedule under the aim, L a year.</summary>
    public static double Cost(SeasonCase season, Schedule schedule) => Cost(season, schedule, [.. Enumerable.Range(0, season.Controllers.Length)]);

    /// <summary>The same of some controllers by themselves.</summary>
    public static double Cost(SeasonCase season, Schedule schedule, int[] controllers)
    {
        double[][,] each = [.. controllers.Select(c => Costs(season, c, schedule.Dates, [schedule.Percents[c]], schedule.Variants?[c]))];
        return Aimed(season, year => each.Sum(c => c[0, year])) + season.KeysCost(schedule, controllers);
    }

    /// <summary>Water, mm, and stress days of a zone in a year, by candidate; its program's variants by visit, null where it stays as it is.</summary>
    public static (double[] WaterMm, double[] StressDays) OfZoneYear(
        SeasonCase season, ZoneCase zone, int year, int[] dates, IReadOnlyList<int[]> sequences, int[]? variants)
    {
        int count = sequences.Count;
        UnitLanes lanes = own ??= new UnitLanes();
        lanes.Begin(zone.Spots * count);
        lanes.Left.AsSpan(0, zone.Spots * count).Fill(zone.Full);
        double[] water = new double[count], stress = new double[count];
        int from = 0;
        for (int stretch = 0; stretch <= dates.Length; stretch++)
        {
            int to = stretch < dates.Length ? season.DayIndex[year][dates[stretch]] : season.YearDays[year];
            int visit = stretch == 0 ? dates.Length - 1 : stretch - 1;
            int variant = variants?[visit] ?? 0;
            double waterDays = zone.WaterDays(year, from, to, variant);
            for (int candidate = 0; candidate < count; candidate++)
            {
                double depth = zone.DepthMm(variant, sequences[candidate][visit]);
                zone.SetWater(lanes, count, candidate, depth);
                water[candidate] += waterDays * depth;
            }

            zone.Advance(year, from, to, lanes, variant);
            from = to;
        }

        zone.StressDays(lanes, season.YearDays[year], stress);
        return (water, stress);
    }
}
