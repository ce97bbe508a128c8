using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;

namespace Valvewright.Engine.Season.Search;

/// <summary>
/// What each percent of a controller costs between any two possible days, in the weighted mean of the years, L.
/// </summary>
/// <remarks>
/// The depletion at the beginning of a stretch depends on everything before it. Two ways to settle it make two tables. From the state
/// under the largest percent all year (<see cref="Wettest"/>) no stretch costs less than the table says, whatever came before, because
/// a wetter beginning never makes a later day drier: summed up, that is a bound. From the state under a given schedule
/// (<see cref="Under"/>) the sums are what that schedule's neighbours nearly cost.
/// </remarks>
internal sealed class SegmentCosts
{
    private readonly double[,,] water, stress;
    private readonly int end;
    private readonly double stressWeightMm;

    private SegmentCosts(int points, int percents, double stressWeightMm)
    {
        end = points;
        this.stressWeightMm = stressWeightMm;
        water = new double[points + 2, points + 2, percents];
        stress = new double[points + 2, points + 2, percents];
        Percents = percents;
    }

    private SegmentCosts(SegmentCosts same, double stressWeightMm)
    {
        (end, Percents, water, stress) = (same.end, same.Percents, same.water, same.stress);
        this.stressWeightMm = stressWeightMm;
    }

    /// <summary>How many percents there are.</summary>
    public int Percents { get; }

    /// <summary>Between two possible days.</summary>
    public double Between(int from, int to, int percent) => Cost(from + 1, to + 1, percent);

    /// <summary>From the last visit over the year's end to the first.</summary>
    public double OverNewYear(int last, int first, int percent) => Cost(last + 1, end + 1, percent) + Cost(0, first + 1, percent);

    /// <summary>The same table at another exchange rate; water and stress are kept apart, so nothing is replayed.</summary>
    public SegmentCosts At(double rateMm) => new(this, rateMm);

    private double Cost(int from, int to, int percent) => water[from, to, percent] + stressWeightMm * stress[from, to, percent];

    /// <summary>Costs from the wettest state that any schedule can have on each day: never more than the true cost.</summary>
    public static SegmentCosts Wettest(SeasonCase season, int controller, double[] yearWeights) =>
        Make(season, controller, yearWeights, (_, _) => season.Controllers[controller].Percents.Length - 1);

    /// <summary>Costs from the state that a schedule has on each day.</summary>
    public static SegmentCosts Under(SeasonCase season, int controller, double[] yearWeights, Schedule schedule)
    {
        int[] percents = schedule.Percents[controller];
        int At(int year, int day)
        {
            int visit = percents.Length - 1;
            for (int v = 0; v < schedule.Dates.Length && season.DayIndex[year][schedule.Dates[v]] <= day; v++)
            {
                visit = v;
            }

            return percents[visit];
        }

        return Make(season, controller, yearWeights, At);
    }

    private static SegmentCosts Make(SeasonCase season, int controller, double[] yearWeights, Func<int, int, int> percentAt)
    {
        ControllerCase own = season.Controllers[controller];
        SegmentCosts costs = new(season.Days.Count, own.Percents.Length, season.Options.StressWeightMm);
        SegmentCosts?[] parts = new SegmentCosts?[own.Zones.Length * season.YearCount];
        Parallel.For(0, parts.Length, new ParallelOptions { MaxDegreeOfParallelism = Math.Max(1, season.Options.Threads) }, part =>
        {
            int zone = part / season.YearCount, year = part % season.YearCount;
            if (yearWeights[year] > 0)
            {
                parts[part] = OfZoneYear(season, own.Zones[zone], year, own.Percents.Length, day => percentAt(year, day));
            }
        });

        // Summed in one order, whatever order the threads finished in.
        for (int part = 0; part < parts.Length; part++)
        {
            costs.Add(parts[part], yearWeights[part % season.YearCount]);
        }

        return costs;
    }

    private void Add(SegmentCosts? part, double weight)
    {
        if (part is null)
        {
            return;
        }

        for (int from = 0; from <= end; from++)
        {
            for (int to = from + 1; to <= end + 1; to++)
            {
                for (int percent = 0; percent < Percents; percent++)
                {
                    water[from, to, percent] += weight * part.water[from, to, percent];
                    stress[from, to, percent] += weight * part.stress[from, to, percent];
                }
            }
        }
    }

    private static SegmentCosts OfZoneYear(SeasonCase season, ZoneCase zone, int year, int percents, Func<int, int> percentAt)
    {
        int points = season.Days.Count;
        SegmentCosts costs = new(points, percents, 0);
        double area = zone.Zone.AreaM2;
        int[] day = [0, .. season.DayIndex[year], season.YearDays[year]];
        BalanceLanes before = zone.LanesFor(1), lanes = zone.LanesFor(percents);
        for (int percent = 0; percent < percents; percent++)
        {
            zone.SetWater(lanes, percents, percent, zone.DepthMm[percent]);
        }

        for (int from = 0; from <= points; from++)
        {
            if (from > 0)
            {
                Follow(zone, year, day[from - 1], day[from], before, percentAt);
            }

            Begin(zone, before, lanes, percents);
            double waterDays = 0;
            for (int to = from + 1; to <= points + 1; to++)
            {
                zone.Advance(year, day[to - 1], day[to], lanes);
                waterDays += zone.WaterDays(year, day[to - 1], day[to]);
                for (int percent = 0; percent < percents; percent++)
                {
                    costs.water[from, to, percent] = area * waterDays * zone.DepthMm[percent];
                    costs.stress[from, to, percent] = area * zone.StressDays(lanes, percents, percent);
                }
            }
        }

        return costs;
    }

    /// <summary>Moves the state before the stretches on, under the percent of each day.</summary>
    private static void Follow(ZoneCase zone, int year, int from, int to, BalanceLanes before, Func<int, int> percentAt)
    {
        for (int day = from; day < to;)
        {
            int percent = percentAt(day), until = day + 1;
            while (until < to && percentAt(until) == percent)
            {
                until++;
            }

            zone.SetWater(before, 1, 0, zone.DepthMm[percent]);
            zone.Advance(year, day, until, before);
            day = until;
        }
    }

    private static void Begin(ZoneCase zone, BalanceLanes before, BalanceLanes lanes, int percents)
    {
        lanes.Reset();
        for (int spot = 0; spot < zone.Spots; spot++)
        {
            lanes.DepletionMm.AsSpan(spot * percents, percents).Fill(before.DepletionMm[spot]);
        }
    }
}
