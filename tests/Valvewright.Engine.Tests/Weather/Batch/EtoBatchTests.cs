using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Weather.Batch;

namespace Valvewright.Engine.Tests.Weather.Batch;

/// <summary>The batch against the day-by-day computation, which is itself held to published values.</summary>
public sealed class EtoBatchTests
{
    private const double AllowedMm = 1e-9;
    private const double WindHeightM = 3;

    public static TheoryData<VapourSource> Sources() => [.. Enum.GetValues<VapourSource>()];

    [Theory]
    [MemberData(nameof(Sources))]
    public void Agrees_with_one_day_at_a_time_anywhere_on_earth(VapourSource source)
    {
        Table table = Table.Random(20_011, source, seed: 7);
        EtoOptions options = EtoOptions.Default with
            { VapourSources = [source], LeastWindMs = 0.5, RelativeShortwaveFloor = 0.25, Albedo = 0.2 };
        double[] batch = table.Batch(0, table.Count, options);
        for (int i = 0; i < table.Count; i++)
        {
            DailyEto single = ReferenceEvapotranspiration.Of(table.Day(i), table.PlaceOf(i), WindHeightM, options);
            Assert.True(Math.Abs(batch[i] - single.EtoMm) <= AllowedMm,
                $"{table.Day(i)} at {table.PlaceOf(i)}: {batch[i]:r} rather than {single.EtoMm:r}.");
        }
    }

    [Fact]
    public void A_day_has_the_same_bits_wherever_it_stands_in_a_batch()
    {
        Table table = Table.Random(67, VapourSource.DewPoint, seed: 3);
        double[] whole = table.Batch(0, table.Count, EtoOptions.Default);
        for (int from = 0; from < table.Count; from++)
        {
            for (int count = 0; from + count <= table.Count; count += count < 18 ? 1 : 7)
            {
                double[] part = table.Batch(from, count, EtoOptions.Default);
                Assert.Equal(whole.AsSpan(from, count).ToArray().Select(BitConverter.DoubleToInt64Bits),
                    part.Select(BitConverter.DoubleToInt64Bits));
            }
        }
    }

    /// <summary>
    /// The bits found with 512-bit, 256-bit and 128-bit vectors and without fused multiply-add in hardware, all alike; on another machine
    /// they must come out again. A change of formula or polynomial changes them, and then this number with it.
    /// </summary>
    [Fact]
    public void The_bits_are_the_same_on_every_machine()
    {
        const int Days = 2003;
        double[] Column(double from, double to, int stride) =>
            [.. Enumerable.Range(0, Days).Select(i => from + (to - from) * (i * stride % Days) / Days)];
        double[] tmin = Column(-30, 25, 7);
        double[] eto = new double[Days];
        EtoBatch.PenmanMonteith(new StationDays
        {
            LatitudeDeg = Column(-90, 90, 11),
            ElevationM = Column(-400, 5000, 13),
            DayOfYear = [.. Enumerable.Range(0, Days).Select(i => (double)(i % 366 + 1))],
            TmaxC = [.. tmin.Zip(Column(0, 20, 17), (low, range) => low + range)],
            TminC = tmin,
            Humidity = [.. tmin.Select(t => t - 3)],
            Vapour = VapourSource.DewPoint,
            RadiationMjM2 = Column(0, 33, 19),
            WindMs = Column(0, 9, 23),
            WindFactor = 0.9,
        }, EtoOptions.Default, eto);
        ulong hash = eto.Aggregate(
            14695981039346656037UL, (h, mm) => unchecked((h ^ (ulong)BitConverter.DoubleToInt64Bits(mm)) * 1099511628211UL));
        Assert.Equal(17166034022752094503UL, hash);
    }

    [Fact]
    public void The_pole_in_its_night_and_in_its_day()
    {
        foreach (double latitude in new[] { -90, -66.6, 66.6, 90 })
        {
            foreach (int dayOfYear in new[] { 1, 80, 81, 172, 264, 265, 355 })
            {
                Table table = new(VapourSource.VapourPressure, [new(new LocalDate(2015, 1, 1).PlusDays(dayOfYear - 1))
                    { TmaxC = -5, TminC = -12, VapourPressureKpa = 0.2, RadiationMjM2 = 3, WindMs = 4 }], [new(latitude, 0, 100)]);
                double single = ReferenceEvapotranspiration.Of(table.Day(0), table.PlaceOf(0), WindHeightM).EtoMm;
                Assert.Equal(single, table.Batch(0, 1, EtoOptions.Default)[0], AllowedMm);
            }
        }
    }

    [Fact]
    public void Something_missing_or_impossible_gives_NaN_in_its_own_lane_only()
    {
        Table table = Table.Random(9, VapourSource.HumidityRange, seed: 5);
        double[] before = table.Batch(0, 9, EtoOptions.Default);
        table.Days[0] = table.Days[0] with { TmaxC = double.NaN };
        table.Days[1] = table.Days[1] with { TminC = double.NaN };
        table.Days[2] = table.Days[2] with { RhMinPercent = double.NaN };
        table.Days[3] = table.Days[3] with { RadiationMjM2 = double.NaN };
        table.Days[4] = table.Days[4] with { WindMs = double.NaN };
        table.Days[5] = table.Days[5] with { TmaxC = 5000 };
        table.Places[6] = table.Places[6] with { ElevationM = 20_000 };
        table.Places[7] = table.Places[7] with { LatitudeDeg = 91 };
        double[] after = table.Batch(0, 9, EtoOptions.Default);
        Assert.All(after[..8], eto => Assert.True(double.IsNaN(eto)));
        Assert.Equal(before[8], after[8]);
    }

    [Fact]
    public void Columns_of_different_lengths_are_refused() =>
        Assert.Throws<ArgumentException>(() => EtoBatch.PenmanMonteith(new StationDays
        {
            LatitudeDeg = new double[3],
            ElevationM = new double[3],
            DayOfYear = new double[3],
            TmaxC = new double[3],
            TminC = new double[2],
            Humidity = new double[3],
            Vapour = VapourSource.DewPoint,
            RadiationMjM2 = new double[3],
            WindMs = new double[3],
        }, EtoOptions.Default, new double[3]));

    private sealed class Table(VapourSource source, DailyWeather[] days, Place[] places)
    {
        public DailyWeather[] Days { get; } = days;

        public Place[] Places { get; } = places;

        public int Count => Days.Length;

        public DailyWeather Day(int i) => Days[i];

        public Place PlaceOf(int i) => Places[i];

        public static Table Random(int count, VapourSource source, int seed)
        {
            Random random = new(seed);
            DailyWeather[] days = new DailyWeather[count];
            Place[] places = new Place[count];
            for (int i = 0; i < count; i++)
            {
                places[i] = new(-90 + 180 * random.NextDouble(), 0, -400 + 6000 * random.NextDouble());
                double tmin = -40 + 70 * random.NextDouble();
                double rhMax = 40 + 60 * random.NextDouble();
                days[i] = new(new LocalDate(2015, 1, 1).PlusDays(random.Next(365)))
                {
                    TminC = tmin,
                    TmaxC = tmin + 25 * random.NextDouble(),
                    DewPointC = tmin + 3 - 12 * random.NextDouble(),
                    VapourPressureKpa = 3 * random.NextDouble(),
                    RhMaxPercent = rhMax,
                    RhMinPercent = rhMax * random.NextDouble(),
                    RhMeanPercent = rhMax,
                    RadiationMjM2 = 35 * random.NextDouble(),
                    WindMs = 12 * random.NextDouble(),
                };
            }

            return new(source, days, places);
        }

        public double[] Batch(int from, int count, EtoOptions options)
        {
            DailyWeather[] part = Days[from..(from + count)];
            Place[] places = Places[from..(from + count)];
            double[] eto = new double[count];
            EtoBatch.PenmanMonteith(new StationDays
            {
                LatitudeDeg = places.Select(p => p.LatitudeDeg).ToArray(),
                ElevationM = places.Select(p => p.ElevationM).ToArray(),
                DayOfYear = part.Select(d => (double)d.Date.DayOfYear).ToArray(),
                TmaxC = part.Select(d => d.TmaxC).ToArray(),
                TminC = part.Select(d => d.TminC).ToArray(),
                Humidity = part.Select(d => source switch
                {
                    VapourSource.VapourPressure => d.VapourPressureKpa,
                    VapourSource.DewPoint => d.DewPointC,
                    VapourSource.MeanHumidity => d.RhMeanPercent,
                    _ => d.RhMaxPercent,
                }).ToArray(),
                LowestHumidity = part.Select(d => d.RhMinPercent).ToArray(),
                Vapour = source,
                RadiationMjM2 = part.Select(d => d.RadiationMjM2).ToArray(),
                WindMs = part.Select(d => d.WindMs).ToArray(),
                WindFactor = Psychrometrics.WindFactor(WindHeightM),
            }, options, eto);
            return eto;
        }
    }
}
