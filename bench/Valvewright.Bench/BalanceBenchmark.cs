using System.Globalization;
using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Balance.Kernel;
using Valvewright.Engine.Ground;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Bench;

/// <summary>
/// The root-zone balance of one zone: spots x candidate depths x years of days. C is measured as one writes it and as one shapes it for
/// the vectoriser; then the engine on one core, on all cores, and through the call that planners use.
/// </summary>
internal static unsafe class BalanceBenchmark
{
    private const int Spots = 16;
    private const int Candidates = 128;
    private const int Years = 16;
    private const int DaysOfYear = 365;

    /// <summary>Runs the benchmark. The first argument may say how many rounds.</summary>
    public static int Run(string[] arguments)
    {
        int rounds = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 21;
        Zone zone = ZoneWithSpots();
        Climate[] years = [.. Enumerable.Range(0, Years).Select(RandomYear)];
        CandidateReplay replay = new(zone, years);
        WaterDays days = replay.WaterDays(date => date.DayOfYear % 3 == 0 ? 1 : 0);
        double[] grossMm = [.. Enumerable.Range(0, Candidates).Select(c => 4 + 20.0 * c / Candidates)];
        CandidateOutcomes one = replay.RoomFor(Candidates), all = replay.RoomFor(Candidates);
        LaneTable table = new(zone, replay, grossMm);
        long spotDays = (long)Spots * Candidates * Years * DaysOfYear;
        int cores = Environment.ProcessorCount;
        Console.WriteLine($"Root-zone balance, {Spots} spots x {Candidates} candidates x {Years} years, gcc {CBaseline.Flags}, median of {rounds} rounds, processor time:");
        using CBaseline? baseline = CBaseline.Compile("balance");
        List<(string, Action)> ways = [];
        if (baseline is not null)
        {
            nint plain = baseline.Function("balance_plain"), shaped = baseline.Function("balance_shaped"), single = baseline.Function("balance_float");
            ways.Add(("C, as one writes it", () => table.CallC(plain)));
            ways.Add(("C, shaped for the vectoriser", () => table.CallC(shaped)));
            ways.Add(("C, shaped, single precision", () => table.CallFloat(single)));
        }

        ways.Add(("C#, kernel, one core", table.CallKernel));
        (string, Action) onOne = ("C#, candidates, one core", () => replay.Run(days, grossMm, one));
        (string, Action) onAll = ($"C#, candidates, {cores} cores", () => replay.Run(days, grossMm, all, cores));
        Race.RunOnProcessorTime(spotDays, "spot-days", rounds, [.. ways, onOne, onAll]);
        Console.WriteLine("By the clock on the wall (above: the processor time of all cores together, so what sharing the work costs):");
        Race.Run(spotDays, "spot-days", rounds * 10, onOne, onAll);
        return Agree(table, baseline, one, all) ? 0 : 1;
    }

    private static bool Agree(LaneTable table, CBaseline? baseline, CandidateOutcomes one, CandidateOutcomes all)
    {
        bool sameBits = one.StressDays.Cast<double>().SequenceEqual(all.StressDays.Cast<double>()) && one.UseMm.Cast<double>().SequenceEqual(all.UseMm.Cast<double>());
        Console.WriteLine($"  all cores give the same bits as one: {(sameBits ? "yes" : "NO")}");
        if (baseline is null)
        {
            return sameBits;
        }

        table.CallKernel();
        double[] kernel = [.. table.Stress.Select(days => days / table.PerStressMm)];
        table.CallC(baseline.Function("balance_plain"));
        double apart = kernel.Zip(table.Stress, (a, b) => Math.Abs(a - b)).Max();
        table.CallFloat(baseline.Function("balance_float"));
        double rough = kernel.Zip(table.StressInFloat, (a, b) => Math.Abs(a - b)).Max();
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"  largest difference in a spot's yearly depth of stress: C {apart:0.0e+0} mm, single precision {rough:0.0e+0} mm of up to {kernel.Max():0} mm"));
        return sameBits && apart < 1e-6;
    }

    private static Zone ZoneWithSpots()
    {
        double[] shares = [.. Enumerable.Range(0, Spots).Select(s => 0.6 + 0.8 * s / (Spots - 1))];
        return new Zone
        {
            Name = "Lawn",
            Station = 1,
            AreaM2 = 400,
            Planting = new Planting("turf", PlantStage.Established, Enumerable.Repeat(0.8, 12).ToListOf(), 0.25, 0.5),
            Soil = new Soil("loam", 150, 9, 7),
            Emission = new Emission(EmissionKind.Rotor, 12, 40, new SpotShares(shares.ToListOf(), shares.Select(_ => 1.0 / Spots).ToListOf(), "made up"), 0),
        };
    }

    private static Climate RandomYear(int year)
    {
        Random random = new(year);
        double[] eto = new double[DaysOfYear], rain = new double[DaysOfYear];
        for (int day = 0; day < DaysOfYear; day++)
        {
            eto[day] = Math.Max(0, 3.5 - 3 * Math.Cos(2 * Math.PI * day / DaysOfYear) + 2 * random.NextDouble() - 1);
            rain[day] = random.NextDouble() < 0.25 ? 25 * Math.Pow(random.NextDouble(), 3) : 0;
        }

        return new Climate(new LocalDate(2001, 1, 1), eto, rain);
    }

    /// <summary>The same lanes for C and for the bare kernel: one set, year after year.</summary>
    private sealed class LaneTable
    {
        private readonly RootZone root;
        private readonly ZoneDays[] years;
        private readonly BalanceLanes lanes;
        private readonly double[] share = new double[DaysOfYear];
        private readonly float[] shareInFloat, water, depletion, drainage;
        private readonly (float[] Wanted, float[] Rain)[] yearsInFloat;

        public LaneTable(Zone zone, CandidateReplay replay, double[] grossMm)
        {
            root = RootZone.Of(zone);
            years = [.. Enumerable.Range(0, Years).Select(replay.DaysOf)];
            lanes = new BalanceLanes(Spots * Candidates);
            for (int lane = 0; lane < lanes.Count; lane++)
            {
                lanes.WaterMm[lane] = grossMm[lane % Candidates] * zone.Emission.Spots.Share[lane / Candidates];
            }

            for (int day = 0; day < DaysOfYear; day++)
            {
                share[day] = years[0].Climate.DateOf(day).DayOfYear % 3 == 0 ? 1 : 0;
            }

            shareInFloat = InFloat(share);
            water = InFloat(lanes.WaterMm);
            depletion = new float[water.Length];
            drainage = new float[water.Length];
            StressInFloat = new float[water.Length];
            yearsInFloat = [.. years.Select(y => (InFloat(y.WantedMm), InFloat(y.RainInMm)))];
        }

        /// <summary>The kernel leaves days here, C mm.</summary>
        public double[] Stress => lanes.StressSteps;

        public double PerStressMm => root.PerStressMm;

        public float[] StressInFloat { get; }

        public void CallKernel()
        {
            foreach (ZoneDays year in years)
            {
                lanes.Reset();
                BalanceKernel.Run(root, year.WantedMm, year.RainInMm, share, lanes);
            }
        }

        public void CallC(nint function)
        {
            var loop = (delegate* unmanaged<nuint, nuint, double, double, double, double*, double*, double*, double*, double*, double*, double*, void>)function;
            foreach (ZoneDays year in years)
            {
                lanes.Reset();
                fixed (double* wanted = year.WantedMm, rain = year.RainInMm, on = share, depth = lanes.WaterMm, d = lanes.DepletionMm, drained = lanes.DrainageMm, past = lanes.StressSteps)
                {
                    loop((nuint)lanes.Count, DaysOfYear, root.TotalMm, root.ReadilyMm, root.PerStressMm, wanted, rain, on, depth, d, drained, past);
                }
            }
        }

        public void CallFloat(nint function)
        {
            var loop = (delegate* unmanaged<nuint, nuint, float, float, float, float*, float*, float*, float*, float*, float*, float*, void>)function;
            foreach ((float[] wantedMm, float[] rainMm) in yearsInFloat)
            {
                Array.Clear(depletion);
                Array.Clear(drainage);
                Array.Clear(StressInFloat);
                fixed (float* wanted = wantedMm, rain = rainMm, on = shareInFloat, depth = water, d = depletion, drained = drainage, past = StressInFloat)
                {
                    loop((nuint)lanes.Count, DaysOfYear, (float)root.TotalMm, (float)root.ReadilyMm, (float)root.PerStressMm, wanted, rain, on, depth, d, drained, past);
                }
            }
        }

        private static float[] InFloat(double[] values) => [.. values.Select(v => (float)v)];
    }
}
