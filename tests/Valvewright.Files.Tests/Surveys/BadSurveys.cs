using Valvewright.Files.Problems;
using Valvewright.Files.Surveys;

namespace Valvewright.Files.Tests.Surveys;

/// <summary>Whatever a person gets wrong is told with its place, what stands there, what could, and the nearest valid word.</summary>
public sealed class BadSurveys
{
    [Fact]
    public void The_site_without_a_fault_has_none()
    {
        SurveyReading reading = SurveyFiles.Parse(SmallSite.Text, "site.yaml");
        Assert.Empty(reading.Problems);
        Assert.Empty(reading.Warnings);
        Assert.NotNull(reading.Site);
    }

    [Theory]
    // A wrong unit, and a unit misspelt.
    [InlineData("flow: 40 L/min", "flow: 40 psi", 8, 11, "40 psi", "flow of a supply", null)]
    [InlineData("pressure: 300 kPa", "pressure: 43 pis", 9, 15, "43 pis", "static pressure", "psi")]
    [InlineData("area: 80 m2", "area: 80 kg", 19, 15, "80 kg", "an area", null)]
    // Keys and words misspelt.
    [InlineData("controllers:", "controlers:", 12, 1, "controlers", "one of: site", "controllers")]
    [InlineData("time zone:", "time_zone:", 3, 1, "time_zone", "one of: site", "time zone")]
    [InlineData("        slope: 2 %\n        plants: cool", "        slop: 2 %\n        plants: cool", 21, 9, "slop",
        "one of: station, name", "slope")]
    [InlineData("soil: loam", "soil: laom", 20, 15, "laom", "one of: clay", "loam")]
    [InlineData("plants: cool-season turf", "plants: cool season turf", 22, 17, "cool season turf", "one of: cool-season turf",
        "cool-season turf")]
    [InlineData("kind: rotor", "kind: roter", 23, 29, "roter", "one of: spray", "rotor")]
    [InlineData("stage: establishing", "stage: establishd", 29, 40, "establishd", "one of: established", "established")]
    [InlineData("Europe/Zurich", "Europe/Zürich", 3, 12, "Europe/Zürich", "an IANA time zone", "Europe/Zurich")]
    [InlineData("4 stations, 2 programs, 4 starts", "4 stations, 2 programs, 3 starts", 14, 14, "4 stations, 2 programs, 3 starts",
        "one of", "4 stations, 2 programs, 4 starts")]
    [InlineData("supply: Main", "supply: Mian", 15, 13, "Mian", "one of: 'Main'", "Main")]
    // A station twice, one that the profile lacks.
    [InlineData("station: 2", "station: 1", 24, 18, "1", "a station of its own", null)]
    [InlineData("station: 2", "station: 5", 24, 18, "5", "from 1 to 4", null)]
    [InlineData("station: 2", "station: two", 24, 18, "two", "a whole number from 1 to 48", null)]
    // A day rule that the profile lacks, or nobody has.
    [InlineData("4 stations, 2 programs, 4 starts", "8 stations, 1 program, 8 starts\n    day rules: [odd]", 15, 17, "odd",
        "days of the week, interval", "days of the week")]
    [InlineData("    supply: Main", "    day rules: [intervall]\n    supply: Main", 15, 17, "intervall",
        "one of: days of the week", "interval")]
    // Numbers that cannot be.
    [InlineData("area: 80 m2", "area: -80 m2", 19, 15, "-80 m2", "an area", null)]
    [InlineData("area: 80 m2", "area: NaN", 19, 15, "NaN", "an area", null)]
    [InlineData("area: 80 m2", "area: .inf", 19, 15, ".inf", "an area", null)]
    [InlineData("rate: 12 mm/h", "rate: 12,5 mm/h", 23, 45, "5 mm/h", "quotes around a value that holds a comma", null)]
    [InlineData("rate: 12 mm/h", "rate: '1,2,5 mm/h'", 23, 42, "1,2,5 mm/h", "a precipitation rate", null)]
    [InlineData("uniformity: 70 %", "uniformity: 170 %", 23, 63, "170 %", "5 to 100", null)]
    [InlineData("clay: 20 %", "clay: 80 %", 27, 35, "80 %", "at most 100%", null)]
    [InlineData("since: 2026-03-01", "since: 2026-02-30", 29, 61, "2026-02-30", "a date such as", null)]
    // Hours inside out, or no hours.
    [InlineData("22:00-06:00", "06:00-05:00", 11, 14, "06:00-05:00", "at most 19 hours", "05:00-06:00")]
    [InlineData("22:00-06:00", "22:00-22:00", 11, 14, "22:00-22:00", "an end other than the beginning", null)]
    [InlineData("22:00-06:00", "22:00-25:00", 11, 14, "22:00-25:00", "hours such as", null)]
    [InlineData("22:00-06:00", "[22:00-06:00, 05:00-07:00]", 11, 28, "05:00-07:00", "hours apart", null)]
    // Coordinates swapped, or with a sign lost.
    [InlineData("latitude: 47.43, longitude: 8.52", "latitude: 8.52, longitude: 47.43", 2, 23, "8.52", "within 3500 km of Europe/Zurich",
        "latitude: 47.43, longitude: 8.52")]
    [InlineData("latitude: 47.43, longitude: 8.52", "latitude: -47.43, longitude: 8.52", 2, 23, "-47.43", "within 3500 km of Europe/Zurich",
        "latitude: 47.43, longitude: 8.52")]
    [InlineData("latitude: 47.43, longitude: 8.52", "latitude: 147.43, longitude: 8.52", 2, 23, "147.43", "from -90 to 90",
        "latitude: 8.52, longitude: 147.43")]
    [InlineData("hours: 22:00-06:00", "hours: []", 11, 14, "an empty list", "at least one item", null)]
    // Weather that is not there.
    [InlineData("units: metric", "units: metric\nweather: { file: none.csv }", 5, 18, "none.csv", "a file that exists", null)]
    [InlineData("units: metric", "units: metric\nweather: { service: nasapower }", 5, 21, "nasapower",
        "one of: nasa-power, open-meteo", "nasa-power")]
    [InlineData("units: metric", "units: metric\nweather: { source: somebody }", 5, 10, "keys (source)",
        "either 'file' or 'service'", null)]
    // Anchors, aliases, tabs, a second document.
    [InlineData("soil: loam", "soil: &ground loam", 20, 15, "an anchor (&)", "plain values", null)]
    [InlineData("soil: loam", "soil: *ground", 20, 15, "an alias (*)", "the values themselves", null)]
    [InlineData("units: metric", "units: metric\n\tclock: 24 hours", 5, 1, "clock: 24 hours", "spaces; a tab cannot indent YAML", null)]
    [InlineData("soil: loam", "soil: loam\n        soil: clay", 21, 9, "soil", "each key once", null)]
    [InlineData("units: metric", "units: [metric]", 4, 8, "a list of 1", "one of: metric, us", null)]
    [InlineData("units: metric", "units:", 4, 7, "", "", null)]
    public void A_fault_is_told_with_its_place(
        string piece, string other, int line, int column, string found, string expected, string? nearest)
    {
        SurveyReading reading = SurveyFiles.Parse(SmallSite.With(piece, other), "site.yaml");
        if (found.Length == 0)
        {
            Assert.Contains(reading.Site!.Assumptions, assumption => assumption.Path == "units");
            return;
        }

        Assert.Null(reading.Site);
        Problem? problem = reading.Problems.FirstOrDefault(p => p.Line == line && p.Column == column);
        Assert.True(problem is not null, "no problem there, but: " + string.Join('\n', reading.Problems));
        Assert.Equal("site.yaml", problem.File);
        Assert.Equal(found, problem.Found);
        Assert.Contains(expected, problem.Expected, StringComparison.Ordinal);
        Assert.Equal(nearest, problem.Nearest);
        Assert.NotEmpty(problem.Message.Text);
    }

    [Fact]
    public void All_problems_are_told_in_one_pass_in_the_order_of_the_file()
    {
        string text = SmallSite.Text
            .Replace("flow: 40 L/min", "flow: much", StringComparison.Ordinal)
            .Replace("area: 80 m2", "area: -80 m2", StringComparison.Ordinal)
            .Replace("soil: loam", "soil: mud", StringComparison.Ordinal)
            .Replace("station: 2", "station: 9", StringComparison.Ordinal);
        SurveyReading reading = SurveyFiles.Parse(text, "site.yaml");
        Assert.Equal([8, 19, 20, 24], reading.Problems.Select(problem => problem.Line));
    }

    [Fact]
    public void What_is_missing_is_named()
    {
        SurveyReading reading = SurveyFiles.Parse("units: us\n", "site.yaml");
        string[] expected = ["time zone", "location", "supplies", "site", "controllers"];
        Assert.All(expected, key =>
            Assert.Contains(reading.Problems, problem => problem.Message.Text.EndsWith($"needs '{key}'", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("area: 80 m2", "area: 90,000 m2", 19)]
    [InlineData("rate: 12 mm/h", "rate: 180 mm/h", 23)]
    [InlineData("flow: 40 L/min", "flow: 5 L/min", 23)]
    [InlineData(", since: 2026-03-01", "", 29)]
    public void What_is_unusual_is_questioned_but_used(string piece, string other, int line)
    {
        SurveyReading reading = SurveyFiles.Parse(SmallSite.With(piece, other), "site.yaml");
        Assert.NotNull(reading.Site);
        Assert.Contains(reading.Warnings, warning => warning.Line == line);
    }
}
