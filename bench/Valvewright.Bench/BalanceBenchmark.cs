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
/// The root-zone balance of one zone: candidate depths x years of days. C is measured as one writes it and as one shapes it for
/// the vectorizer; then the engine on one core, on all cores, and through the call that planners use.
/// </summary>
internal static unsafe class BalanceBenchmark
{
    private const int Candidates = 2048;
    private const int Years = 16;
    private const int DaysOfYear = 365;

    /// <summary>Runs the benchmark. The first argument may say how many rounds.</summary>
    public static int Run(string[] arguments)
    {
        int rounds = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 21;
        Zone zone = Lawn();
        CandidateReplay replay = new(zone, [.. Enumerable.Range(0, Years).Select(y => ZoneDays.Of(zone, RandomYear(y)))]);
        double[][] shares = replay.SharesOf(date => date.DayOfYear % 3 == 0 ? 1 : 0);
        double[] grossMm = [.. Enumerable.Range(0, Candidates).Select(c => 4 + (20.0 * c / Candidates))];
        double[,] one = new double[Years, Candidates], all = new double[Years, Candidates];
        LaneTable table = new(zone, replay, shares[0], grossMm);
        long laneDays = (long)Candidates * Years * DaysOfYear;
        int cores = Environment.ProcessorCount;
        Console.WriteLine(
            $"Root-zone balance, {Candidates} candidates x {Years} years, gcc {CBaseline.Flags}, median of {rounds} rounds, processor time:");
        using CBaseline? baseline = CBaseline.Compile("balance");
        List<(string, Action)> ways = [];
        if (baseline is not null)
        {
            nint plain = baseline.Function("balance_plain"), shaped = baseline.Function("balance_shaped"),
                single = baseline.Function("balance_float");
            ways.Add(("C, as one writes it", () => table.CallC(plain)));
            ways.Add(("C, shaped for the vectorizer", () => table.CallC(shaped)));
            ways.Add(("C, shaped, single precision", () => table.CallFloat(single)));
        }

        ways.Add(("C#, kernel, one core", table.CallKernel));
        (string, Action) onOne = ("C#, candidates, one core", () => replay.Run(shares, grossMm, one));
        (string, Action) onAll = ($"C#, candidates, {cores} cores", () => replay.Run(shares, grossMm, all, cores));
        Race.RunOnProcessorTime(laneDays, "lane-days", rounds, [.. ways, onOne, onAll]);
        Console.WriteLine("By the clock on the wall (above: the processor time of all cores together, so what sharing the work costs):");
        Race.Run(laneDays, "lane-days", rounds * 10, onOne, onAll);
        bool sameBits = one.Cast<double>().SequenceEqual(all.Cast<double>());
        Console.WriteLine($"  all cores give the same bits as one: {(sameBits ? "yes" : "NO")}");
        return sameBits && (baseline is null || Agrees(table, baseline)) ? 0 : 1;
    }

    private static bool Agrees(LaneTable table, CBaseline baseline)
    {
        table.CallKernel();
        double[] kernel = [.. table.Unmet];
        table.CallC(baseline.Function("balance_plain"));
        double apart = kernel.Zip(table.Unmet, (a, b) => Math.Abs(a - b)).Max();
        table.CallFloat(baseline.Function("balance_float"));
        double rough = kernel.Zip(table.UnmetInFloat, (a, b) => Math.Abs(a - b)).Max();
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
                $"  largest difference in a lane's yearly unmet use: C {apart:0.0e+0} mm, single precision {rough:0.0e+0} mm of up to {kernel.Max():0} mm"));
        return apart < 1e-6;
    }

    private static Zone Lawn() => new()
    {
        Name = "Lawn",
        Station = 1,
        AreaM2 = 400,
        Planting = new Planting("turf", PlantStage.Established, Enumerable.Repeat(0.8, 12).ToListOf(), 0.25, 0.5),
        Soil = new Soil("loam", 150, 9, 7),
        Emission = new Emission(EmissionKind.Rotor, 12, 40, SpotShares.Even, 0),
    };

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
        private readonly BalanceLanes lanes = new(Candidates);
        private readonly double[] share;
        private readonly float[] shareInFloat, water, left, drainage;
        private readonly (float[] Use, float[] Rain, float[] Leaf, float[] Slope)[] inFloat;

        public LaneTable(Zone zone, CandidateReplay replay, double[] share, double[] grossMm)
        {
            (root, this.share) = (RootZone.Of(zone), share);
            years = [.. Enumerable.Range(0, Years).Select(replay.DaysOf)];
            grossMm.CopyTo(lanes.WaterMm, 0);
            (shareInFloat, water) = (InFloat(share), InFloat(lanes.WaterMm));
            (left, drainage, UnmetInFloat) = (new float[water.Length], new float[water.Length], new float[water.Length]);
            inFloat = [.. years.Select(y => (InFloat(y.RootUseMm), InFloat(y.RainInMm), InFloat(y.LeafRoomMm), InFloat(y.Slope)))];
        }

        public double[] Unmet => lanes.UnmetMm;

        public float[] UnmetInFloat { get; }

        public void CallKernel()
        {
            foreach (ZoneDays year in years)
            {
                lanes.Reset(root.TotalMm);
                BalanceKernel.Run(root, year, 0, year.Steps, share, lanes);
            }
        }

        public void CallC(nint function)
        {
            var loop = (delegate* unmanaged<nuint, nuint, double, double*, double*, double*, double*, double*, double*, double*, double*,
                double*, void>)function;
            foreach (ZoneDays year in years)
            {
                lanes.Reset(root.TotalMm);
                fixed (double* use = year.RootUseMm, rain = year.RainInMm, leaf = year.LeafRoomMm, slope = year.Slope, on = share)
                fixed (double* depth = lanes.WaterMm, store = lanes.LeftMm, drained = lanes.DrainageMm, lacking = lanes.UnmetMm)
                {
                    loop((nuint)lanes.Count, DaysOfYear, root.TotalMm, use, rain, leaf, slope, on, depth, store, drained, lacking);
                }
            }
        }

        public void CallFloat(nint function)
        {
            var loop = (delegate* unmanaged<nuint, nuint, float, float*, float*, float*, float*, float*, float*, float*, float*, float*,
                void>)function;
            foreach ((float[] useMm, float[] rainMm, float[] leafMm, float[] slopes) in inFloat)
            {
                Array.Fill(left, (float)root.TotalMm);
                Array.Clear(drainage);
                Array.Clear(UnmetInFloat);
                fixed (float* use = useMm, rain = rainMm, leaf = leafMm, slope = slopes, on = shareInFloat)
                fixed (float* depth = water, store = left, drained = drainage, lacking = UnmetInFloat)
                {
                    loop((nuint)lanes.Count, DaysOfYear, (float)root.TotalMm, use, rain, leaf, slope, on, depth, store, drained, lacking);
                }
            }
        }

        private static float[] InFloat(double[] values) => [.. values.Select(v => (float)v)];
    }
}
