using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Files.Surveys;
using Valvewright.Files.Weather;
using Valvewright.Tests;

namespace Valvewright.Files.Tests.Surveys;

/// <summary>The weather that a survey names is read with what the survey says of it.</summary>
public sealed class SiteWeatherIsRead
{
    [Theory]
    [MemberData(nameof(DemoSitesRead.Demos), MemberType = typeof(DemoSitesRead))]
    public void Every_demo_site_has_three_years_of_weather_or_more(string demo)
    {
        WeatherReading reading = SiteWeather.Read(SiteOf(demo));
        Assert.True(reading.Ok, string.Join('\n', reading.Problems));
        Assert.True(reading.Record.Days.Count > 3 * 365, $"{reading.Record.Days.Count} days");
    }

    [Fact]
    public void A_record_moved_half_a_year_is_warmest_in_the_southern_summer_and_stands_at_the_opposite_latitude()
    {
        WeatherReading reading = SiteWeather.Read(SiteOf("gulf-reserve"));
        Assert.True(reading.Ok);
        double Mean(int month) => reading.Record.Days.Where(day => day.Date.Month == month && !double.IsNaN(day.TmaxC)).Average(day => day.TmaxC);
        Assert.True(Mean(1) > Mean(7) + 15, $"January {Mean(1):0.0}, July {Mean(7):0.0}");
        Assert.Equal(-33.069, reading.Record.Place.LatitudeDeg);
        Assert.Contains("moved by half a year", reading.Record.Source, StringComparison.Ordinal);
        Assert.Contains(reading.Notes, note => note.Kind == WeatherNoteKind.Assumed && note.Text.Contains("other hemisphere", StringComparison.Ordinal));
    }

    [Fact]
    public void Moving_keeps_every_gap_between_days()
    {
        Site site = SiteOf("gulf-reserve");
        WeatherRecord before = SiteWeather.Read(site with { Weather = site.Weather! with { MovedHalfAYear = false } }).Record!;
        WeatherRecord after = SiteWeather.Moved(before);
        Assert.Equal(before.Days.Count, after.Days.Count);
        Assert.All(before.Days.Zip(after.Days), pair => Assert.Equal(pair.First.Date.PlusDays(SiteWeather.HalfAYearDays), pair.Second.Date));
    }

    private static Site SiteOf(string demo) => SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", demo)).Site!;
}
