using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Engine.Weather.Gaps;

namespace Valvewright.Engine.Tests.Weather.Gaps;

/// <summary>What cannot be right is not used; what is only unlikely is used and questioned.</summary>
public sealed class ScreeningTests
{
    private static readonly LocalDate Midsummer = new(2015, 6, 21);

    private static readonly DailyWeather Ordinary = new(Midsummer)
    {
        TmaxC = 28,
        TminC = 14,
        RainMm = 3,
        RhMaxPercent = 95,
        RhMinPercent = 40,
        RhMeanPercent = 65,
        VapourPressureKpa = 1.6,
        DewPointC = 14,
        RadiationMjM2 = 28,
        SunshineHours = 12,
        WindMs = 3,
        PublishedEtoMm = 6,
    };

    [Fact]
    public void An_ordinary_day_passes_untouched()
    {
        (DailyWeather screened, List<WeatherQuestion> questions) = Screen(Ordinary);
        Assert.Equal(Ordinary, screened);
        Assert.Empty(questions);
    }

    [Theory]
    [InlineData(-999)]
    [InlineData(9999)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void Fill_values_of_any_column_are_refused(double fill)
    {
        (DailyWeather screened, List<WeatherQuestion> questions) = Screen(new(Midsummer)
        {
            TmaxC = fill,
            TminC = fill,
            RainMm = fill,
            RhMaxPercent = fill,
            RhMinPercent = fill,
            RhMeanPercent = fill,
            VapourPressureKpa = fill,
            DewPointC = fill,
            RadiationMjM2 = fill,
            SunshineHours = fill,
            WindMs = fill,
            PublishedEtoMm = fill,
        });
        Assert.Equal(new DailyWeather(Midsummer), screened);
        Assert.Equal(12, questions.Count);
        Assert.All(questions, q => Assert.True(q.Refused));
    }

    [Fact]
    public void A_highest_below_the_lowest_refuses_both()
    {
        (DailyWeather screened, List<WeatherQuestion> questions) = Screen(
            Ordinary with { TmaxC = 5, DewPointC = double.NaN, VapourPressureKpa = double.NaN });
        Assert.True(double.IsNaN(screened.TmaxC) && double.IsNaN(screened.TminC));
        Assert.Equal(WeatherVariable.Temperature, Assert.Single(questions).Variable);
    }

    [Fact]
    public void More_sun_than_there_is_above_the_air_is_refused()
    {
        (DailyWeather screened, List<WeatherQuestion> questions) = Screen(Ordinary with { RadiationMjM2 = 45, SunshineHours = 18 });
        Assert.True(double.IsNaN(screened.RadiationMjM2) && double.IsNaN(screened.SunshineHours));
        Assert.Equal(2, questions.Count);
    }

    [Fact]
    public void A_cloudburst_is_used_and_questioned()
    {
        (DailyWeather screened, List<WeatherQuestion> questions) = Screen(Ordinary with { RainMm = 800 });
        Assert.Equal(800, screened.RainMm);
        Assert.False(Assert.Single(questions).Refused);
    }

    [Fact]
    public void A_wet_sensor_may_read_a_little_past_a_hundred()
    {
        (DailyWeather screened, List<WeatherQuestion> questions) = Screen(Ordinary with { RhMaxPercent = 102 });
        Assert.Equal(100, screened.RhMaxPercent);
        Assert.Empty(questions);
    }

    private static (DailyWeather Screened, List<WeatherQuestion> Questions) Screen(DailyWeather day)
    {
        List<WeatherQuestion> questions = [];
        return (new Screening(new Place(42, 10, 200), 2, questions).Screen(day), questions);
    }
}
