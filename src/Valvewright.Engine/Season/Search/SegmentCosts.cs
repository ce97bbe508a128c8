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
    private readonly SegmentTable[] programs;
    private readonly int end;
    private readonly double stressWeightMm;

    private SegmentCosts(ControllerCase own, int points, SegmentTable[] programs, double stressWeightMm) =>
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
        foreach (SegmentTable table in programs)
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
        foreach (SegmentTable table in programs)
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
        Make(season, controller, yearWeights, (_, _) => season.Controllers[controller].Percents.Length - 1, (_, _, _) => 0, season.Controllers[controller].HasVariants, null);

    /// <summary>Costs from the state that a schedule has on each day.</summary>
    /// <param name="season">The problem.</param>
    /// <param name="controller">Which controller.</param>
    /// <param name="yearWeights">How much each year counts.</param>
    /// <param name="schedule">The schedule.</param>
    /// <param name="withVariants">Whether variants of programs are told apart.</param>
    /// <param name="until">
    /// The stretches that are needed, where not all are: by their beginning (0 the year's, then the possible days), the last end that is (counted alike), -1 for none. All
    /// others cost infinitely much.
    /// </param>
    public static SegmentCosts Under(SeasonCase season, int controller, double[] yearWeights, Schedule schedule, bool withVariants, int[]? until = null)
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
            withVariants, until);
    }

    private static SegmentCosts Make(
        SeasonCase season, int controller, double[] yearWeights, Func<int, int, int> percentAt, Func<int, int, int, int> variantAt, bool withVariants, int[]? until)
    {
        ControllerCase own = season.Controllers[controller];
        int points = season.Days.Count;

        // No program waters some zones: their stress is the same whatever visits do, and counts with the first program.
        ZoneCase[][] zones = withVariants && own.Programs.Length > 0
            ? [.. own.Programs.Select((_, p) => own.Zones.Where(z => Math.Max(0, z.Program) == p).ToArray())]
            : [own.Zones];
        SegmentTable[] tables = [.. zones.Select((_, p) => new SegmentTable(points, withVariants && own.Programs.Length > 0 ? own.Programs[p].Variants.Length : 1, own.Percents.Length))];
        ParallelOptions threads = new() { MaxDegreeOfParallelism = Math.Max(1, season.Options.Threads) };
        SegmentFilling[] fillings = [.. zones.Select((z, p) => new SegmentFilling(season, z, yearWeights, tables[p], until))];
        foreach (SegmentFilling filling in fillings)
        {
            filling.AddWater();
            Parallel.For(0, filling.ZoneYears, threads, at => filling.Follow(at, percentAt, variantAt));
        }

        // Stretches with one beginning are one thread's, which sums zones and years in their order: threads change nothing.
        Parallel.For(
            0, (points + 1) * fillings.Length, threads, () => new UnitLanes(), (at, _, lanes) =>
            {
                fillings[at % fillings.Length].Fill(at / fillings.Length, lanes);
                return lanes;
            },
            _ => { });
        return new SegmentCosts(own, points, tables, season.Options.StressWeightMm);
    }
}
