using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Tests.Weather;

/// <summary>Open-Meteo's JSON, on the two real answers of the reference folder; expected values are read off those files.</summary>
public sealed class OpenMeteoTests
{
    private const string Berlin = "formats/openmeteo_forecast_daily_metric_berlin_2023.json";
    private const string Idaho = "formats/openmeteo_forecast_daily_us-units_2025.json";

    /// <summary>Degrees F, mp/h and mm in one answer.</summary>
    [Fact]
    public void Mixed_units_are_read_one_by_one()
    {
        WeatherReading reading = Samples.Read(Idaho).Good();
        DailyWeather day = reading.Record!.Days[4];
        Assert.Equal(WeatherLayout.OpenMeteoJson, reading.Layout);
        Assert.Equal(new LocalDate(2025, 8, 1), day.Date);
        Assert.Equal((97.0 - 32) / 1.8, day.TmaxC, 9);
        Assert.Equal(1.6, day.RainMm);
        Assert.Equal(4.4 * 0.44704, day.WindMs, 9);
        Assert.Equal(49831.00 / 3600, day.SunshineHours, 9);
        Assert.Equal((95, 17, 57), (day.RhMaxPercent, day.RhMinPercent, day.RhMeanPercent));
        Assert.Equal((53.6 - 32) / 1.8, day.DewPointC, 9);
        Assert.Equal(5.61, day.PublishedEtoMm);
        Assert.Equal(new Place(47.685364, -116.784294, 647), reading.Record.Place);
        Assert.Equal(10, reading.Record.WindHeightM);
    }

    /// <summary>The older names; wind only as maximum; asked with Chicago days.</summary>
    [Fact]
    public void Old_names_a_wind_maximum_and_days_of_another_continent()
    {
        WeatherReading reading = Samples.Read(Berlin).Good();
        DailyWeather day = reading.Record!.Days[0];
        Assert.Equal((23.8, 10.4, 0.0, 28.32, 5.23), (day.TmaxC, day.TminC, day.RainMm, day.RadiationMjM2, day.PublishedEtoMm));
        Assert.True(double.IsNaN(day.WindMs));
        Assert.True(reading.Notes(WeatherNoteKind.Warning, "only each day's highest speed"));
        Assert.True(reading.Notes(WeatherNoteKind.Warning, "Days are those of America/Chicago (UTC-5), but the sun there is at UTC+0.9"));
        Assert.True(reading.Notes(WeatherNoteKind.Warning, "published ETo"));
    }

    [Fact]
    public void Greenwich_days_in_idaho_are_warned_of() =>
        Assert.True(Samples.Read(Idaho).Notes(WeatherNoteKind.Warning, "Days are those of GMT"));

    [Fact]
    public void The_old_name_of_mean_wind_is_known()
    {
        string text = File.ReadAllText(Samples.PathOf(Idaho))
            .Replace("wind_speed_10m_mean", "windspeed_10m_mean", StringComparison.Ordinal);
        Assert.Equal(3.7 * 0.44704, Samples.Text(text).Good().Record!.Days[0].WindMs, 9);
    }

    [Fact]
    public void Null_is_a_gap()
    {
        string text = File.ReadAllText(Samples.PathOf(Berlin)).Replace("[23.8,21.5", "[23.8,null", StringComparison.Ordinal);
        Assert.True(double.IsNaN(Samples.Text(text).Good().Record!.Days[1].TmaxC));
    }

    [Theory]
    [InlineData("[23.8,21.5,", "[23.8,", "does not fit the dates")]
    [InlineData("[23.8,21.5,", "[23.8,\"hot\",", "is not a number")]
    [InlineData("\"2023-05-29\",", "\"2023-05-28\",", "the date is here twice")]
    [InlineData("\"2023-05-29\",", "\"2023-05-27\",", "out of order")]
    [InlineData("\"latitude\":52.52", "\"latitude\":152.52", "latitude is not such a number")]
    [InlineData("\"precipitation_sum\":\"mm\"", "\"precipitation_sum\":\"furlong\"", "no unit of rain")]
    [InlineData("\"daily\":{\"time\"", "\"daily\":{\"times\"", "no daily values")]
    public void A_slip_is_located(string from, string to, string message)
    {
        string text = File.ReadAllText(Samples.PathOf(Berlin));
        Assert.Contains(from, text, StringComparison.Ordinal);
        Problem problem = Samples.Text(text.Replace(from, to, StringComparison.Ordinal)).Problems[0];
        Assert.Contains(message, problem.Message, StringComparison.Ordinal);
        Assert.Equal(1, problem.Line);
        Assert.True(problem.Column > 1);
    }

    [Fact]
    public void An_error_answer_is_passed_on() =>
        Assert.Equal("Out of range", Samples.Text("{\"error\":true,\"reason\":\"Out of range\"}").OnlyProblem().Found);

    [Fact]
    public void Several_places_in_one_answer_are_refused()
    {
        string text = File.ReadAllText(Samples.PathOf(Berlin));
        Assert.Contains("several places", Samples.Text($"[{text},{text}]").OnlyProblem().Message, StringComparison.Ordinal);
        Assert.True(Samples.Text($"[{text}]").Ok);
    }
}
