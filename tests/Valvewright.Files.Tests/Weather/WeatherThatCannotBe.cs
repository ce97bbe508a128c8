using Valvewright.Engine.Survey;
using Valvewright.Files.Problems;
using Valvewright.Files.Weather;

namespace Valvewright.Files.Tests.Weather;

/// <summary>What a file says wrongly, or not at all, is refused or asked for; what a person says in its place is told.</summary>
public sealed class WeatherThatCannotBe
{
    private const string Head = "# latitude: 47.4\n# longitude: 8.5\n# elevation_m: 444\n# wind_height_m: 10\n";

    /// <summary>Real days of Maricopa (University of Arizona AZMET) with humidity written as a fraction, as some state networks publish
    /// it.</summary>
    [Fact]
    public void Humidity_as_a_fraction_is_refused_and_read_once_the_unit_is_declared()
    {
        string text =
            "date,tmax_c,tmin_c,rh_max,rh_min,wind_2m_ms,rain_mm\n2003-01-01,17.5,-0.5,0.954,0.249,1,0\n2003-01-02,21.9,0.4,0.819,0.141,2,0\n";
        Problem problem = Samples.Text(text).OnlyProblem();
        Assert.Contains("fraction", problem.Message, StringComparison.Ordinal);
        Assert.Contains("0.954", problem.Found, StringComparison.Ordinal);
        WeatherReading declared = Samples.Text(text, new WeatherReadOptions
            { ColumnUnits = new Dictionary<string, string> { ["rh_max"] = "fraction", ["rh_min"] = "fraction" } }).Good();
        Assert.Equal((95.4, 14.1),
            (Math.Round(declared.Record!.Days[0].RhMaxPercent, 9), Math.Round(declared.Record.Days[1].RhMinPercent, 9)));
    }

    [Fact]
    public void A_record_of_percents_is_left_alone() =>
        Assert.True(Samples.Read(
            "azmet_06_maricopa.csv", new WeatherReadOptions { Place = new Place(33.069, -111.97, 361), WindHeightM = 3 }).Ok);

    [Theory]
    [InlineData(47.4, 8.5, 444, null)]
    [InlineData(47.405, 8.5, 450, WeatherNoteKind.Found)]
    [InlineData(46.0, 9.0, 200, WeatherNoteKind.Warning)]
    public void A_place_given_in_place_of_the_files_own_is_told(double latitude, double longitude, double elevation, WeatherNoteKind? told)
    {
        WeatherReading reading = Samples.Text($"{Head}date,tmax_c,tmin_c\n2020-01-01,20,10\n",
            new WeatherReadOptions { Place = new Place(latitude, longitude, elevation) }).Good();
        Assert.Equal(elevation, reading.Record!.Place.ElevationM);
        Assert.Equal(told, reading.Notes.Where(n => n.Text.Text.Contains("instead of the file's own", StringComparison.Ordinal))
            .Select(n => (WeatherNoteKind?)n.Kind).SingleOrDefault());
    }

    [Fact]
    public void A_wind_height_given_in_place_of_the_files_own_is_told() =>
        Assert.True(Samples.Text($"{Head}date,tmax_c,tmin_c,wind_ms\n2020-01-01,20,10,3\n", new WeatherReadOptions { WindHeightM = 2 })
            .Good().Notes(WeatherNoteKind.Warning, "wind height given, 2 m"));

    [Fact]
    public void A_survey_is_asked_how_high_the_wind_is_measured()
    {
        const string Silent = "date,tmax_c,tmin_c,wind_ms\n2020-01-01,20,10,3\n";
        WeatherReadOptions survey = new() { IsWindHeightNeeded = true };
        Problem problem = Samples.Text(Silent, survey).OnlyProblem();
        Assert.Contains("'wind height'", problem.Expected, StringComparison.Ordinal);
        Assert.Equal(10, Samples.Text(Silent, survey with { WindHeightM = 10 }).Good().Record!.WindHeightM);
        Assert.True(Samples.Text("date,tmax_c,tmin_c\n2020-01-01,20,10\n", survey).Ok);

        WeatherReading assumed = Samples.Text(Silent).Good();
        Assert.True(assumed.Record!.IsWindHeightAssumed);
        Assert.True(assumed.Notes(WeatherNoteKind.Assumed, "2 m taken"));
    }
}
