using NodaTime;
using NodaTime.Testing;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Files.Surveys;
using Valvewright.Files.Tests.Weather;
using Valvewright.Files.Weather;
using Valvewright.Files.Weather.Fetch;
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
        double Mean(int month) =>
            reading.Record.Days.Where(day => day.Date.Month == month && !double.IsNaN(day.TmaxC)).Average(day => day.TmaxC);
        Assert.True(Mean(1) > Mean(7) + 15, $"January {Mean(1):0.0}, July {Mean(7):0.0}");
        Assert.Equal(-33.069, reading.Record.Place.LatitudeDeg);
        Assert.Contains("moved by half a year", reading.Record.Source, StringComparison.Ordinal);
        Assert.Contains(reading.Notes, note =>
            note.Kind == WeatherNoteKind.Assumed && note.Text.Text.Contains("other hemisphere", StringComparison.Ordinal));
    }

    /// <summary>The columns of the file say nothing of a place; latitude and elevation decide reference ET.</summary>
    [Fact]
    public void A_record_that_does_not_say_where_it_was_measured_is_taken_for_the_sites_own_and_that_is_said()
    {
        Site site = SiteOf("quarry-hill");
        Assert.NotNull(site.Weather!.Station);
        WeatherReading told = SiteWeather.Read(site);
        Assert.False(told.Record!.IsPlaceAssumed);
        Assert.Empty(SiteWeather.Assumed(told.Record));

        WeatherReading untold = SiteWeather.Read(site with { Weather = site.Weather with { Station = null } });
        Assert.True(untold.Record!.IsPlaceAssumed);
        Assert.Equal(site.Place, untold.Record.Place);
        Assert.Contains(untold.Notes, note =>
            note.Kind == WeatherNoteKind.Assumed && note.Text.Text.Contains("the site's place", StringComparison.Ordinal));
        Assert.Equal("weather/station", Assert.Single(SiteWeather.Assumed(untold.Record)).Path);

        // One of the other hemisphere is taken for measured as far beyond the equator, so that it comes to stand at the site.
        Assert.Equal(site.Place,
            SiteWeather.Read(site with { Weather = site.Weather with { Station = null, MovedHalfAYear = true } }).Record!.Place);
    }

    [Theory]
    [InlineData("# latitude: 47.4\n# longitude: 8.6\n", 47.4)]
    [InlineData("", 38.3)]
    public void Where_a_file_says_the_place_but_not_how_high_the_sites_elevation_stands_for_it(string said, double latitudeDeg)
    {
        Site site = SiteOf("quarry-hill");
        site = site with { Weather = site.Weather! with { Station = null }, Place = new Place(38.3, 48.8, 700) };
        WeatherRecord record = SiteWeather
            .ReadBytes(site, "w.csv", System.Text.Encoding.UTF8.GetBytes($"{said}date,tmax_c,tmin_c\n2020-01-01,20,10\n")).Record!;
        Assert.Equal((latitudeDeg, 700.0, true), (record.Place.LatitudeDeg, record.Place.ElevationM, record.IsPlaceAssumed));
    }

    [Fact]
    public void Moving_keeps_every_gap_between_days()
    {
        Site site = SiteOf("gulf-reserve");
        WeatherRecord before = SiteWeather.Read(site with { Weather = site.Weather! with { MovedHalfAYear = false } }).Record!;
        WeatherRecord after = SiteWeather.Moved(before);
        Assert.Equal(before.Days.Count, after.Days.Count);
        Assert.All(before.Days.Zip(after.Days), pair =>
            Assert.Equal(pair.First.Date.PlusDays(SiteWeather.HalfAYearDays), pair.Second.Date));
    }

    [Fact]
    public void A_survey_that_names_a_service_is_given_its_last_whole_years_for_the_place()
    {
        using LoopbackService service = new();
        DirectoryInfo kept = Directory.CreateTempSubdirectory("valvewright-");
        try
        {
            service.Then(200, File.ReadAllText(Samples.PathOf("formats/nasapower_daily_json_2023_rebuilt-from-csv.json")));
            Site site = SiteOf("quarry-hill");
            site = site with { Weather = new WeatherSource(null, null, "NASA POWER") { Service = "nasa-power" } };
            FetchSettings settings = new()
                { NasaPower = service.Address, CacheFolder = kept.FullName, AttemptTimeout = TimeSpan.FromSeconds(10) };
            SiteWeather.Read(site, settings, new FakeClock(Instant.FromUtc(2024, 3, 1, 12, 0)));
            Assert.Contains("latitude=38.298&longitude=48.847&start=20040101&end=20231231", Assert.Single(service.Requests),
                StringComparison.Ordinal);
        }
        finally
        {
            kept.Delete(recursive: true);
        }
    }

    /// <summary>Every choice in the survey reaches reference ET: the climate is the one computed with those options.</summary>
    [Fact]
    public void Choices_for_reference_ET_go_with_the_record()
    {
        const string Choices = """
              eto:
                radiation floor: 0
                clear sky: full
                humidity from: [humidity range, dew point]
                albedo: 0.25
                angstrom a: 0.2
                angstrom b: 0.55
                temperature range factor: 0.19
                dew point below tmin: 2
                assumed wind: 1.5 m/s
                least wind: 0.5 m/s
                temperatures alone: penman-monteith
            """;
        Site site = Surveyed(
            $"weather:\n  file: ../../reference/weather/azmet_06_maricopa.csv\n  station: {{ latitude: 33.069, longitude: -111.97, elevation: 361 m }}\n  wind height: 3 m\n{Choices}\n");
        EtoOptions expected = new()
        {
            RelativeShortwaveFloor = 0, ClearSky = ClearSkyForm.Full, VapourSources = [VapourSource.HumidityRange, VapourSource.DewPoint],
                Albedo = 0.25, AngstromOvercast = 0.2, AngstromSunshine = 0.55,
            TemperatureRangeFactor = 0.19, DewPointBelowTminK = 2, AssumedWindMs = 1.5, LeastWindMs = 0.5,
                TemperatureOnly = TemperatureOnlyForm.PenmanMonteith,
        };
        Assert.Equal(expected, site.Weather!.Eto);
        WeatherRecord record = SiteWeather.Read(site).Record!;
        Assert.Equal(ClimateBuilder.Build(record with { Eto = EtoOptions.Default }, expected).Climate.EtoMm,
            ClimateBuilder.Build(record).Climate.EtoMm);
        Assert.NotEqual(ClimateBuilder.Build(record with { Eto = EtoOptions.Default }).Climate.EtoMm,
            ClimateBuilder.Build(record).Climate.EtoMm);
    }

    [Fact]
    public void A_table_that_no_layout_knows_is_read_by_the_surveys_columns()
    {
        Site site = Surveyed("weather:\n  file: w.csv\n  wind height: 10 m\n  columns:\n    date: Day [day.month.year]\n    tmax: hi " +
            "[F]\n    tmin: lo [F]\n    wind: breeze [km/h]\n    missing: -99\n", apart: true);
        WeatherRecord record = SiteWeather
            .ReadBytes(site, "w.csv", "Day;hi;lo;breeze\n01.05.2021;77;50;7.2\n02.05.2021;-99;50;7.2\n"u8).Record!;
        Assert.Equal((new LocalDate(2021, 5, 1), 25.0, 2.0),
            (record.Days[0].Date, Math.Round(record.Days[0].TmaxC, 9), Math.Round(record.Days[0].WindMs, 9)));
        Assert.True(double.IsNaN(record.Days[1].TmaxC));
    }

    [Theory]
    [InlineData("columns:\n    date: Day\n    tmax: hi", "hi", "the column's unit is not stated")]
    [InlineData("columns:\n    tmax: hi [C]", "keys (tmax)", "no column has the date")]
    [InlineData("columns:\n    date: Day [d/m/y]\n    tmax: hi [C]", "Day [d/m/y]", "no such way to write a date")]
    [InlineData("columns:\n    date: Day\n    tmx: hi [C]", "tmx", "Unknown key")]
    [InlineData("eto:\n    radiation floor: 3", "3", "This is not a ratio")]
    [InlineData("eto:\n    clear sky: blue", "blue", "Unknown word for 'clear sky'")]
    [InlineData("eto:\n    assumed wind: 99 m/s", "99 m/s", "out of range")]
    [InlineData("eto:\n    humidity from: [dew point, fog]", "fog", "Unknown word for 'humidity from'")]
    public void What_makes_no_sense_there_is_refused_where_it_stands(string lines, string found, string message)
    {
        SurveyReading reading = SurveyFiles
            .ParseApart(SmallSite.With("supplies:", $"weather:\n  file: w.csv\n  {lines}\nsupplies:"), "site.yaml");
        Valvewright.Files.Problems.Problem problem = Assert.Single(reading.Problems);
        Assert.Equal(found, problem.Found);
        Assert.Contains(message, problem.Message.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_survey_whose_file_has_wind_without_a_height_is_asked_for_it()
    {
        Site site = Surveyed("weather:\n  file: w.csv\n", apart: true);
        WeatherReading reading = SiteWeather.ReadBytes(site, "w.csv", "date,tmax_c,tmin_c,wind_ms\n2020-01-01,20,10,3\n"u8);
        Assert.Contains("how high the wind", Assert.Single(reading.Problems).Message.Text, StringComparison.Ordinal);
    }

    private static Site Surveyed(string weather, bool apart = false)
    {
        string text = SmallSite.With("supplies:", weather + "supplies:");
        SurveyReading reading = apart ? SurveyFiles.ParseApart(text, "site.yaml")
            : SurveyFiles.Parse(text, Path.Combine(Checkout.Root, "demo", "quarry-hill", "site.yaml"));
        return reading.Site ?? throw new InvalidOperationException(string.Join('\n', reading.Problems));
    }

    private static Site SiteOf(string demo) => SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", demo)).Site!;
}
