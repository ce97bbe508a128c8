using System.Globalization;
using System.Text;
using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Tests.Weather;

/// <summary>
/// EnergyPlus weather files, laid out after the data dictionary of the EnergyPlus documentation (Auxiliary Programs); the hours are
/// invented so that a day's values can be worked out by hand.
/// </summary>
public sealed class EnergyPlusWeatherTests
{
    /// <summary>Hour h has h degrees C, dew point 5, humidity 100 - h, 100 Wh/m2 from hour 7 to 18, wind 3 m/s and 0.5 mm of
    /// rain.</summary>
    [Fact]
    public void Hours_become_days()
    {
        WeatherReading reading = Samples.Text(
            File(h => Row(2015, 7, 1, h) + (h == 24 ? string.Concat(Enumerable.Range(1, 24).Select(n => Row(2015, 7, 2, n))) : ""))).Good();
        Assert.Equal(WeatherLayout.EnergyPlusWeather, reading.Layout);
        Assert.Equal(2, reading.Record!.Days.Count);
        DailyWeather day = reading.Record.Days[0];
        Assert.Equal((new LocalDate(2015, 7, 1), 24.0, 1.0, 99.0, 76.0, 5.0, 3.0),
            (day.Date, day.TmaxC, day.TminC, day.RhMaxPercent, day.RhMinPercent, day.DewPointC, day.WindMs));
        Assert.Equal(12 * 100 * 0.0036, day.RadiationMjM2, 1e-9);
        Assert.Equal(12, day.RainMm, 1e-9);
        Assert.Equal((new Place(33.43, -111.99, 337), "Sample, USA", 10.0, true),
            (reading.Record.Place, reading.Record.Station, reading.Record.WindHeightM, reading.Record.IsWindHeightAssumed));
    }

    [Fact]
    public void Missing_hours_are_not_measured()
    {
        DailyWeather day = Samples.Text(
            File(h => Row(2015, 7, 1, h, dry: h <= 6 ? "99.9" : null, rain: "999") + (
                h == 24 ? string.Concat(Enumerable.Range(1, 24).Select(n => Row(2015, 7, 2, n))) : ""))).Good().Record!.Days[0];
        Assert.True(double.IsNaN(day.TmaxC) && double.IsNaN(day.RainMm));
        Assert.Equal(3, day.WindMs, 1e-9);
    }

    [Fact]
    public void A_typical_year_is_told_and_laid_on_one_year()
    {
        WeatherReading reading = Samples.Text(
            File(h => Row(1988, 1, 1, h) + (h == 24 ? string.Concat(Enumerable.Range(1, 24).Select(n => Row(1979, 2, 1, n))) : ""))).Good();
        Assert.Equal([new LocalDate(2001, 1, 1), new LocalDate(2001, 2, 1)], reading.Record!.Days.Select(d => d.Date));
        Assert.True(reading.Notes(WeatherNoteKind.Warning, "typical year put together from 1979, 1988"));
    }

    [Theory]
    [InlineData("2015,7,32,1,60,x", "this row has no date")]
    [InlineData("2015,7,1,1,60,x,warm", "not a number")]
    public void What_is_wrong_is_located(string row, string message)
    {
        Valvewright.Files.Problems.Problem problem = Samples.Text(File(h => h == 1 ? row + "\n" : "")).OnlyProblem();
        Assert.Equal(9, problem.Line);
        Assert.Contains(message, problem.Message, StringComparison.Ordinal);
    }

    /// <summary>Two whole days.</summary>
    internal static string TwoDays() =>
        File(h => Row(2015, 7, 1, h) + (h == 24 ? string.Concat(Enumerable.Range(1, 24).Select(n => Row(2015, 7, 2, n))) : ""));

    private static string File(Func<int, string> hour)
    {
        StringBuilder text = new("LOCATION,Sample,AZ,USA,invented,722780,33.43,-111.99,-7.0,337.0\nDESIGN CONDITIONS,0\nTYPICAL/EXTREME " +
            "PERIODS,0\nGROUND TEMPERATURES,0\nHOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,invented\nCOMMENTS 2,invented\nDATA " +
                "PERIODS,1,1,Data,Sunday,1/1,12/31\n");
        for (int h = 1; h <= 24; h++)
        {
            text.Append(hour(h));
        }

        return text.ToString();
    }

    private static string Row(int year, int month, int day, int hour, string? dry = null, string rain = "0.5")
    {
        string radiation = hour is >= 7 and <= 18 ? "100" : "0";
        return string.Create(CultureInfo.InvariantCulture,
            $"{year},{month},{day},{hour},60,?9?9?9,{dry ?? $"{hour}.0"},5.0,{100 - hour},97000,0,0,300,{radiation},0,0,0,0,0,0,180,3.0,0,0,16,77777,9,999999999,10,0.1,0,88,0.2,{rain},1\n");
    }
}
