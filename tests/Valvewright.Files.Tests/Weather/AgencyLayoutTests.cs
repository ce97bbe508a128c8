using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Tests.Weather;

/// <summary>
/// The daily tables of agencies, as they publish them, are recognized by their content and give back the very days of the reference folder.
/// </summary>
public sealed class AgencyLayoutTests
{
    private const double Tenth = 0.0501;

    /// <summary>Weather of Zurich/Affoltern. Source: MeteoSwiss. Layout: its open data, daily.</summary>
    [Fact]
    public void MeteoSwiss_tables_are_read()
    {
        ListOf<DailyWeather> days = AsPublished.Days("meteoswiss_REH.csv", 14000, 400);
        WeatherReading reading = Same(WeatherLayout.MeteoSwissCsv, AsPublished.MeteoSwiss(days), days, windMs: Tenth);
        Assert.Equal((10.0, "REH", "MeteoSwiss"), (reading.Record!.WindHeightM, reading.Record.Station, reading.Record.Source));
        Assert.All(reading.Record.Days.Zip(days), pair =>
            Assert.Equal(pair.Second.VapourPressureKpa, pair.First.VapourPressureKpa, 0.0051));
    }

    /// <summary>Weather of De Bilt. Source: KNMI (CC BY 4.0). Layout: daily values of a station.</summary>
    [Fact]
    public void KNMI_tables_are_read_with_their_place()
    {
        ListOf<DailyWeather> days = AsPublished.Days("knmi_260_debilt.csv", 9000, 400);
        WeatherReading reading = Same(WeatherLayout.KnmiDaily, AsPublished.Knmi(days), days, windMs: Tenth);
        Assert.Equal((new Place(52.1, 5.18, 1.9), "DE BILT", 10.0),
            (reading.Record!.Place, reading.Record.Station, reading.Record.WindHeightM));
        Assert.All(reading.Record.Days.Zip(days), pair =>
            Assert.Equal((pair.Second.RhMaxPercent, pair.Second.RhMinPercent), (pair.First.RhMaxPercent, pair.First.RhMinPercent)));
    }

    [Fact]
    public void Rain_of_minus_one_is_less_than_half_a_tenth_and_Makkinks_evaporation_is_not_used()
    {
        DailyWeather day = Samples.Text("# STN,YYYYMMDD,   TN,   TX,   RH, EV24\n  260,20200101,   10,   50,   -1,    3\n")
            .Good().Record!.Days[0];
        Assert.Equal(0, day.RainMm);
        Assert.True(double.IsNaN(day.PublishedEtoMm));
    }

    /// <summary>Weather of Moore Park. Source: Met Eireann (CC BY 4.0). Layout: its daily files.</summary>
    [Fact]
    public void Met_Eireann_tables_are_read_with_their_place()
    {
        ListOf<DailyWeather> days = AsPublished.Days("meteireann_575_moorepark.csv", 6000, 400);
        WeatherReading reading = Same(WeatherLayout.MetEireannCsv, AsPublished.MetEireann(days), days, windMs: 0.026);
        Assert.Equal((new Place(52.164, -8.264, 46), "MOOREPARK", 10.0),
            (reading.Record!.Place, reading.Record.Station, reading.Record.WindHeightM));
        Assert.Contains("Met Eireann", reading.Record.Source, StringComparison.Ordinal);
    }

    /// <summary>Weather of Fallon. Source: US Bureau of Reclamation AgriMet. Layout: its daily answer.</summary>
    [Fact]
    public void AgriMet_tables_are_read_and_the_height_of_the_wind_is_asked_for()
    {
        ListOf<DailyWeather> days = AsPublished.Days("agrimet_FALN_fallon.csv", 0, 364);
        string text = AsPublished.AgriMet(days);
        WeatherReading reading = Same(WeatherLayout.AgriMetDaily, text, days, windMs: 0.001);
        Assert.True(reading.Record!.IsWindHeightAssumed);
        Assert.False(Samples.Text(text, new WeatherReadOptions { IsWindHeightNeeded = true }).Ok);
        Assert.All(reading.Record.Days.Zip(days), pair =>
            Assert.True(Math.Abs(pair.Second.DewPointC - pair.First.DewPointC) < 0.001 || double.IsNaN(pair.Second.DewPointC)));
    }

    [Fact]
    public void What_AgriMet_did_not_record_is_missing()
    {
        DailyWeather day = Samples.Text("BEGIN DATA\nDATE      ,   FALN MN  ,   FALN MX\n07/01/2015,   NO RECORD,       " +
            "98.60\n07/02/2015,   60.10,   998877.00\nEND DATA\n").Good().Record!.Days[0];
        Assert.True(double.IsNaN(day.TminC));
        Assert.Equal(37, day.TmaxC, 1e-9);
    }

    /// <summary>Weather of Maricopa. Source: University of Arizona AZMET. Layout: its raw daily data.</summary>
    [Fact]
    public void AZMET_rows_without_a_header_are_read()
    {
        ListOf<DailyWeather> days = AsPublished.Days("azmet_06_maricopa.csv", 1000, 400);
        WeatherReading reading = Same(WeatherLayout.AzmetDaily, AsPublished.Azmet(days), days, windMs: 1e-9);
        Assert.Equal((3.0, "AZMET station 6"), (reading.Record!.WindHeightM, reading.Record.Station));
        Assert.All(reading.Record.Days.Zip(days), pair =>
            Assert.Equal((pair.Second.DewPointC, pair.Second.PublishedEtoMm), (pair.First.DewPointC, pair.First.PublishedEtoMm)));
    }

    [Theory]
    [InlineData("# STN,YYYYMMDD,   TN,   TX\n  260,20200132,   10,   50\n", 2, "not a date")]
    [InlineData("station_abbr;reference_timestamp;tre200dx;tre200dn\nREH;01.13.2020 00:00;5;1\n", 2, "not a date")]
    [InlineData("Station Name: X\ndate,ind,maxtp,ind,mintp\n01-foo-2020,0,5,0,1\n", 3, "not a date")]
    [InlineData("BEGIN DATA\nDATE, X MX, X MN\n13/01/2020,5,1\nEND DATA\n", 3, "not a date")]
    [InlineData("# STN,YYYYMMDD,   TN,   TX\n  260,20200101,   10,   x\n", 2, "not a number")]
    [InlineData("# STN,YYYYMMDD,   TN,   TX\n  260,20200101,   10\n", 2, "ends early")]
    public void What_is_wrong_is_located(string text, int line, string message)
    {
        Valvewright.Files.Problems.Problem problem = Samples.Text(text).OnlyProblem();
        Assert.Equal(line, problem.Line);
        Assert.Contains(message, problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_several_stations_one_must_be_named()
    {
        const string Two = "station_abbr;reference_timestamp;tre200dx;tre200dn\nREH;01.01.2020 00:00;5;1\nSMA;01.01.2020 00:00;4;0\n";
        Assert.Contains("2 stations", Samples.Text(Two).OnlyProblem().Message, StringComparison.Ordinal);
        Assert.Equal(4, Samples.Text(Two, new WeatherReadOptions { Station = "SMA" }).Good().Record!.Days[0].TmaxC);
    }

    private static WeatherReading Same(WeatherLayout layout, string text, ListOf<DailyWeather> days, double windMs)
    {
        WeatherReading reading = Samples.Text(text).Good();
        Assert.Equal(layout, reading.Layout);
        Assert.Equal(days.Count, reading.Record!.Days.Count);
        foreach ((DailyWeather read, DailyWeather real) in reading.Record.Days.Zip(days))
        {
            Assert.Equal(real.Date, read.Date);
            Near(real.TmaxC, read.TmaxC, 0.01);
            Near(real.TminC, read.TminC, 0.01);
            Near(real.RainMm, read.RainMm, real.RainMm < 0.05 ? 0.03 : 0.01);
            Near(real.RadiationMjM2, read.RadiationMjM2, 0.05);
            Near(real.WindMs, read.WindMs, windMs);
        }

        return reading;

        static void Near(double expected, double actual, double within) =>
            Assert.True((double.IsNaN(expected) && double.IsNaN(actual)) || Math.Abs(expected - actual) <= within,
                $"{expected} became {actual}");
    }
}
