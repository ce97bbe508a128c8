using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Tests.Weather;

public sealed class PlainCsvTests
{
    /// <summary>Counts and values as they stand in the files (README of the weather folder).</summary>
    [Theory]
    [InlineData("azmet_06_maricopa.csv", 6575, "2003-01-01", "2020-12-31")]
    [InlineData("knmi_260_debilt.csv", 14610, "1980-01-01", "2019-12-31")]
    [InlineData("agrimet_FALN_fallon.csv", 365, "2015-01-01", "2015-12-31")]
    [InlineData("meteoswiss_REH.csv", 16802, "1979-01-01", "2024-12-31")]
    [InlineData("ghcnd_ottawa-cda.csv", -1, "1889-11-01", "2022-09-09")]
    public void Reference_records_are_read_whole(string name, int days, string first, string last)
    {
        WeatherRecord record = Samples.Read(name).Good().Record!;
        if (days >= 0)
        {
            Assert.Equal(days, record.Days.Count);
        }

        Assert.Equal(first, record.Days[0].Date.ToString("uuuu-MM-dd", null));
        Assert.Equal(last, record.Days[^1].Date.ToString("uuuu-MM-dd", null));
    }

    [Fact]
    public void Values_land_in_their_places()
    {
        DailyWeather day = Samples.Read("azmet_06_maricopa.csv").Good().Record!.Days[0];
        Assert.Equal(17.5, day.TmaxC);
        Assert.Equal(-0.5, day.TminC);
        Assert.Equal(95.4, day.RhMaxPercent);
        Assert.Equal(24.9, day.RhMinPercent);
        Assert.True(double.IsNaN(day.RhMeanPercent));
        Assert.Equal(-0.1, day.DewPointC);
        Assert.Equal(12.48, day.RadiationMjM2);
        Assert.Equal(1, day.WindMs);
        Assert.Equal(0, day.RainMm);
        Assert.Equal(1.5, day.PublishedEtoMm);
    }

    [Fact]
    public void A_recomputed_eto_column_is_not_taken_for_a_published_one()
    {
        WeatherReading reading = Samples.Read("nasapower_lankaran-hills.csv").Good();
        Assert.All(reading.Record!.Days, day => Assert.True(double.IsNaN(day.PublishedEtoMm)));
        Assert.True(reading.Notes(WeatherNoteKind.Found, "Columns not used: eto_fao56_mm"));
    }

    [Theory]
    [InlineData("tmax (F)", "122", 50)]
    [InlineData("tmax [°F]", "32", 0)]
    [InlineData("tmax_k", "273.15", 0)]
    [InlineData("Max Temp (degC)", "21.5", 21.5)]
    public void Temperatures_come_in_any_unit(string header, string value, double celsius)
    {
        WeatherReading reading = Samples.Text($"date,{header},tmin_c\n2021-06-01,{value},-90\n");
        Assert.Equal(celsius, reading.Good().Record!.Days[0].TmaxC, 9);
    }

    /// <summary>Definitions: inch 25.4 mm, mile 1609.344 m, knot 1852 m/h, kWh 3.6 MJ, W over a day 0.0864 MJ.</summary>
    [Theory]
    [InlineData("rain [in]", 1, 25.4)]
    [InlineData("rain_cm", 2, 20)]
    [InlineData("rain (mm/day)", 2, 2)]
    public void Rain_comes_in_any_unit(string header, double value, double mm) =>
        Assert.Equal(mm, Samples.Text($"date,tmax_c,tmin_c,{header}\n2021-06-01,20,10,{value}\n").Good().Record!.Days[0].RainMm, 9);

    [Theory]
    [InlineData("wind (km/h)", 36, 10)]
    [InlineData("wind_mph", 10, 4.4704)]
    [InlineData("wind [kn]", 10, 5.144444)]
    [InlineData("wind [miles/day]", 100, 1.862667)]
    [InlineData("wind m s-1", 3, 3)]
    public void Wind_comes_in_any_unit(string header, double value, double metresPerSecond) =>
        Assert.Equal(metresPerSecond, Samples.Text($"date,tmax_c,tmin_c,{header}\n2021-06-01,20,10,{value}\n")
            .Good().Record!.Days[0].WindMs, 6);

    [Theory]
    [InlineData("rs [kWh/m2]", 5, 18)]
    [InlineData("rs (W/m²)", 261, 22.5504)]
    [InlineData("solar_radiation [MJ m-2 d-1]", 20, 20)]
    [InlineData("rs_j_cm2", 2000, 20)]
    [InlineData("rs (kW-hr/m^2/day)", 5, 18)]
    public void Radiation_comes_in_any_unit(string header, double value, double megajoules) =>
        Assert.Equal(megajoules, Samples.Text($"date,tmax_c,tmin_c,{header}\n2021-06-01,20,10,{value}\n")
            .Good().Record!.Days[0].RadiationMjM2, 9);

    [Fact]
    public void Facts_before_the_header_say_where_the_weather_is_from()
    {
        WeatherRecord record = Samples.Text(
            "# station: Mill Lane\n# latitude: 47.4\n# longitude: 8.5\n# elevation_m: 444\n# wind_height_m: 10\n# source: own readings\n" +
            "date;tmax_c;tmin_c\n2021-06-01;20;10\n").Good().Record!;
        Assert.Equal("Mill Lane", record.Station);
        Assert.Equal(new Place(47.4, 8.5, 444), record.Place);
        Assert.Equal(10, record.WindHeightM);
        Assert.Equal("own readings", record.Source);
    }

    [Fact]
    public void What_the_person_says_about_place_and_wind_wins()
    {
        WeatherReadOptions options = new() { Place = new Place(1, 2, 3), WindHeightM = 3 };
        WeatherRecord record = Samples.Text("# latitude: 47.4\ndate,tmax_c,tmin_c,wind_10m [m/s]\n2021-06-01,20,10,3\n", options)
            .Good().Record!;
        Assert.Equal(new Place(1, 2, 3), record.Place);
        Assert.Equal(3, record.WindHeightM);
    }

    [Fact]
    public void Unknown_wind_height_is_assumed_aloud()
    {
        WeatherReading reading = Samples.Text("date,tmax_c,tmin_c,wind_m_s\n2021-06-01,20,10,3\n").Good();
        Assert.Equal(2, reading.Record!.WindHeightM);
        Assert.True(reading.Notes(WeatherNoteKind.Assumed, "2 m taken"));
    }

    /// <summary>Four years in degrees C, mm and m/s without saying so: taken with a warning, or as declared.</summary>
    [Fact]
    public void A_header_without_units_is_judged_by_its_values_with_a_warning()
    {
        WeatherReading reading = Samples.Read("noaa_seattle_2012-2015_vega.csv").Good();
        Assert.Equal(12.8, reading.Record!.Days[0].TmaxC);
        Assert.Equal(10.9, reading.Record.Days[1].RainMm);
        Assert.True(reading.Notes(WeatherNoteKind.Warning, "The header gives no units"));
        Assert.True(reading.Notes(WeatherNoteKind.Found, "Columns not used: weather"));
    }

    [Fact]
    public void Declared_units_are_used_without_a_warning()
    {
        WeatherReadOptions options = new()
        {
            Units = UnitSystem.Metric,
            ColumnUnits = new Dictionary<string, string> { ["wind"] = "km/h" },
        };
        WeatherReading reading = Samples.Read("noaa_seattle_2012-2015_vega.csv", options).Good();
        Assert.False(reading.Notes(WeatherNoteKind.Warning, "units"));
        Assert.True(reading.Notes(WeatherNoteKind.Assumed, "as declared"));
        Assert.Equal(4.7 / 3.6, reading.Record!.Days[0].WindMs, 9);
    }

    [Fact]
    public void A_short_record_without_units_must_be_declared()
    {
        WeatherReading reading = Samples.Text("date,tmax,tmin\n2021-06-01,45,40\n2021-06-02,46,41\n");
        Assert.Null(reading.Record);
        Assert.Contains("unit is not stated", reading.Problems[0].Message, StringComparison.Ordinal);
        Assert.Equal((1, 6), (reading.Problems[0].Line, reading.Problems[0].Column));
    }

    [Fact]
    public void Fahrenheit_shows_itself_above_the_hottest_air_on_earth()
    {
        WeatherReading reading = Samples.Text("date,tmax,tmin,rain\n2021-06-01,95,60,0.5\n2021-06-02,80,61,0\n").Good();
        Assert.Equal(35, reading.Record!.Days[0].TmaxC, 9);
        Assert.Equal(12.7, reading.Record.Days[0].RainMm, 9);
    }

    [Theory]
    [InlineData("date,tmaxx_c,tmin_c\n2021-06-01,20,10\n", 1, 6, "tmaxx_c", "tmax")]
    [InlineData("date,tmax_c,tmin_c,rian_mm\n2021-06-01,20,10,1\n", 1, 20, "rian_mm", "rain")]
    [InlineData("date,tmax [in],tmin_c\n2021-06-01,20,10\n", 1, 6, "in", null)]
    [InlineData("date,tmax_c,tmin_c,rain [mn]\n2021-06-01,20,10,1\n", 1, 20, "mn", "mm")]
    [InlineData("date,tmax_c,tmin_c\n2021-06-01,warm,10\n", 2, 12, "warm", null)]
    [InlineData("date,tmax_c,tmin_c\n2021-06-01,NaN,10\n", 2, 12, "NaN", null)]
    [InlineData("date,tmax_c,tmin_c\n2021-06-01,1e999,10\n", 2, 12, "1e999", null)]
    [InlineData("date,tmax_c,tmin_c\n2021-06-01,\"20,5\",10\n", 2, 13, "20,5", null)]
    [InlineData("date,tmax_c,tmin_c\n2021-06-01,-999,10\n", 2, 12, "-999", null)]
    [InlineData("date,tmax_c,tmin_c\n2021-06-01,71,10\n", 2, 12, "71", null)]
    [InlineData("date,tmax_c,tmin_c,rain_mm\n2021-06-01,20,10,-1\n", 2, 18, "-1", null)]
    [InlineData("date,tmax_c,tmin_c\n2021-02-29,20,10\n", 2, 1, "2021-02-29", null)]
    [InlineData("date,tmax_c,tmin_c\n02/03/2021,20,10\n", 2, 1, "02/03/2021", null)]
    [InlineData("date,tmax_c,tmin_c\n2021-06-01,20,10\n2021-06-02,2", 3, 13, "2 fields", null)]
    [InlineData("date,tmax_c,tmin_c\n2021-06-01,20,10\n2021-06-01,20,10\n", 3, 1, "2021-06-01", null)]
    [InlineData("date,tmax_c,tmin_c\n2021-06-02,20,10\n2021-06-01,20,10\n", 3, 1, "2021-06-01", null)]
    [InlineData("date,tmax_c,tmin_c\n2021-06-01,\"20,10\n", 2, 13, "20,10", null)]
    [InlineData("date,tmax_c,tmin_c\n2021-06-01,20,10,5\n", 2, 18, "5", null)]
    [InlineData("dat,tmax_c,tmin_c\n2021-06-01,20,10\n", 1, 1, "dat,tmax_c,tmin_c", "date")]
    [InlineData("date,tmax_c,tmin_c,rain_mm,rain_in\n2021-06-01,20,10,1,1\n", 1, 28, "rain_in", null)]
    [InlineData("# latitude: 474\ndate,tmax_c,tmin_c\n2021-06-01,20,10\n", 1, 1, "474", null)]
    [InlineData("# latitud: 47\ndate,tmax_c,tmin_c\n2021-06-01,20,10\n", 1, 1, "latitud", "latitude")]
    public void A_slip_is_located(string text, int line, int column, string found, string? nearest)
    {
        Problem problem = Samples.Text(text).OnlyProblem();
        Assert.Equal((line, column, found, nearest), (problem.Line, problem.Column, problem.Found, problem.Nearest));
        Assert.NotEmpty(problem.Expected.Text);
        Assert.NotEmpty(problem.Message.Text);
    }

    [Fact]
    public void Swapped_temperature_columns_are_noticed() =>
        Assert.Contains("swapped", Samples.Text("date,tmax_c,tmin_c\n2021-06-01,10,20\n2021-06-02,11,19\n").OnlyProblem().Message,
            StringComparison.Ordinal);

    [Fact]
    public void A_file_without_temperatures_and_eto_is_of_no_use() =>
        Assert.Contains("neither temperatures", Samples.Text("date,rain_mm\n2021-06-01,10\n").OnlyProblem().Message,
            StringComparison.Ordinal);

    [Fact]
    public void Many_slips_are_listed_up_to_a_limit_and_counted()
    {
        string rows = string.Concat(Enumerable.Range(0, 500).Select(i => $"{new LocalDate(2020, 1, 1).PlusDays(i):uuuu-MM-dd},x,10\n"));
        WeatherReading reading = Samples.Text("date,tmax_c,tmin_c\n" + rows);
        Assert.InRange(reading.Problems.Count, 20, 21);
    }
}
