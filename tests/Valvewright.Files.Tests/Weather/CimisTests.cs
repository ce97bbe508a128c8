using NodaTime;
using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Tests.Weather;

/// <summary>CIMIS daily CSV, on the real rows of the reference folder; expected values are read off that file.</summary>
public sealed class CimisTests
{
    private const string FivePointsFile = "formats/cimis_daily_csv_metric_fivepoints_2021.csv";
    private static readonly WeatherReadOptions FivePoints = new() { Station = "2" };

    [Fact]
    public void Two_stations_must_be_told_apart()
    {
        Problem problem = Samples.Read(FivePointsFile).OnlyProblem();
        Assert.Contains("2 FivePoints; 52 San Luis Obispo", problem.Expected, StringComparison.Ordinal);
        Assert.Equal(37, problem.Line);
        Assert.Equal(2, Samples.Read(FivePointsFile, new WeatherReadOptions { Station = "san luis obispo" }).Good().Record!.Days.Count);
    }

    [Fact]
    public void Metric_values()
    {
        WeatherReading reading = Samples.Read(FivePointsFile, FivePoints).Good();
        DailyWeather day = reading.Record!.Days[0];
        Assert.Equal(WeatherLayout.CimisCsv, reading.Layout);
        Assert.Equal(35, reading.Record.Days.Count);
        Assert.Equal(new LocalDate(2021, 9, 1), day.Date);
        Assert.Equal(261 * 0.0864, day.RadiationMjM2, 9);
        Assert.Equal((32.5, 11.2, 66, 17, 32, 4.8, 1.88, 6.00, 0.86), (day.TmaxC, day.TminC, day.RhMaxPercent, day.RhMinPercent,
            day.RhMeanPercent, day.DewPointC, day.WindMs, day.PublishedEtoMm, day.VapourPressureKpa));
        Assert.Equal(2, reading.Record.WindHeightM);
        Assert.Equal("2 FivePoints", reading.Record.Station);
    }

    /// <summary>9 September 2021: radiation and tmin flagged R (dropped), tmax not. 24 December: rain flagged H (kept). 19 September: wind
    /// Y (kept).</summary>
    [Fact]
    public void Flags_decide_which_values_are_kept()
    {
        WeatherReading reading = Samples.Read(FivePointsFile, FivePoints).Good();
        Dictionary<LocalDate, DailyWeather> days = reading.Record!.Days.ToDictionary(day => day.Date);
        DailyWeather flagged = days[new LocalDate(2021, 9, 9)];
        Assert.True(double.IsNaN(flagged.RadiationMjM2));
        Assert.True(double.IsNaN(flagged.TminC));
        Assert.Equal(39.9, flagged.TmaxC);
        Assert.Equal(3.4, days[new LocalDate(2021, 12, 24)].RainMm);
        Assert.Equal(4.06, days[new LocalDate(2021, 9, 19)].WindMs);
        Assert.True(double.IsNaN(days[new LocalDate(2021, 10, 27)].RainMm));
        Assert.True(reading.Notes(WeatherNoteKind.Found, "values left out for their quality flag (R: 5)"));
    }

    /// <summary>Older export: flag columns all named qc, Stn Id, W/sq.m, blanks and -- for what is missing (as described beside the
    /// sample).</summary>
    [Fact]
    public void Repeated_flag_columns_and_dashes_of_older_exports()
    {
        WeatherReading reading = Samples.Text(
            "Stn Id,Stn Name,CIMIS Region,Date,Jul,ETo (mm),qc,Precip (mm),qc,Sol Rad (W/sq.m),qc,Max Air Temp (C),qc,Min Air Temp (C),qc\n" +
            "2,FivePoints,San Joaquin Valley,9/1/2021,244,6.00, ,--, ,261,R,32.5, ,11.2,Y\n").Good();
        DailyWeather day = reading.Record!.Days[0];
        Assert.True(double.IsNaN(day.RainMm));
        Assert.True(double.IsNaN(day.RadiationMjM2));
        Assert.Equal((32.5, 11.2), (day.TmaxC, day.TminC));
    }

    /// <summary>US export: inch, Ly/day x 0.041868, mBar, degrees F, mph (units as described beside the sample; no real file at
    /// hand).</summary>
    [Fact]
    public void Us_units()
    {
        DailyWeather day = Samples.Text(
            "Stn Id,Stn Name,CIMIS Region,Date,Jul,ETo (in),qc,Precip (in),qc,Sol Rad (Ly/day),qc,Avg Vap Pres (mBars),qc,Max Air Temp " +
                "(F),qc,Min Air Temp (F),qc,Dew Point (F),qc,Avg Wind Speed (mph),qc\n" +
            "2,FivePoints,San Joaquin Valley,9/1/2021,244,0.24,,0.10,,539,,8.6,,90.5,,52.2,,40.6,,4.2,\n").Good().Record!.Days[0];
        Assert.Equal(0.24 * 25.4, day.PublishedEtoMm, 9);
        Assert.Equal(2.54, day.RainMm, 9);
        Assert.Equal(22.567, day.RadiationMjM2, 3);
        Assert.Equal(0.86, day.VapourPressureKpa, 9);
        Assert.Equal(32.5, day.TmaxC, 9);
        Assert.Equal(4.2 * 0.44704, day.WindMs, 9);
    }

    [Fact]
    public void A_slip_is_located()
    {
        string text = File.ReadAllText(Samples.PathOf(FivePointsFile))
            .Replace("09/02/2021,245,5.39", "09/31/2021,245,5.39", StringComparison.Ordinal);
        Problem problem = Samples.Text(text, FivePoints).Problems[0];
        Assert.Equal((3, 33, "09/31/2021"), (problem.Line, problem.Column, problem.Found));
    }
}
