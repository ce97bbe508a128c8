using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Weather.Gaps;

namespace Valvewright.Engine.Tests.Weather;

/// <summary>A record becomes a climate without gaps, and everything that was not measured is said.</summary>
public sealed class ClimateBuilderTests
{
    private static readonly LocalDate First = new(2010, 1, 1);
    private static readonly Place Somewhere = new(42, 10, 200);

    [Fact]
    public void A_full_record_is_computed_day_by_day_and_has_no_gaps()
    {
        WeatherRecord record = ReferenceRecord.Maricopa();
        BuiltClimate built = ClimateBuilder.Build(record);
        Assert.Empty(built.Gaps.Gaps);
        Assert.DoesNotContain(built.Questions, q => q.Refused);
        for (int day = 0; day < record.Days.Count; day++)
        {
            DailyEto single = ReferenceEvapotranspiration.Of(record.Days[day], record.Place, record.WindHeightM);
            Assert.Equal(single.EtoMm, built.Climate.EtoMm[day], 1e-9);
            Assert.Equal(single with { EtoMm = 0 }, built.Days[day] with { EtoMm = 0 });
            Assert.Equal(record.Days[day].RainMm, built.Climate.RainMm[day]);
        }
    }

    [Fact]
    public void Ottawa_since_1889_has_every_day_and_tells_of_137_absent_dates()
    {
        BuiltClimate built = ClimateBuilder.Build(ReferenceRecord.Ottawa());
        Assert.Equal(137, built.Gaps.AbsentDates);
        Assert.Equal(built.Gaps.DaysOfRecord, built.Climate.Days);
        AssertNothingSilent(ReferenceRecord.Ottawa(), built);
    }

    [Fact]
    public void Moore_Park_has_every_day_and_tells_of_64_absent_dates()
    {
        BuiltClimate built = ClimateBuilder.Build(ReferenceRecord.MoorePark());
        Assert.Equal(64, built.Gaps.AbsentDates);
        AssertNothingSilent(ReferenceRecord.MoorePark(), built);
    }

    [Fact]
    public void Whatever_is_knocked_out_of_a_record_nothing_is_filled_silently()
    {
        WeatherRecord zurich = ReferenceRecord.Zurich();
        for (int seed = 0; seed < 20; seed++)
        {
            Random random = new(seed);
            WeatherRecord holed = zurich with { Days = zurich.Days.Skip(random.Next(9000)).Take(1500).Where(_ => random.Next(40) > 0)
                .Select(d => KnockOut(d, random)).ToListOf() };
            AssertNothingSilent(holed, ClimateBuilder.Build(holed));
        }
    }

    [Fact]
    public void The_same_record_gives_the_same_climate()
    {
        BuiltClimate once = ClimateBuilder.Build(ReferenceRecord.MoorePark());
        BuiltClimate again = ClimateBuilder.Build(ReferenceRecord.MoorePark());
        Assert.Equal(once.Days, again.Days);
        Assert.Equal(once.Climate.RainMm, again.Climate.RainMm);
        Assert.Equal(once.Gaps, again.Gaps);
    }

    [Fact]
    public void An_absent_date_takes_the_line_between_its_neighbours()
    {
        BuiltClimate built = ClimateBuilder.Build(Record(Year(2010).Where(d => d.Date != new LocalDate(2010, 6, 10))));
        int day = built.Climate.DayOf(new(2010, 6, 10));
        Assert.Equal((built.Climate.EtoMm[day - 1] + built.Climate.EtoMm[day + 1]) / 2, built.Climate.EtoMm[day], 12);
        Assert.Equal(EtoMethod.Interpolated, built.Days[day].Method);
        Assert.Contains(new Gap(WeatherVariable.ReferenceEvapotranspiration, new(2010, 6, 10), new(2010, 6, 10), FillMethod.Interpolated),
            built.Gaps.Gaps);
        Assert.Equal(1, built.Gaps.AbsentDates);
    }

    [Fact]
    public void A_long_absence_takes_the_mean_of_that_time_of_year()
    {
        LocalDate from = new(2012, 7, 1);
        LocalDate to = new(2012, 7, 20);
        BuiltClimate built = ClimateBuilder.Build(Record(Years(2010, 2013).Where(d => d.Date < from || d.Date > to)));
        int day = built.Climate.DayOf(new(2012, 7, 8));
        int dayOfYear = new LocalDate(2012, 7, 8).DayOfYear;
        double[] near = [.. built.Days.Where(d => (d.Date < from || d.Date > to) && Math.Abs(d.Date.DayOfYear - dayOfYear) <= 7)
            .Select(d => d.EtoMm)];
        Assert.Equal(near.Average(), built.Climate.EtoMm[day], 12);
        Assert.Contains(new Gap(WeatherVariable.ReferenceEvapotranspiration, from, to, FillMethod.TimeOfYearMean), built.Gaps.Gaps);
    }

    [Fact]
    public void Temperatures_missing_for_a_few_days_are_interpolated_where_other_things_were_measured()
    {
        BuiltClimate built = ClimateBuilder.Build(Record(Year(2010, full: true).Select(d =>
            d.Date >= new LocalDate(2010, 5, 3) && d.Date <= new LocalDate(2010, 5, 5)
                ? d with { TmaxC = double.NaN, TminC = double.NaN } : d)));
        Assert.Contains(new Gap(WeatherVariable.Temperature, new(2010, 5, 3), new(2010, 5, 5), FillMethod.Interpolated), built.Gaps.Gaps);
        DailyEto eto = built.Days[built.Climate.DayOf(new(2010, 5, 4))];
        Assert.True(eto.Method.HasFlag(EtoMethod.TemperatureFilled) && eto.Method.HasFlag(EtoMethod.PenmanMonteith));
    }

    [Fact]
    public void A_published_value_serves_only_where_none_can_be_computed()
    {
        BuiltClimate built = ClimateBuilder.Build(Record(Year(2010).Select(d => d.Date == new LocalDate(2010, 5, 3)
            ? d with { TmaxC = double.NaN, PublishedEtoMm = 4.4 } : d with { PublishedEtoMm = 25 })));
        int day = built.Climate.DayOf(new(2010, 5, 3));
        Assert.Equal(4.4, built.Climate.EtoMm[day]);
        Assert.Equal(EtoMethod.Published, built.Days[day].Method);
        Assert.DoesNotContain(25.0, built.Climate.EtoMm);
        Assert.Contains(new Gap(WeatherVariable.ReferenceEvapotranspiration, new(2010, 5, 3), new(2010, 5, 3), FillMethod.Published),
            built.Gaps.Gaps);
    }

    [Fact]
    public void Wind_that_fails_for_a_while_takes_the_mean_of_the_record()
    {
        LocalDate gone = new(2011, 3, 1);
        BuiltClimate built = ClimateBuilder
            .Build(Record(Years(2010, 2012, full: true).Select(d => d with { WindMs = d.Date == gone ? double.NaN : 3 })));
        BuiltClimate steady = ClimateBuilder.Build(Record(Years(2010, 2012, full: true).Select(d => d with { WindMs = 3 })));
        int day = built.Climate.DayOf(gone);
        Assert.Equal(steady.Climate.EtoMm[day], built.Climate.EtoMm[day], 1e-9);
        Assert.Contains(new Gap(WeatherVariable.Wind, gone, gone, FillMethod.MeanOfRecord), built.Gaps.Gaps);
    }

    [Fact]
    public void Wind_that_was_never_measured_takes_the_world_mean()
    {
        BuiltClimate built = ClimateBuilder.Build(Record(Year(2010, full: true).Select(d => d with { WindMs = double.NaN })));
        Assert.Equal([new Gap(WeatherVariable.Wind, First, new(2010, 12, 31), FillMethod.WorldMean)], built.Gaps.Gaps);
        DailyWeather windy = Year(2010, full: true).First() with { WindMs = 2 / Psychrometrics.WindFactor(10) };
        Assert.Equal(ReferenceEvapotranspiration.Of(windy, Somewhere, 10).EtoMm, built.Climate.EtoMm[0], 1e-9);
    }

    [Fact]
    public void A_record_without_rain_keeps_its_years_as_witnesses()
    {
        BuiltClimate built = ClimateBuilder.Build(Record(Years(2010, 2012).Select(d => d with { RainMm = double.NaN })));
        Assert.Contains(new Gap(WeatherVariable.Rain, First, new(2012, 12, 31), FillMethod.TakenAsNone), built.Gaps.Gaps);
        Assert.True(built.Split(42).IsUnseen);
    }

    [Fact]
    public void A_year_that_is_mostly_filled_is_no_witness()
    {
        BuiltClimate built = ClimateBuilder
            .Build(Record(Years(2010, 2014).Where(d => d.Date < new LocalDate(2014, 2, 1) || d.Date > new LocalDate(2014, 4, 1))));
        YearSplit split = built.Split(42);
        Assert.DoesNotContain(split.Training.Concat(split.HeldBack), y => y.Name == "2014");
    }

    [Fact]
    public void What_cannot_be_used_at_all_is_refused()
    {
        Assert.Throws<ArgumentException>(() => ClimateBuilder.Build(Record([])));
        Assert.Throws<ArgumentException>(() => ClimateBuilder.Build(Record(Year(2010).Reverse())));
        Assert.Throws<ArgumentException>(() => ClimateBuilder.Build(Record([Year(2010).First(), Year(2010).First()])));
        Assert.Throws<ArgumentException>(
            () => ClimateBuilder.Build(Record(Year(2010).Select(d => new DailyWeather(d.Date) { RainMm = 1 }))));
        Assert.Throws<ArgumentException>(() => ClimateBuilder.Build(Record(Year(2010)) with { Place = new(100, 10, 200) }));
        Assert.Throws<ArgumentException>(() => ClimateBuilder.Build(Record(Year(2010)) with { Place = new(42, 10, double.NaN) }));
        Assert.Throws<ArgumentException>(() => ClimateBuilder.Build(Record(Year(2010)) with { WindHeightM = 0 }));
    }

    /// <summary>Every day is there; every day that lacks something is in the report for it, and every reported day lacks it.</summary>
    private static void AssertNothingSilent(WeatherRecord record, BuiltClimate built)
    {
        Assert.Equal(record.Days[0].Date, built.Climate.First);
        Assert.Equal(record.Days[^1].Date, built.Climate.Last);
        Dictionary<LocalDate, DailyWeather> measured = record.Days.ToDictionary(d => d.Date);
        HashSet<(WeatherVariable, LocalDate)> missing =
            [.. built.Gaps.Gaps.SelectMany(g => Enumerable.Range(0, g.Days).Select(d => (g.Variable, g.From.PlusDays(d))))];
        for (int day = 0; day < built.Climate.Days; day++)
        {
            LocalDate date = built.Climate.DateOf(day);
            DailyWeather weather = measured.GetValueOrDefault(date, new(date));
            EtoMethod method = built.Days[day].Method;
            Assert.Equal(date, built.Days[day].Date);
            Assert.Equal(built.Climate.EtoMm[day], built.Days[day].EtoMm);
            Assert.NotEqual(EtoMethod.None, method);
            bool HasGap(WeatherVariable variable) => missing.Contains((variable, date));
            Assert.Equal(double.IsNaN(weather.RainMm), HasGap(WeatherVariable.Rain));
            bool computed = (method & (EtoMethod.PenmanMonteith | EtoMethod.HargreavesSamani)) != 0;
            Assert.Equal(!computed, HasGap(WeatherVariable.ReferenceEvapotranspiration));
            Assert.Equal(computed && double.IsNaN(weather.TmaxC + weather.TminC), HasGap(WeatherVariable.Temperature));
            Assert.Equal(computed && double.IsNaN(weather.WindMs), HasGap(WeatherVariable.Wind));
            Assert.Equal(computed && double.IsNaN(weather.RadiationMjM2), HasGap(WeatherVariable.Radiation));
        }
    }

    private static DailyWeather KnockOut(DailyWeather day, Random random) => day with
    {
        TmaxC = random.Next(25) == 0 ? double.NaN : day.TmaxC,
        TminC = random.Next(25) == 0 ? double.NaN : day.TminC,
        RainMm = random.Next(25) == 0 ? double.NaN : day.RainMm,
        WindMs = random.Next(25) == 0 ? double.NaN : day.WindMs,
        RadiationMjM2 = random.Next(25) == 0 ? double.NaN : day.RadiationMjM2,
        VapourPressureKpa = random.Next(25) == 0 ? double.NaN : day.VapourPressureKpa,
    };

    private static WeatherRecord Record(IEnumerable<DailyWeather> days) =>
        new("Test", Somewhere, 10, days.ToListOf(), "made up for the test");

    private static IEnumerable<DailyWeather> Year(int year, bool full = false) => Years(year, year, full);

    private static IEnumerable<DailyWeather> Years(int from, int to, bool full = false)
    {
        for (LocalDate date = new(from, 1, 1); date.Year <= to; date = date.PlusDays(1))
        {
            double season = -Math.Cos(2 * Math.PI * date.DayOfYear / 365) + 0.1 * Math.Sin(date.Day + date.Year);
            DailyWeather day = new(date) { TmaxC = 17 + 11 * season, TminC = 8 + 8 * season, RainMm = date.Day % 4 == 0 ? 5 : 0 };
            yield return full ? day with { RhMeanPercent = 65, RadiationMjM2 = 12 + 7 * season, WindMs = 2.5 } : day;
        }
    }
}
