using System.Diagnostics;
using System.Globalization;
using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Ground;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Season;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using KeyedProgram = Valvewright.Engine.Controllers.Program;
using Valvewright.Tests;

namespace Valvewright.Bench;

/// <summary>
/// Four visits a year against common practice, on years that the season was not chosen with: three plantings on every series.
/// </summary>
/// <remarks>
/// The table of twelve visits sets on the first of every month the percent in proportion to the month's mean ETo over the years known, from run times that replace
/// the peak month's use with the multiplier of the low quarter, to the nearest percent that can be set, on the season's own water days. Beside it the same as commonly
/// keyed in (<see cref="CommonPractice"/>), switched off when the season is.
/// </remarks>
internal static class SeasonBenchmark
{
    private const string Usage = "season [--visits N] [--stress-weight MM] [--most-stress DAYS] [--near-bound] [--program-changes] [--hindsight] [--only NAME] [FILE --place LAT,LON,ELEVATION [--wind-height M] [--humid]]";

    public static int Run(string[] args)
    {
        int visits = 4;
        double weight = SeasonOptions.UsualStressWeightMm;
        List<SeasonSeries> series = [];
        string? file = null;
        Place? place = null;
        double windHeight = 2;
        Summer summer = Summer.Dry;
        bool nearBound = false;
        double mostStress = 1.9;
        bool changes = false, hindsight = false;
        string only = "";
        for (int i = 0; i < args.Length; i++)
        {
            string Value() => ++i < args.Length ? args[i] : throw new ArgumentException($"{args[i - 1]} needs a value: {Usage}");
            switch (args[i])
            {
                case "--visits": visits = int.Parse(Value()); break;
                case "--stress-weight": weight = double.Parse(Value(), CultureInfo.InvariantCulture); break;
                case "--place": double[] p = [.. Value().Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture))]; place = new Place(p[0], p[1], p[2]); break;
                case "--wind-height": windHeight = double.Parse(Value(), CultureInfo.InvariantCulture); break;
                case "--most-stress": mostStress = double.Parse(Value(), CultureInfo.InvariantCulture); break;
                case "--near-bound": nearBound = true; break;
                case "--program-changes": changes = true; break;
                case "--hindsight": hindsight = true; break;
                case "--only": only = Value(); break;
                case "--humid": summer = Summer.Humid; break;
                default: file = args[i]; break;
            }
        }

        string folder = Path.Combine(Checkout.Root, "reference", "weather");
        if (file is not null)
        {
            series.Add(new SeasonSeries(Path.GetFullPath(file), place ?? throw new ArgumentException($"A file needs its place: {Usage}"), windHeight, summer));
        }
        else
        {
            series.AddRange(SeasonSeries.All);
        }

        Console.WriteLine($"{visits} visits a year; figures are of years not seen: m3 and stress days a year, for 100 m2");
        Console.WriteLine("                           every        |  12 visits, |  12 visits, | as many visits, least stress with   | in years known: stress  |  stress within the goal;");
        Console.WriteLine("                            n           |  same days  |  commonly   | the table's water, or 15 % less     | table   season   bound  |  known: ratio's bound, ratio");
        Console.WriteLine("series      planting     d  years   least |water stress |water stress |water stress  saved            |                         |water ratio stress   bound  found       s");
        foreach (SeasonSeries one in series.Where(s => s.ShortName.Contains(only, StringComparison.Ordinal)))
        {
            BuiltClimate built = one.Read(folder);
            YearSplit split = built.Split(one.Place.LatitudeDeg);
            Climate[] training = [.. split.Training.Select(y => y.Of(built.Climate))], heldBack = [.. split.HeldBack.Select(y => y.Of(built.Climate))];
            SeasonOptions options = new() { Visits = visits, StressWeightMm = weight, NearBound = nearBound, ProgramChanges = changes };
            Outcome[] rows = [.. ((string[])["lawn", "shrubs", "lawn on sand"]).Select(p => Row(one, p, training, heldBack, options, mostStress))];
            Verdict(one, rows);
            if (hindsight)
            {
                Hindsight(one, rows, heldBack, options);
            }
        }

        return 0;
    }

    /// <summary>What a row comes to, on years not seen; and what the years known say can be had.</summary>
    private sealed record Outcome(string Planting, Plan Program, Practice Table, Practice Season, Practice Calm, double KnownStress, double BoundStress, double BoundRatio);

    /// <summary>
    /// Two seasons. One has the water of the monthly table, less what is asked (nothing where summers are dry, 15 % where they are humid), and the least stress that can
    /// be had with it: water is the same every year, so that chance has its say in the stress alone. The other keeps to the stress that the goal allows, meant for years not seen, as
    /// far as the years known can tell. Both beside tables of twelve visits, on the same water days all year, and as commonly keyed in.
    /// </summary>
    private static Outcome Row(SeasonSeries series, string planting, Climate[] training, Climate[] heldBack, SeasonOptions options, double mostStress)
    {
        Site site = SiteOf(series, planting);
        Stopwatch watch = Stopwatch.StartNew();
        Climate[] some = [.. training.Where((_, y) => y % 2 == 0)];
        Plan program = IntervalsOf(site, training).MinBy(p => SeasonPlanner.Curve(site, p, some, options with { NearBound = false, ProgramChanges = false }, [options.Visits])[0].CostLitres)!;
        Plan table = MonthlyTable(site, program, training);
        Practice known = Fares(site, table, training, training);
        int days = ((EveryNDays)program.Controllers[0].Settings.Programs[0].Days!).Days;
        double kept = days == 1 ? 0 : OtherDays;
        SeasonPlan matched = SeasonPlanner.Of(site, program, training, options with { MostWaterM3 = (1 - Wanted(series) - kept) * known.CubicMetresPerYear });
        SeasonPlan calm = SeasonPlanner.Of(site, program, training, options with { MostStressDays = mostStress, StressOfUnseenYears = true });
        double seconds = watch.Elapsed.TotalSeconds;
        Practice seen = Fares(site, table, heldBack, training), common = Fares(site, CommonPractice.MonthlyPercent(site, matched.ApplyTo(program), training), heldBack, training);
        Practice ours = Fares(site, matched.ApplyTo(program), heldBack, training), calmSeen = Fares(site, calm.ApplyTo(program), heldBack, training);
        double boundStress = matched.LeastStressDaysWithinWater!.Value, boundRatio = Math.Max(0, calm.LeastWithinStressM3!.Value / calm.LeastM3);
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{series.ShortName,-12}{planting,-13}{days,2}{training.Length,4}/{heldBack.Length,-2}{ours.LeastCubicMetresPerYear,6:0.0} |{seen.CubicMetresPerYear,6:0.0}{seen.StressDays,6:0.00} |{common.CubicMetresPerYear,6:0.0}{common.StressDays,6:0.00} |{ours.CubicMetresPerYear,6:0.0}{ours.StressDays,6:0.00}{1 - (ours.CubicMetresPerYear / seen.CubicMetresPerYear),7:0.0%}            |{known.StressDays,6:0.00}{matched.StressDays,9:0.00}{boundStress,8:0.00}  |{calmSeen.CubicMetresPerYear,6:0.0}{calmSeen.WaterRatio,6:0.00}{calmSeen.StressDays,6:0.00}{boundRatio,8:0.00}{calm.WaterRatio,7:0.00}{seconds,8:0}"));
        if (options.NearBound || options.ProgramChanges)
        {
            Console.WriteLine($"    {string.Join(", ", matched.Dates.Select((d, v) => $"{d.Day}.{d.Month}: {matched.Controllers[0].Percents[v]} %"))}; {matched.KeyedSettings} settings beside");
        }

        return new Outcome(planting, program, seen, ours, calmSeen, known.StressDays, boundStress, boundRatio);
    }

    /// <summary>Part of the water that is kept where not every day is a water day: in other years they fall otherwise.</summary>
    private const double OtherDays = 0.005;

    /// <summary>How much less water than the table's is asked for.</summary>
    private static double Wanted(SeasonSeries series) => series.Summer == Summer.Dry ? 0 : 0.15;

    /// <summary>What is asked of a series, planting by planting, and all three together.</summary>
    private static void Verdict(SeasonSeries series, Outcome[] rows)
    {
        double wanted = Wanted(series), ratio = series.Summer == Summer.Dry ? 1.20 : 1.35;
        foreach (Outcome row in rows)
        {
            bool met = UsesAsLittle(row.Season.CubicMetresPerYear, row.Table.CubicMetresPerYear, wanted) && row.Season.StressDays <= row.Table.StressDays + Hundredth;
            string reach = !met && row.BoundStress > row.KnownStress ? "; out of reach of any four such visits in the years known" : "";
            string goal = row.Calm.WaterRatio <= ratio && row.Calm.StressDays < 2 ? "met" : row.BoundRatio > ratio ? "out of reach" : "missed";
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"    {row.Planting}: {wanted:0%} less water and no more stress: {(met ? "met" : "missed")}{reach}; goal {ratio:0.00}: {goal}"));
        }

        double table = rows.Sum(r => r.Table.CubicMetresPerYear), season = rows.Sum(r => r.Season.CubicMetresPerYear);
        double tableStress = rows.Average(r => r.Table.StressDays), seasonStress = rows.Average(r => r.Season.StressDays);
        bool together = UsesAsLittle(season, table, wanted) && seasonStress <= tableStress + Hundredth;
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"    all three: {season:0.0} m3 in place of {table:0.0}, {1 - (season / table):0.0%} less; stress {seasonStress:0.00} in place of {tableStress:0.00}: {(together ? "met" : "missed")}"));
    }

    /// <summary>
    /// What somebody could do who knew the years held back: the least stress of any such season within the water that was asked for, in those very years, by the bound and as found.
    /// Where the bound lies above the table's stress, no way of choosing from other years can be expected to meet it.
    /// </summary>
    private static void Hindsight(SeasonSeries series, Outcome[] rows, Climate[] heldBack, SeasonOptions options)
    {
        double table = 0, bound = 0, found = 0;
        foreach (Outcome row in rows)
        {
            Site site = SiteOf(series, row.Planting);
            SeasonPlan known = SeasonPlanner.Of(site, row.Program, heldBack, options with { MostWaterM3 = (1 - Wanted(series)) * row.Table.CubicMetresPerYear });
            Practice fares = Fares(site, known.ApplyTo(row.Program), heldBack, heldBack);
            table += row.Table.StressDays / rows.Length;
            bound += known.LeastStressDaysWithinWater!.Value / rows.Length;
            found += fares.StressDays / rows.Length;
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"    {row.Planting}, had the years held back been known: stress {known.LeastStressDaysWithinWater.Value:0.00} at least, {fares.StressDays:0.00} found with {fares.CubicMetresPerYear:0.0} m3; the table {row.Table.StressDays:0.00}, the season chosen without them {row.Season.StressDays:0.00}"));
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"    all three, had they been known: {bound:0.00} at least, {found:0.00} found; the table {table:0.00}"));
    }

    /// <summary>Stress is told to a hundredth of a day; less is none.</summary>
    private const double Hundredth = 0.005;

    private static bool UsesAsLittle(double season, double table, double wanted) => season <= (1 - wanted) * table * (1 + 1e-3);

    private static Practice Fares(Site site, Plan plan, Climate[] years, Climate[] known) =>
        Proofs.Replay(site, plan, years, new ProofOptions(new LocalDate(2026, 1, 1), known)).Comparison[0];

    /// <summary>Twelve visits, percent in proportion to mean ETo, on the program's own water days, all year: common practice.</summary>
    private static Plan MonthlyTable(Site site, Plan program, Climate[] training)
    {
        SiteController controller = site.Controllers[0];
        Zone zone = controller.Zones[0];
        double[] eto = CommonPractice.MeanEtoByMonth(training);
        int peak = CommonPractice.PeakMonth(site), days = ((EveryNDays)program.Controllers[0].Settings.Programs[0].Days!).Days;
        double wantedMm = zone.Planting.CoefficientIn(peak) * eto[peak - 1] * days * LowQuarter.RunTimeMultiplier(LowQuarter.UniformityOf(zone.Emission.Spots));
        KeyedProgram keyed = program.Controllers[0].Settings.Programs[0];
        double fullMm = keyed.RunTimes[0].Seconds * keyed.StartTimes.Count / 3600.0 * zone.Emission.PrecipitationRateMmPerHour;
        int[] percents = [.. controller.Profile.Percent.Settings()];
        return program with
        {
            Controllers = [program.Controllers[0] with { Visits = Enumerable.Range(1, 12).Select(m => new Visit(new AnnualDate(m, 1), percents.MinBy(p => Math.Abs(p - (100 * wantedMm / fullMm * eto[m - 1] / eto[peak - 1]))))).ToListOf() }],
        };
    }

    /// <summary>Programs of every interval that the root zone may bear: which is best is part of the season's work.</summary>
    private static IEnumerable<Plan> IntervalsOf(Site site, Climate[] training)
    {
        Zone zone = site.Controllers[0].Zones[0];
        RootZone root = RootZone.Of(zone);
        double peakMm = training.Average(y => Enumerable.Range(0, y.Days).Max(d => zone.Planting.CoefficientIn(y.DateOf(d).Month) * y.EtoMm[d]));
        int longest = (int)Math.Clamp(Math.Floor(1.5 * root.ReadilyMm / peakMm), 1, 14);
        return Enumerable.Range(1, longest).Where(d => d <= 4 || d % 2 == 0).Select(d => PlanOf(site, d, peakMm));
    }

    private static Site SiteOf(SeasonSeries series, string planting)
    {
        bool drip = planting == "shrubs";
        PlantKind kind = PlantKinds.Named(drip ? "shrubs" : "cool-season turf")!;
        double rate = drip ? 8 : 12;
        ListOf<double> coefficient = drip ? LandscapeCoefficient.AllYear(0.5) : LandscapeCoefficient.TurfByMonth(TurfSeason.Cool);
        Soil soil = SoilTextures.At(planting == "lawn on sand" ? "loamy sand" : "loam", 2);
        Zone zone = new()
        {
            Name = planting,
            Station = 1,
            AreaM2 = 100,
            Planting = new Planting(planting, PlantStage.Established, coefficient, kind.RootDepthM, kind.AllowedDepletion),
            Soil = soil,
            SlopePercent = 2,
            Emission = new Emission(drip ? EmissionKind.Drip : EmissionKind.Rotor, rate, rate * 100 / 60, FittedSpots.Of(drip ? 0.85 : 0.70)),
        };
        Profile profile = new()
        {
            Name = "1 station, 1 program",
            Stations = 1,
            Programs = 1,
            StartTimesPerProgram = 8,
            RunTimeStepSeconds = 60,
            DayRules = [DayRuleKind.Interval],
            LargestIntervalDays = 14,
            Percent = new PercentRange(5, 100, 5),
            ClockKnowsDaylightSaving = true,
        };
        return new Site
        {
            Name = series.File,
            Place = series.Place,
            TimeZone = "UTC",
            Supplies = [new WaterSupply("tap", 1000, double.NaN, PermittedTimes.Always)],
            Controllers = [new SiteController { Name = "only", Profile = profile, Supply = "tap", Zones = [zone] }],
        };
    }

    /// <summary>Every so many days, run times for the day that asks most, in starts of at most two hours: steps of percents are then as fine as they can be.</summary>
    private static Plan PlanOf(Site site, int days, double peakMm)
    {
        Zone zone = site.Controllers[0].Zones[0];
        double grossMm = days * peakMm * LowQuarter.RunTimeMultiplier(LowQuarter.UniformityOf(zone.Emission.Spots));
        int seconds = (int)Math.Ceiling(grossMm / zone.Emission.PrecipitationRateMmPerHour * 60) * 60;
        int starts = 1 + seconds / 7200;
        Settings settings = new(
        [
            new KeyedProgram('A', Enumerable.Range(0, starts).Select(s => new LocalTime(1, 0).PlusHours(2 * s)).ToListOf(), [new RunTime(1, seconds / starts / 60 * 60)], new EveryNDays(days, new LocalDate(2000, 1, 1))),
        ]);
        return new Plan(site.Name, [new ControllerPlan("only", settings, [])]);
    }
}
