using Valvewright.Engine.Weather;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Tests.Weather;

/// <summary>Any table is read once a person says which column is what.</summary>
public sealed class NamedColumnsTests
{
    private const string Spanish = "Estación: Vega Baja\nDatos provisionales\n\nFecha;T. máx.;T. mín.;HR " +
        "media;Viento;Lluvia;Rad\n1/5/2021;24,5;11,0;61;7,2;0,0;250\n2/5/2021;-99;10,0;63;3,6;12,4;n/d\n";

    private static readonly (string, string)[] SpanishMap =
    [
        ("date", "Fecha [day.month.year]"), ("tmax", "T. máx. [°C]"), ("tmin", "T. mín. [°C]"), ("rh mean", "HR media"),
            ("wind", "Viento [km/h]"), ("rain", "Lluvia [mm]"),
        ("radiation", "Rad [W/m2]"), ("missing", "-99, n/d"), ("decimal", "comma"),
    ];

    [Fact]
    public void A_table_with_its_own_names_units_dates_and_decimal_comma_is_read()
    {
        WeatherReading reading = Samples.Text(Spanish, With(SpanishMap)).Good();
        Assert.Equal(WeatherLayout.NamedColumns, reading.Layout);
        DailyWeather first = reading.Record!.Days[0], second = reading.Record.Days[1];
        Assert.Equal((new NodaTime.LocalDate(2021, 5, 1), 24.5, 11.0, 61.0), (first.Date, first.TmaxC, first.TminC, first.RhMeanPercent));
        Assert.Equal((2.0, 21.6), (Math.Round(first.WindMs, 9), Math.Round(first.RadiationMjM2, 9)));
        Assert.True(double.IsNaN(second.TmaxC) && double.IsNaN(second.RadiationMjM2));
        Assert.Equal(12.4, second.RainMm);
        Assert.True(reading.Notes(WeatherNoteKind.Found, "Viento is wind speed in km/h"));
    }

    [Fact]
    public void A_table_without_a_header_is_read_by_the_numbers_of_its_columns()
    {
        WeatherReading reading = Samples.Text("7 2021 121 245 110\n7 2021 122 251 98\n",
            With(("year", "#2"), ("day of year", "#3"), ("tmax", "#4 [0.1 C]"), ("tmin", "#5 [0.1 C]"))).Good();
        Assert.Equal((new NodaTime.LocalDate(2021, 5, 1), 24.5),
            (reading.Record!.Days[0].Date, Math.Round(reading.Record.Days[0].TmaxC, 9)));
        Assert.Equal(9.8, reading.Record.Days[1].TminC, 1e-9);
    }

    [Fact]
    public void A_date_may_stand_in_three_columns() =>
        Assert.Equal(new NodaTime.LocalDate(2021, 5, 1), Samples.Text("y,m,d,hi,lo\n2021,5,1,70,50\n",
            With(("year", "y"), ("month", "m"), ("day", "d"), ("tmax", "hi [F]"), ("tmin", "lo [F]"))).Good().Record!.Days[0].Date);

    [Fact]
    public void A_column_that_is_not_there_is_named_with_the_nearest()
    {
        Problem problem = Samples
            .Text(Spanish, With([.. SpanishMap.Where(m => m.Item1 != "rain"), ("rain", "Lluvias [mm]")])).OnlyProblem();
        Assert.Equal((4, "Lluvias", "Lluvia"), (problem.Line, problem.Found, problem.Nearest));
    }

    [Fact]
    public void A_date_of_another_form_is_located()
    {
        Problem problem = Samples.Text(
            "day,hi,lo\n2021-05-01,20,10\n", With(("date", "day [month/day/year]"), ("tmax", "hi [C]"), ("tmin", "lo [C]"))).OnlyProblem();
        Assert.Equal(2, problem.Line);
        Assert.Contains("month/day/year", problem.Expected, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("tmx", "x [C]", "no such column word", "tmax")]
    [InlineData("tmax", "x", "unit is not stated", null)]
    [InlineData("tmax", "x [mm]", "not a unit", null)]
    [InlineData("tmax", "", "no column is named", null)]
    [InlineData("date", "x [year/day]", "no such way to write a date", null)]
    [InlineData("decimal", "coma", "no such decimal sign", "comma")]
    public void A_map_that_makes_no_sense_is_refused(string word, string written, string message, string? nearest)
    {
        List<(string Message, string? Nearest)> problems = [];
        Assert.Null(ColumnMap.Read([(word, written)], (_, _, _, near, text) => problems.Add((text, near))));
        Assert.Contains(problems, p => p.Message.Contains(message, StringComparison.Ordinal) && (nearest is null || p.Nearest == nearest));
    }

    private static WeatherReadOptions With(params (string, string)[] entries)
    {
        ColumnMap? map = ColumnMap
            .Read(entries, (word, found, expected, _, message) => Assert.Fail($"{word}: {found}: {expected}: {message}"));
        return new WeatherReadOptions { Columns = map };
    }
}
