using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;

namespace Valvewright.Engine.Season.Search;

/// <summary>
/// What each percent of a controller, and each variant of its programs, costs between any two possible days, in the weighted mean of the years, L.
/// </summary>
/// <remarks>
/// The depletion at the beginning of a stretch depends on everything before it. Two ways to settle it make two tables. From the state
/// under the largest percent all year (<see cref="Wettest"/>) no stretch costs less than the table says, whatever came before, because
/// a wetter beginning never makes a later day drier: summed up, that is a bound. From the state under a given schedule
/// (<see cref="Under"/>) the sums are what that schedule's neighbours nearly cost. Programs do not touch each other, so their costs add up.
/// </remarks>
internal sealed class SegmentCosts
{
    private readonly ControllerCase own;
    private readonly Table[] programs;
    private readonly int end;
    private readonly double stressWeightMm;

    private SegmentCosts(ControllerCase own, int points, Table[] programs, double stressWeightMm) =>
        (this.own, end, this.programs, this.stressWeightMm) = (own, points, programs, stressWeightMm);

    /// <summary>How many percents there are.</summary>
    public int Percents => own.Percents.Length;

    /// <summary>Programs that are told apart: 1 where visits set the percent alone.</summary>
    public int Programs => programs.Length;

    /// <summary>Variants of a program that are told apart.</summary>
    public int Variants(int program) => programs[program].Variants;

    /// <summary>Between two possible days, with the variant of each program that costs least.</summary>
    public double Between(int from, int to, int percent) => Least(from + 1, to + 1, percent);

    /// <summary>From the last visit over the year's end to the first, with the variant of each program that costs least.</summary>
    public double OverNewYear(int last, int first, int percent)
    {
        double sum = 0;
        foreach (Table table in programs)
        {
            double least = double.PositiveInfinity;
            for (int variant = 0; variant < table.Variants; variant++)
            {
                least = Math.Min(least, table.Cost(last + 1, end + 1, variant, percent, stressWeightMm) + table.Cost(0, first + 1, variant, percent, stressWeightMm));
            }

            sum += least;
        }

        return sum;
    }

    /// <summary>A visit's stretch under one variant of one program.</summary>
    public double Of(int program, int[] dates, int visit, int variant, int percent) => visit + 1 < dates.Length
        ? programs[program].Cost(dates[visit] + 1, dates[visit + 1] + 1, variant, percent, stressWeightMm)
        : programs[program].Cost(dates[visit] + 1, end + 1, variant, percent, stressWeightMm) + programs[program].Cost(0, dates[0] + 1, variant, percent, stressWeightMm);

    /// <summary>The same table at another exchange rate; water and stress are kept apart, so nothing is replayed.</summary>
    public SegmentCosts At(double rateMm) => new(own, end, programs, rateMm);

    /// <summary>The part of the table in which programs stay as they are.</summary>
    public SegmentCosts OfPercentsAlone() => new(own, end, [.. programs.Select(p => p.First())], stressWeightMm);

    private double Least(int from, int to, int percent)
    {
        double sum = 0;
        foreach (Table table in programs)
        {
            double least = table.Cost(from, to, 0, percent, stressWeightMm);
            for (int variant = 1; variant < table.Variants; variant++)
            {
                least = Math.Min(least, table.Cost(from, to, variant, percent, stressWeightMm));
            }

            sum += least;
        }

        return sum;
    }

    /// <summary>
    /// Costs from the wettest state that any schedule can have on each day: never more than the true cost. Variants of a program only take water days
    /// away, so the wettest has none of them.
    /// </summary>
    public static SegmentCosts Wettest(SeasonCase season, int controller, double[] yearWeights) =>
        Make(season, controller, yearWeights, (_, _) => season.Controllers[controller].Percents.Length - 1, (_, _, _) => 0, season.Controllers[controller].HasVariants);

    /// <summary>Costs from the state that a schedule has on each day.</summary>
    public static SegmentCosts Under(SeasonCase season, int controller, double[] yearWeights, Schedule schedule, bool withVariants)
    {
        int VisitAt(int year, int day)
        {
            int visit = schedule.Dates.Length - 1;
            for (int v = 0; v < schedule.Dates.Length && season.DayIndex[year][schedule.Dates[v]] <= day; v++)
            {
                visit = v;
            }

            return visit;
        }

        return Make(
            season, controller, yearWeights,
            (year, day) => schedule.Percents[controller][VisitAt(year, day)],
            (program, year, day) => program < 0 ? 0 : schedule.VariantsOf(controller, program)?[VisitAt(year, day)] ?? 0,
            withVariants);
    }

    private static SegmentCosts Make(SeasonCase season, int controller, double[] yearWeights, Func<int, int, int> percentAt, Func<int, int, int, int> variantAt, bool withVariants)
    {
        ControllerCase own = season.Controllers[controller];
        int points = season.Days.Count;
        Table[] programs = withVariants
            ? [.. own.Programs.Select(p => new Table(points, p.Variants.Length, own.Percents.Length))]
            : [new Table(points, 1, own.Percents.Length)];
        Table?[] parts = new Table?[season.YearCount];
        foreach (ZoneCase zone in own.Zones)
        {
            if (withVariants && zone.Program < 0)
            {
                // No program waters it: its stress is the same whatever visits do, and counts with the first.
                if (programs.Length == 0)
                {
                    programs = [new Table(points, 1, own.Percents.Length)];
                }
            }

            int program = withVariants ? Math.Max(0, zone.Program) : 0, variants = Math.Min(programs[program].Variants, zone.Variants);
            Parallel.For(0, parts.Length, new ParallelOptions { MaxDegreeOfParallelism = Math.Max(1, season.Options.Threads) }, year => parts[year] = yearWeights[year] > 0
                ? OfZoneYear(season, zone, year, own.Percents.Length, variants, day => percentAt(year, day), day => variantAt(zone.Program, year, day))
                : null);

            // Summed in one order, whatever order the threads finished in.
            for (int year = 0; year < parts.Length; year++)
            {
                programs[program].Add(parts[year], yearWeights[year]);
            }
        }

        return new SegmentCosts(own, points, programs, season.Options.StressWeightMm);
    }

    private static Table OfZoneYear(SeasonCase season, ZoneCase zone, int year, int percents, int variants, Func<int, int> percentAt, Func<int, int> variantAt)
    {
        int points = season.Days.Count;
        Table costs = new(points, variants, percents);
        double area = zone.Zone.AreaM2;
        int[] day = [0, .. season.DayIndex[year], season.YearDays[year]];
        BalanceLanes before = zone.LanesFor(1), lanes = zone.LanesFor(percents);
        for (int from = 0; from <= points; from++)
        {
            if (from > 0)
            {
                Follow(zone, year, day[from - 1], day[from], before, percentAt, variantAt);
            }

            for (int variant = 0; variant < variants; variant++)
            {
                if (variant > 0 && zone.IsOff(variant))
                {
                    costs.CopyOff(from, variant);
                    continue;
                }

                Begin(zone, before, lanes, percents);
                for (int percent = 0; percent < percents; percent++)
                {
                    zone.SetWater(lanes, percents, percent, zone.DepthMm(variant, percent));
                }

                double waterDays = 0;
                for (int to = from + 1; to <= points + 1; to++)
                {
                    zone.Advance(year, day[to - 1], day[to], lanes, variant);
                    waterDays += zone.WaterDays(year, day[to - 1], day[to], variant);
                    for (int percent = 0; percent < percents; percent++)
                    {
                        costs.Set(from, to, variant, percent, area * waterDays * zone.DepthMm(variant, percent), area * zone.StressDays(lanes, percents, percent));
                    }
                }
            }
        }

        return costs;
    }

    /// <summary>Moves the state before the stretches on, under the percent and the variant of each day.</summary>
    private static void Follow(ZoneCase zone, int year, int from, int to, BalanceLanes before, Func<int, int> percentAt, Func<int, int> variantAt)
    {
        for (int day = from; day < to;)
        {
            int percent = percentAt(day), variant = variantAt(day), until = day + 1;
            while (until < to && percentAt(until) == percent && variantAt(until) == variant)
            {
                until++;
            }

            zone.SetWater(before, 1, 0, zone.DepthMm(variant, percent));
            zone.Advance(year, day, until, before, variant);
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

    /// <summary>Water and stress by beginning, end, variant and percent.</summary>
    private sealed class Table
    {
        private readonly double[] water, stress;
        private readonly int width, ends, percents;

        public Table(int points, int variants, int percents)
        {
            (Variants, this.percents, width, ends) = (variants, percents, variants * percents, points + 2);
            water = new double[ends * ends * width];
            stress = new double[ends * ends * width];
        }

        private Table(Table same) => (Variants, percents, width, ends, water, stress) = (1, same.percents, same.width, same.ends, same.water, same.stress);

        public int Variants { get; }

        /// <summary>The same with the first variant alone.</summary>
        public Table First() => new(this);

        public double Cost(int from, int to, int variant, int percent, double stressWeightMm)
        {
            int at = At(from, to, variant, percent);
            return water[at] + (stressWeightMm * stress[at]);
        }

        public void Set(int from, int to, int variant, int percent, double waterLitres, double stressLitres)
        {
            int at = At(from, to, variant, percent);
            (water[at], stress[at]) = (waterLitres, stressLitres);
        }

        /// <summary>A variant without water costs what percent 0 does.</summary>
        public void CopyOff(int from, int variant)
        {
            for (int to = from + 1; to < ends; to++)
            {
                int off = At(from, to, 0, 0);
                Array.Fill(water, water[off], At(from, to, variant, 0), percents);
                Array.Fill(stress, stress[off], At(from, to, variant, 0), percents);
            }
        }

        /// <summary>Adds a zone's year; a zone with fewer variants is the same under all of them.</summary>
        public void Add(Table? part, double weight)
        {
            if (part is null)
            {
                return;
            }

            for (int pair = 0; pair < ends * ends; pair++)
            {
                for (int variant = 0; variant < Variants; variant++)
                {
                    int to = (pair * width) + (variant * percents), from = (pair * part.width) + (Math.Min(variant, part.Variants - 1) * percents);
                    for (int percent = 0; percent < percents; percent++)
                    {
                        water[to + percent] += weight * part.water[from + percent];
                        stress[to + percent] += weight * part.stress[from + percent];
                    }
                }
            }
        }

        private int At(int from, int to, int variant, int percent) => ((((from * ends) + to) * width) + (variant * percents)) + percent;
    }
}
