using System.Globalization;
using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Weather.Batch;

namespace Valvewright.Bench;

/// <summary>
/// Reference evapotranspiration, every station-day at its own latitude, elevation and date. C is measured twice: as the book's
/// formulas read, and reshaped by hand until gcc turns the whole loop into vector instructions.
/// </summary>
internal static unsafe class EtoBenchmark
{
    // Nine columns of these fit the second-level cache, so that arithmetic is measured and not memory.
    private const int Days = 8_192;
    private const int Repeats = 16;

    /// <summary>Runs the benchmark. The first argument may say how many rounds.</summary>
    public static int Run(string[] arguments)
    {
        int rounds = arguments.Length > 0 ? int.Parse(arguments[0], CultureInfo.InvariantCulture) : 31;
        EtoTable table = EtoTable.Random(Days, seed: 1);
        double[] batch = new double[Days];
        void Batch()
        {
            for (int i = 0; i < Repeats; i++)
            {
                EtoBatch.PenmanMonteith(table.Columns(), EtoOptions.Default, batch);
            }
        }

        using CBaseline? baseline = CBaseline.Compile("eto");
        if (baseline is null)
        {
            Race.Run((long)Days * Repeats, "station-days", rounds, ("C#, batch", Batch));
            return 1;
        }

        double[] plain = new double[Days];
        double[] shaped = new double[Days];
        double[] single = new double[Days];
        nint plainLoop = baseline.Function("eto_plain");
        nint shapedLoop = baseline.Function("eto_shaped");
        Console.WriteLine($"Reference ET, {Days} station-days a pass, gcc {CBaseline.Flags}, {rounds} rounds");
        Race.Run(
            (long)Days * Repeats,
            "station-days",
            rounds,
            ("C, as the book reads", () => table.CallC(plainLoop, plain, Repeats)),
            ("C, shaped for the vectoriser", () => table.CallC(shapedLoop, shaped, Repeats)),
            ("C#, batch", Batch),
            ("C#, day by day", () => table.DayByDay(single, Repeats)));

        double apart = 0;
        for (int i = 0; i < Days; i++)
        {
            apart = Math.Max(apart,
                Math.Max(Math.Abs(batch[i] - plain[i]), Math.Max(Math.Abs(shaped[i] - plain[i]), Math.Abs(single[i] - plain[i]))));
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  largest difference between any two: {apart:0.0e+0} mm"));
        return apart < 1e-9 ? 0 : 1;
    }

    /// <summary>The columns, filled with days that could be anywhere on earth.</summary>
    private sealed class EtoTable(int days)
    {
        private readonly double[] latitude = new double[days];
        private readonly double[] elevation = new double[days];
        private readonly double[] dayOfYear = new double[days];
        private readonly double[] tmax = new double[days];
        private readonly double[] tmin = new double[days];
        private readonly double[] dewPoint = new double[days];
        private readonly double[] radiation = new double[days];
        private readonly double[] wind = new double[days];

        public static EtoTable Random(int days, int seed)
        {
            Random random = new(seed);
            EtoTable table = new(days);
            for (int i = 0; i < days; i++)
            {
                table.latitude[i] = -60 + 120 * random.NextDouble();
                table.elevation[i] = 2500 * random.NextDouble();
                table.dayOfYear[i] = random.Next(1, 366);
                table.tmin[i] = -15 + 40 * random.NextDouble();
                table.tmax[i] = table.tmin[i] + 2 + 18 * random.NextDouble();
                table.dewPoint[i] = table.tmin[i] - 8 * random.NextDouble();
                table.radiation[i] = (0.2 + 0.55 * random.NextDouble()) * SolarGeometry.ExtraterrestrialMjM2(
                    table.latitude[i], (int)table.dayOfYear[i]);
                table.wind[i] = 0.3 + 6 * random.NextDouble();
            }

            return table;
        }

        public StationDays Columns() => new()
        {
            LatitudeDeg = latitude,
            ElevationM = elevation,
            DayOfYear = dayOfYear,
            TmaxC = tmax,
            TminC = tmin,
            Humidity = dewPoint,
            Vapour = VapourSource.DewPoint,
            RadiationMjM2 = radiation,
            WindMs = wind,
            WindFactor = Psychrometrics.WindFactor(3),
        };

        public void CallC(nint function, double[] eto, int repeats)
        {
            var loop = (delegate* unmanaged<nuint, double*, double*, double*, double*, double*, double*, double*, double*, double, double,
                double*, void>)function;
            fixed (double* a = latitude, b = elevation, c = dayOfYear, d = tmax, e = tmin, f = dewPoint, g = radiation,
                h = wind, result = eto)
            {
                for (int i = 0; i < repeats; i++)
                {
                    loop((nuint)eto.Length, a, b, c, d, e, f, g, h, Psychrometrics.WindFactor(3),
                        EtoOptions.Default.RelativeShortwaveFloor, result);
                }
            }
        }

        public void DayByDay(double[] eto, int repeats)
        {
            for (int repeat = 0; repeat < repeats; repeat++)
            {
                for (int i = 0; i < eto.Length; i++)
                {
                    DailyWeather day = new(new LocalDate(2015, 1, 1).PlusDays((int)dayOfYear[i] - 1))
                    {
                        TmaxC = tmax[i],
                        TminC = tmin[i],
                        DewPointC = dewPoint[i],
                        RadiationMjM2 = radiation[i],
                        WindMs = wind[i],
                    };
                    eto[i] = ReferenceEvapotranspiration.Of(day, new Place(latitude[i], 0, elevation[i]), 3).EtoMm;
                }
            }
        }
    }
}
