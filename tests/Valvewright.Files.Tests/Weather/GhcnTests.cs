using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Tests.Weather;

/// <summary>NOAA GHCN-Daily in its four layouts, on the real files of the reference folder; expected values are read off those
/// files.</summary>
public sealed class GhcnTests
{
    private const string Dly = "formats/ghcnd_dly_ottawa_2015-2017.dly";
    private const string WholeDly = "formats/ghcnd_CA006105976_ottawa-cda_1889-2022.dly";
    private const string DeathValley = "formats/ghcnd_cdo_csv_death-valley_2021.csv";
    private const string Sitka = "formats/ghcnd_cdo_csv_sitka_2021.csv";
    private const string Long = "formats/ghcnd_long_csv_death-valley_2021_rewritten.csv";

    [Fact]
    public void A_dly_file_is_in_tenths()
    {
        WeatherReading reading = Samples.Read(Dly).Good();
        DailyWeather day = reading.Record!.Days[2];
        Assert.Equal(WeatherLayout.GhcnDaily, reading.Layout);
        Assert.Equal((new LocalDate(2015, 1, 3), -3.5, -14.0, 21.7), (day.Date, day.TmaxC, day.TminC, Math.Round(day.RainMm, 9)));
        Assert.Equal("CA006105976", reading.Record.Station);
        Assert.True(double.IsNaN(reading.Record.Place.LatitudeDeg));
        Assert.True(reading.Notes(WeatherNoteKind.Warning, "does not give the station's place"));
    }

    /// <summary>The same station as CSV made by another reader while the reference folder was collected: tmax, tmin and rain agree day by
    /// day.</summary>
    [Fact]
    public void The_whole_dly_record_agrees_with_its_csv()
    {
        Dictionary<LocalDate, DailyWeather> csv = Samples.Read("ghcnd_ottawa-cda.csv").Good().Record!.Days.ToDictionary(day => day.Date);
        WeatherReading reading = Samples.Read(WholeDly).Good();
        int compared = 0;
        foreach (DailyWeather day in reading.Record!.Days)
        {
            if (csv.TryGetValue(day.Date, out DailyWeather other))
            {
                Assert.Equal(other.TmaxC, day.TmaxC, 6);
                Assert.Equal(other.TminC, day.TminC, 6);
                compared++;
                if (!double.IsNaN(other.RainMm))
                {
                    Assert.Equal(other.RainMm, day.RainMm, 6);
                }
            }
        }

        Assert.True(compared > 48_000, $"{compared} days compared");
        Assert.True(reading.Notes(WeatherNoteKind.Assumed, "multi-day totals of rain spread"));
    }

    /// <summary>November 1889: no rain on the 2nd and 3rd, MDPR 5.6 mm on the 3rd, without DAPR.</summary>
    [Fact]
    public void A_multi_day_total_is_spread_over_the_days_before_it()
    {
        ListOfDays days = new(Samples.Read(WholeDly).Good());
        Assert.Equal(0, days[1889, 11, 1].RainMm);
        Assert.Equal(2.8, days[1889, 11, 2].RainMm, 9);
        Assert.Equal(2.8, days[1889, 11, 3].RainMm, 9);
        Assert.Equal(0, days[1889, 11, 4].RainMm);
    }

    [Fact]
    public void A_stated_number_of_days_decides_how_far_a_total_is_spread()
    {
        string text = "US1CACR0001,20210101,TMAX,200,,,N\nUS1CACR0001,20210101,TMIN,100,,,N\nUS1CACR0001,20210101,PRCP,0,,,N\n" +
            "US1CACR0001,20210105,MDPR,120,,,N\nUS1CACR0001,20210105,DAPR,3,,,N\n";
        ListOfDays days = new(Samples.Text(text).Good());
        Assert.Equal(4, days[2021, 1, 3].RainMm, 9);
        Assert.Equal(4, days[2021, 1, 5].RainMm, 9);
        Assert.Equal(4, days.Count);
    }

    /// <summary>Values with a quality flag in the .dly file, counted by hand: grep of the seventh character of each group.</summary>
    [Fact]
    public void Values_that_failed_a_check_are_dropped_and_counted()
    {
        int flagged = 0;
        string line = File.ReadLines(Samples.PathOf(WholeDly)).First(l => l[17..21] == "TMAX");
        char[] altered = line.ToCharArray();
        altered[21 + 6] = 'X';
        WeatherReading reading = Samples
            .Text(new string(altered) + "\n" + line.Replace("TMAX", "TMIN", StringComparison.Ordinal) + "\n").Good();
        Assert.True(double.IsNaN(reading.Record!.Days[0].TmaxC));
        Assert.True(reading.Notes(WeatherNoteKind.Found, "1 values left out: they failed"));
        foreach (string each in File.ReadLines(Samples.PathOf(WholeDly)).Where(l => l[17..21] is "TMAX" or "TMIN" or "PRCP" or "MDPR"))
        {
            for (int at = 21; at + 6 < each.Length; at += 8)
            {
                flagged += each.Substring(at, 5) != "-9999" && each[at + 6] != ' ' ? 1 : 0;
            }
        }

        Assert.Equal(flagged > 0, Samples.Read(WholeDly).Notes(WeatherNoteKind.Found, $"{flagged} values left out"));
    }

    [Theory]
    [InlineData(DeathValley, 365)]
    [InlineData(Sitka, 365)]
    public void An_order_in_us_units_is_recognised_by_its_values_aloud(string file, int days)
    {
        WeatherReading reading = Samples.Read(file).Good();
        Assert.Equal(WeatherLayout.GhcnOrderCsv, reading.Layout);
        Assert.Equal(days, reading.Record!.Days.Count);
        Assert.True(reading.Notes(WeatherNoteKind.Warning, "US (°F, inch, mph) taken, because"));
    }

    /// <summary>First row of each file: 71/51 °F; 44/40 °F, 0.01 in, 8.72 mph.</summary>
    [Fact]
    public void Order_values_become_metric()
    {
        DailyWeather valley = Samples.Read(DeathValley).Record!.Days[0];
        Assert.Equal((71 - 32) / 1.8, valley.TmaxC, 9);
        Assert.Equal((51 - 32) / 1.8, valley.TminC, 9);
        WeatherReading reading = Samples.Read(Sitka);
        DailyWeather sitka = reading.Record!.Days[0];
        Assert.Equal(0.254, sitka.RainMm, 9);
        Assert.Equal(8.72 * 0.44704, sitka.WindMs, 9);
        Assert.Equal(10, reading.Record.WindHeightM);
    }

    [Fact]
    public void Declared_units_win_over_the_values()
    {
        WeatherReading reading = Samples.Read(Sitka, new WeatherReadOptions { Units = UnitSystem.UsCustomary }).Good();
        Assert.False(reading.Notes(WeatherNoteKind.Warning, "units"));
        Assert.True(reading.Notes(WeatherNoteKind.Assumed, "Units as declared"));
        Assert.False(Samples.Read(DeathValley, new WeatherReadOptions { Units = UnitSystem.Metric }).Ok);
    }

    [Fact]
    public void A_metric_order_is_recognised() =>
        Assert.Equal(
            21.7,
            Samples.Text(
                "\"STATION\",\"NAME\",\"DATE\",\"PRCP\",\"TMAX\",\"TMIN\"\n\"USC1\",\"A, CA US\",\"2021-01-01\",\"2.5\",\"21.7\",\"10.6\"\n").Good().Record!.Days[0].TmaxC);

    [Fact]
    public void An_order_whose_values_tell_nothing_must_be_declared() =>
        Assert.Contains("does not state its units", Samples.Text("STATION,DATE,TMAX,TMIN\nUSC1,2021-01-01,41,30\nUSC1,2021-01-02,40,30\n")
            .OnlyProblem().Message, StringComparison.Ordinal);

    /// <summary>The Death Valley order written in the long layout: 71 F and 51 F on 1 January are 217 and 106 tenths of a degree
    /// C.</summary>
    [Fact]
    public void The_long_csv_is_in_tenths_and_holds_what_the_order_holds()
    {
        WeatherReading reading = Samples.Read(Long).Good();
        Assert.Equal(WeatherLayout.GhcnLongCsv, reading.Layout);
        ListOf<DailyWeather> order = Samples.Read("formats/ghcnd_cdo_csv_death-valley_2021.csv").Good().Record!.Days;
        Assert.Equal(365, reading.Record!.Days.Count);
        Assert.Equal((21.7, 10.6), (Math.Round(reading.Record.Days[0].TmaxC, 9), Math.Round(reading.Record.Days[0].TminC, 9)));
        Assert.All(reading.Record.Days.Zip(order), pair =>
        {
            Assert.Equal(pair.Second.Date, pair.First.Date);
            Assert.Equal(pair.Second.TmaxC, pair.First.TmaxC, 0.051);
            Assert.Equal(pair.Second.TminC, pair.First.TminC, 0.051);
            Assert.Equal(pair.Second.RainMm, pair.First.RainMm, 0.051);
        });
    }

    [Fact]
    public void A_copy_of_the_long_csv_with_a_header_and_a_place_is_the_same()
    {
        string header = "ID,YEAR/MONTH/DAY,ELEMENT,DATA VALUE,M-FLAG,Q-FLAG,S-FLAG,OBS-TIME,LATITUDE,LONGITUDE,ELEVATION,NAME\n";
        string text = header + string
            .Concat(File.ReadLines(Samples.PathOf(Long)).Select(line => $"{line},36.4622,-116.8669,-59.1,DEATH VALLEY NATIONAL PARK\n"));
        WeatherRecord record = Samples.Text(text).Good().Record!;
        Assert.Equal(Samples.Read(Long).Record!.Days, record.Days);
        Assert.Equal(new Place(36.4622, -116.8669, -59.1), record.Place);
    }

    [Fact]
    public void Several_stations_in_one_file_must_be_named()
    {
        string text =
            "USC00041758,20210101,TMAX,-36,,,E,\nUSC00041758,20210101,TMIN,-50,,,E,\nUSC00042319,20210101,TMAX,10,,,E,\nUSC00042319,20210101,TMIN,0,,,E,\n";
        Problem problem = Samples.Text(text).OnlyProblem();
        Assert.Contains("2 stations", problem.Message, StringComparison.Ordinal);
        Assert.Contains("USC00041758; USC00042319", problem.Expected, StringComparison.Ordinal);
        Assert.Equal(1, Samples.Text(text, new WeatherReadOptions { Station = "USC00042319" }).Good().Record!.Days[0].TmaxC);
        Assert.Equal("USC00042319", Samples.Text(text, new WeatherReadOptions { Station = "USC00042391" }).OnlyProblem().Nearest);
    }

    /// <summary>No real sample of this layout is at hand; made after NOAA's description of the station files.</summary>
    [Fact]
    public void The_station_csv_has_flags_beside_each_value_and_is_in_tenths()
    {
        WeatherReading reading = Samples.Text(
            "\"STATION\",\"DATE\",\"LATITUDE\",\"LONGITUDE\",\"ELEVATION\",\"NAME\",\"PRCP\",\"PRCP_ATTRIBUTES\",\"TMAX\",\"TMAX_ATTRIBUTES\",\"TMIN\",\"TMIN_ATTRIBUTES\"\n" +
            "\"USW1\",\"2021-01-01\",\"57.05\",\"-135.36\",\"4.0\",\"SITKA\",\"    3\",\",,W,2400\",\"   67\",\",,W\",\"   44\",\",,W\"\n" +
            "\"USW1\",\"2021-01-02\",\"57.05\",\"-135.36\",\"4.0\",\"SITKA\",\"    0\",\"T,,W,2400\",\"  670\",\",I,W\",\"   20\",\",,W\"\n").Good();
        Assert.Equal(WeatherLayout.GhcnAccessCsv, reading.Layout);
        Assert.Equal(new Place(57.05, -135.36, 4), reading.Record!.Place);
        Assert.Equal((6.7, 4.4, 0.3), (Math.Round(reading.Record.Days[0].TmaxC, 9), Math.Round(reading.Record.Days[0].TminC, 9),
            Math.Round(reading.Record.Days[0].RainMm, 9)));
        Assert.True(double.IsNaN(reading.Record.Days[1].TmaxC));
        Assert.Equal("USW1 SITKA", reading.Record.Station);
    }

    [Fact]
    public void A_line_cut_short_is_located()
    {
        string text = File.ReadAllText(Samples.PathOf(Dly));
        Problem problem = Samples.Text(text[..(text.Length - 100)], name: "cut.dly").OnlyProblem();
        Assert.Equal("the line ends early", problem.Message);
        Assert.Equal(text.Split('\n').Length - 1, problem.Line);
    }

    [Fact]
    public void A_letter_among_the_values_is_located()
    {
        string text = File.ReadAllText(Samples.PathOf(Dly));
        Problem problem = Samples.Text(text[..21] + "  x25" + text[26..], name: "a.dly").OnlyProblem();
        Assert.Equal((1, 22, "  x25"), (problem.Line, problem.Column, problem.Found));
    }

    [Fact]
    public void A_month_that_stands_twice_is_located()
    {
        string line = File.ReadLines(Samples.PathOf(Dly)).First();
        Assert.Equal((2, 12), (Samples.Text($"{line}\n{line}\n").OnlyProblem() is var p ? (p.Line, p.Column) : default));
    }

    private sealed class ListOfDays(WeatherReading reading)
    {
        private readonly Dictionary<LocalDate, DailyWeather> days = reading.Record!.Days.ToDictionary(day => day.Date);

        public int Count => days.Count;

        public DailyWeather this[int year, int month, int day] => days[new LocalDate(year, month, day)];
    }
}
