using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Tests.Weather;

/// <summary>NASA POWER's daily layouts, on the real files of the reference folder; expected values are read off those files.</summary>
public sealed class NasaPowerTests
{
    private const string Doy = "formats/nasapower_daily_csv_header+doy_2000.csv";
    private const string Kwh = "formats/nasapower_daily_csv_header+mo-dy_kwh_2000.csv";
    private const string Headerless = "formats/nasapower_daily_csv_headerless_athens_2022.csv";
    private const string Ascii = "formats/nasapower_daily_ascii_athens_2022.txt";
    private const string RealJson = "formats/nasapower_daily_json_2020-12_real.json";
    private const string RebuiltJson = "formats/nasapower_daily_json_2023_rebuilt-from-csv.json";

    [Fact]
    public void Csv_by_day_of_year_with_its_header_block()
    {
        WeatherReading reading = Samples.Read(Doy).Good();
        WeatherRecord record = reading.Record!;
        Assert.Equal(WeatherLayout.NasaPowerCsv, reading.Layout);
        Assert.Equal(new Place(38.298, 48.847, 719.72), record.Place);
        Assert.Equal(2, record.WindHeightM);
        DailyWeather day = record.Days[4];
        Assert.Equal(new LocalDate(2000, 1, 5), day.Date);
        Assert.Equal((6.27, 4.23, 4.0, 4.87, 5.77, 92.83, 1.89),
            (day.TmaxC, day.TminC, day.DewPointC, day.RadiationMjM2, day.RainMm, day.RhMeanPercent, day.WindMs));
        Assert.True(reading.Notes(WeatherNoteKind.Assumed, "grid cell"));
    }

    /// <summary>The file's last five rows hold only -999: they are no days, and the header's period is then not reached.</summary>
    [Fact]
    public void Fill_values_are_no_weather()
    {
        WeatherReading reading = Samples.Read(Doy).Good();
        Assert.Equal(366, reading.Record!.Days.Count);
        Assert.Equal(new LocalDate(2000, 12, 31), reading.Record.Days[^1].Date);
        Assert.True(reading.Notes(WeatherNoteKind.Found, "The last 5 days hold only fill values"));
    }

    /// <summary>1 January 2000: 3.52 kW-hr/m2/day; wind only at 10 m; the header says through 2024, the rows end in 2000.</summary>
    [Fact]
    public void Csv_by_month_and_day_in_kilowatt_hours()
    {
        WeatherReading reading = Samples.Read(Kwh).Good();
        DailyWeather day = reading.Record!.Days[0];
        Assert.Equal(3.52 * 3.6, day.RadiationMjM2, 9);
        Assert.Equal((23.16, 9.6, -9.07, 1.75), (day.TmaxC, day.TminC, day.DewPointC, day.WindMs));
        Assert.Equal(10, reading.Record.WindHeightM);
        Assert.True(reading.Notes(WeatherNoteKind.Warning, "may have been cut"));
    }

    [Theory]
    [InlineData(Headerless, WeatherLayout.NasaPowerCsv)]
    [InlineData(Ascii, WeatherLayout.NasaPowerText)]
    public void Without_a_header_the_unit_of_radiation_is_judged_aloud(string file, WeatherLayout layout)
    {
        WeatherReading reading = Samples.Read(file).Good();
        Assert.Equal(layout, reading.Layout);
        Assert.Equal(32, reading.Record!.Days.Count);
        Assert.Equal(8.78, reading.Record.Days[0].RadiationMjM2);
        Assert.Equal(new LocalDate(2022, 2, 1), reading.Record.Days[^1].Date);
        Assert.True(reading.Notes(WeatherNoteKind.Assumed, "MJ/m² taken, because"));
        Assert.True(reading.Notes(WeatherNoteKind.Warning, "does not give the station's place"));
    }

    [Fact]
    public void The_two_tables_of_athens_hold_the_same() =>
        Assert.Equal(Samples.Read(Headerless).Record!.Days, Samples.Read(Ascii).Record!.Days);

    [Fact]
    public void Without_a_header_radiation_that_could_be_either_must_be_declared()
    {
        const string Text = "YEAR,DOY,ALLSKY_SFC_SW_DWN,T2M_MAX,T2M_MIN\n2022,1,5,20,10\n";
        Assert.Contains("does not state the unit of radiation", Samples.Text(Text).OnlyProblem().Message, StringComparison.Ordinal);
        WeatherReadOptions options = new() { ColumnUnits = new Dictionary<string, string> { ["ALLSKY_SFC_SW_DWN"] = "kWh/m2" } };
        Assert.Equal(18, Samples.Text(Text, options).Good().Record!.Days[0].RadiationMjM2, 9);
    }

    [Fact]
    public void Json_of_one_parameter_holds_no_use_but_is_understood()
    {
        Problem problem = Samples.Read(RealJson).OnlyProblem();
        Assert.Contains("neither temperatures", problem.Message, StringComparison.Ordinal);
    }

    /// <summary>Real values in a container built for parsing tests (see the description beside the file).</summary>
    [Fact]
    public void Json_is_read()
    {
        WeatherReading reading = Samples.Read(RebuiltJson).Good();
        Assert.Equal(WeatherLayout.NasaPowerJson, reading.Layout);
        Assert.Equal(new Place(38.298, 48.847, 719.72), reading.Record!.Place);
        Assert.Equal(365, reading.Record.Days.Count);
        Dictionary<LocalDate, DailyWeather> csv = Samples.Read("nasapower_lankaran-hills.csv").Record!.Days.ToDictionary(day => day.Date);
        Assert.All(reading.Record.Days, day =>
        {
            Assert.Equal(csv[day.Date].TmaxC, day.TmaxC);
            Assert.Equal(csv[day.Date].RainMm, day.RainMm);
            Assert.Equal(csv[day.Date].RadiationMjM2, day.RadiationMjM2);
        });
    }

    [Fact]
    public void A_header_that_never_ends_is_located() =>
        Assert.Contains("inside its header", Samples.Text("-BEGIN HEADER-\nNASA/POWER\n").Problems[0].Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("YEAR,DOY,T2M_MAX,T2M_MIN\n2023,366,20,10\n", 2, 1)]
    [InlineData("YEAR,MO,DY,T2M_MAX,T2M_MIN\n2023,2,30,20,10\n", 2, 1)]
    [InlineData("YEAR,DOY,T2M_MAX,T2M_MIN\n2023,36,20,1O\n", 2, 12)]
    [InlineData("YEAR,DOY,T2M_MAX,T2M_MIN\n2023,36,20\n", 2, 11)]
    public void A_slip_in_a_row_is_located(string text, int line, int column)
    {
        Problem problem = Samples.Text(text).OnlyProblem();
        Assert.Equal((line, column), (problem.Line, problem.Column));
    }

    [Fact]
    public void Json_that_ends_early_is_located()
    {
        string text = File.ReadAllText(Samples.PathOf(RebuiltJson));
        Problem problem = Samples.Text(text[..5000]).OnlyProblem();
        Assert.Contains("not whole JSON", problem.Message, StringComparison.Ordinal);
        Assert.Equal(text[..5000].Split('\n').Length, problem.Line);
    }

    [Fact]
    public void A_date_twice_in_json_is_located()
    {
        string text = File.ReadAllText(Samples.PathOf(RebuiltJson)).Replace("\"20230102\"", "\"20230101\"", StringComparison.Ordinal);
        Problem first = Samples.Text(text).Problems[0];
        Assert.Contains("date twice", first.Message, StringComparison.Ordinal);
        Assert.True(first.Line > 1 && first.Column > 1);
    }
}
