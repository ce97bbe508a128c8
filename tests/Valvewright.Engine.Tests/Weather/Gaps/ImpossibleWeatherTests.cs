using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Weather.Gaps;

namespace Valvewright.Engine.Tests.Weather.Gaps;

/// <summary>
/// Weather that cannot be, put into a real record (Maricopa 2003-2020; University of Arizona AZMET), is found, named and estimated; the
/// real days around it are left alone.
/// </summary>
public sealed class ImpossibleWeatherTests
{
    private static readonly LocalDate MayDay = new(2012, 5, 10);
    private static readonly LocalDate August = new(2012, 8, 6);
    private static readonly LocalDate July = new(2012, 7, 4);

    [Fact]
    public void Radiation_that_cannot_be_is_estimated_and_never_called_measured()
    {
        WeatherRecord real = ReferenceRecord.Maricopa();
        BuiltClimate before = ClimateBuilder.Build(real);
        BuiltClimate after = ClimateBuilder.Build(With(real, day => day.Date == MayDay ? day with { RadiationMjM2 = 0 }
            : day.Date == July ? day with { RadiationMjM2 = 41.8 }
            : day.Date >= August && day.Date < August.PlusDays(7) ? day with { RadiationMjM2 = 0.01 * day.RadiationMjM2 } : day));
        LocalDate[] spoiled = [MayDay, July, .. Enumerable.Range(0, 7).Select(August.PlusDays)];

        Assert.Equal(spoiled.Order(), after.Questions.Except(before.Questions).Select(q => q.Date).Order());
        Assert.All(after.Questions.Except(before.Questions), q => Assert.True(q.Refused));
        Assert.Equal(WeatherFault.AboveClearSky, after.Questions.Single(q => q.Date == July).Fault);
        Assert.Equal(WeatherFault.BelowCloud, after.Questions.Single(q => q.Date == MayDay).Fault);
        foreach ((DailyEto old, DailyEto now) in before.Days.Zip(after.Days))
        {
            if (!spoiled.Contains(now.Date))
            {
                Assert.Equal(old, now);
                continue;
            }

            Assert.True(now.Method.HasFlag(EtoMethod.RadiationFromTemperatureRange)
                && !now.Method.HasFlag(EtoMethod.RadiationMeasured), $"{now}");

            // The estimate of FAO-56 eq. 50 is good to a millimeter or two; a day without sun would be 4 mm off.
            Assert.Equal(old.EtoMm, now.EtoMm, 2.5);
        }

        Assert.Equal(before.Gaps.DaysWithout(WeatherVariable.Radiation) + spoiled.Length,
            after.Gaps.DaysWithout(WeatherVariable.Radiation));
    }

    /// <summary>The same three faults at once gave 0.00 mm of reference ET without a word.</summary>
    [Fact]
    public void A_dew_point_far_above_the_lowest_temperature_is_estimated()
    {
        DailyWeather summer = new(MayDay) { TmaxC = 33, TminC = 15, DewPointC = 24, RadiationMjM2 = 0, WindMs = 2 };
        BuiltClimate built = ClimateBuilder.Build(new("x", new Place(38, 0, 100), 2, [summer], ""));
        Assert.Equal([WeatherFault.BelowCloud, WeatherFault.DewPointAboveLowest], built.Questions.Select(q => q.Fault).Order());
        DailyEto day = Assert.Single(built.Days);
        Assert.Equal(
            EtoMethod.PenmanMonteith | EtoMethod.VapourFromTmin | EtoMethod.RadiationFromTemperatureRange | EtoMethod.WindMeasured,
                day.Method);
        Assert.InRange(day.EtoMm, 4, 8);
    }

    [Theory]
    [InlineData(1.2, false)]
    [InlineData(3.0, true)]
    public void Vapor_pressure_is_held_against_the_lowest_temperature_as_well(double kpa, bool refused)
    {
        BuiltClimate built = ClimateBuilder.Build(
            new("x", new Place(38, 0, 100), 2,
                [new(MayDay) { TmaxC = 33, TminC = 15, VapourPressureKpa = kpa, RadiationMjM2 = 25, WindMs = 2 }], ""));
        Assert.Equal(refused, built.Questions.Count > 0);
        Assert.Equal(refused, built.Days[0].Method.HasFlag(EtoMethod.VapourFromTmin));
    }

    [Fact]
    public void A_highest_humidity_below_the_lowest_refuses_both()
    {
        BuiltClimate built = ClimateBuilder.Build(
            new("x", new Place(38, 0, 100), 2,
                [new(MayDay) { TmaxC = 33, TminC = 15, RhMaxPercent = 20, RhMinPercent = 80, RadiationMjM2 = 25, WindMs = 2 }], ""));
        Assert.Equal(WeatherFault.HumidityReversed, Assert.Single(built.Questions).Fault);
        Assert.True(built.Days[0].Method.HasFlag(EtoMethod.VapourFromTmin));
    }

    [Fact]
    public void A_record_whose_humidity_is_a_fraction_is_refused_with_the_reason()
    {
        WeatherRecord fractions = With(ReferenceRecord.Maricopa(), day =>
            day with { RhMaxPercent = day.RhMaxPercent / 100, RhMinPercent = day.RhMinPercent / 100, DewPointC = double.NaN });
        ArgumentException refused = Assert.Throws<ArgumentException>(() => ClimateBuilder.Build(fractions));
        Assert.Contains("fraction", refused.Message, StringComparison.Ordinal);
        Assert.False(WholeRecord.HasHumidityAsFraction(ReferenceRecord.Maricopa().Days));
    }

    [Fact]
    public void A_wind_gauge_that_stands_still_is_not_measured_wind()
    {
        WeatherRecord real = ReferenceRecord.Maricopa();
        BuiltClimate built = ClimateBuilder
            .Build(With(real, day => day.Date >= August && day.Date < August.PlusDays(30) ? day with { WindMs = 0 } : day));
        Assert.Equal(30, built.Questions.Count(q => q.Fault == WeatherFault.WindStuck && q.Refused));
        Assert.All(built.Days.Where(d => d.Date >= August && d.Date < August.PlusDays(30)), d =>
            Assert.True(d.Method.HasFlag(EtoMethod.WindAssumed)));
    }

    [Fact]
    public void Wind_is_judged_at_the_height_it_was_measured_at()
    {
        DailyWeather gale = new(MayDay) { TmaxC = 33, TminC = 15, DewPointC = 10, RadiationMjM2 = 25, WindMs = 18 };
        Assert.Empty(ClimateBuilder.Build(new("x", new Place(38, 0, 100), 10, [gale], "")).Questions);
        WeatherQuestion question = Assert.Single(ClimateBuilder.Build(new("x", new Place(38, 0, 100), 2, [gale], "")).Questions);
        Assert.Equal((WeatherVariable.Wind, false), (question.Variable, question.Refused));
        Assert.True(Assert.Single(
            ClimateBuilder.Build(new("x", new Place(38, 0, 100), 10, [gale with { WindMs = 40 }], "")).Questions).Refused);
    }

    /// <summary>Maricopa's clearest days of 2008 stand at 1.09 of clear sky and those of 2007 at 1.07; other years at 1.00 to
    /// 1.05.</summary>
    [Fact]
    public void Years_of_a_drifting_pyranometer_are_named()
    {
        IEnumerable<WeatherQuestion> drift = ClimateBuilder.Build(ReferenceRecord.Maricopa()).Questions
            .Where(q => q.Fault == WeatherFault.SensorDrift);
        Assert.Equal([2007, 2008], drift.Select(q => q.Date.Year));
        Assert.All(drift, q => Assert.False(q.Refused));
    }

    /// <summary>Real stations lose next to nothing: 1 day in 5,000 at most.</summary>
    [Fact]
    public void Hardly_a_day_of_real_stations_is_refused()
    {
        foreach (WeatherRecord real in new[]
            { ReferenceRecord.Zurich(), ReferenceRecord.Maricopa(), ReferenceRecord.Fallon(), ReferenceRecord.MoorePark() })
        {
            int refused = ClimateBuilder.Build(real).Questions.Count(q => q.Refused);
            Assert.True(refused <= real.Days.Count / 2000.0 + 1, $"{real.Source}: {refused} of {real.Days.Count}");
        }
    }

    [Fact]
    public void Neighboring_days_with_the_same_question_make_a_run()
    {
        WeatherQuestion At(int day, WeatherFault flag = WeatherFault.BelowCloud) =>
            new(August.PlusDays(day), WeatherVariable.Radiation, flag, "", "", true);
        ListOf<QuestionRun> runs = QuestionRun.Of([At(5), At(0), At(1), At(2, WeatherFault.AboveClearSky), At(2)]);
        Assert.Equal([(August.PlusDays(2), 1, WeatherFault.AboveClearSky), (August, 3, WeatherFault.BelowCloud),
            (August.PlusDays(5), 1, WeatherFault.BelowCloud)],
            runs.Select(r => (r.First.Date, r.Days, r.First.Fault)));
    }

    private static WeatherRecord With(WeatherRecord record, Func<DailyWeather, DailyWeather> change) =>
        record with { Days = record.Days.Select(change).ToListOf() };
}
