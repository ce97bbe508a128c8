using Valvewright.Engine.Survey;
using Valvewright.Files.Surveys;
using Valvewright.Files.Surveys.Editing;

namespace Valvewright.Files.Tests.Surveys.Editing;

public sealed class SurveyEditsTests
{
    private const string Text = """
        # the owner's own words
        site: Test green   # as on the gate
        location: { latitude: 47.43, longitude: 8.52 }
        time zone: Europe/Zurich
        supplies:
          - name: Main
            flow: 40 L/min
          - { name: "Well: old", flow: 20 L/min }
        controllers:
          - name: Green
            supply: "Main"
            profile: 4 stations, 2 programs, 4 starts
            zones:
              - station: 1
                name: Lawn
                area: 80 m2
                plants: cool-season turf
                sprinklers: { kind: rotor, flow: 16 L/min }

        """;

    [Theory]
    [InlineData("Green hill", "site: Green hill   # as on")]
    [InlineData("yes", "site: \"yes\"   # as on")]
    [InlineData("a: b # c", "site: \"a: b # c\"   # as on")]
    [InlineData("\"q\" \\ ä 🌵", "site: \"\\\"q\\\" \\\\ ä 🌵\"   # as on")]
    public void One_value_changes_and_everything_else_stays(string name, string written)
    {
        foreach (string text in new[] { Text, Text.ReplaceLineEndings("\r\n") })
        {
            string? edited = SurveyEdits.Renamed(text, name);
            Assert.Equal(text.Replace("site: Test green   # as on", written, StringComparison.Ordinal), edited);
            Assert.Equal(name, SurveyFiles.ParseApart(edited!, "x").Site!.Name);
        }
    }

    [Fact]
    public void Places_and_supplies_change_where_they_stand()
    {
        Assert.Equal(Text.Replace("latitude: 47.43, longitude: 8.52", "latitude: 47.5, longitude: 8.5", StringComparison.Ordinal),
            SurveyEdits.Moved(Text, 47.5, 8.5));
        string edited = SurveyEdits.Supplied(Text, "Green", "Well: old")!;
        Assert.Equal(Text.Replace("supply: \"Main\"", "supply: \"Well: old\"", StringComparison.Ordinal), edited);
        Site site = SurveyFiles.ParseApart(edited, "x").Site!;
        Assert.Equal("Well: old", site.ControllerNamed("Green").Supply);
    }

    [Theory]
    [InlineData("no survey")]
    [InlineData("site: [")]
    [InlineData("")]
    public void What_is_no_survey_is_left_alone(string text) => Assert.Null(SurveyEdits.Renamed(text, "x"));

    [Fact]
    public void A_change_that_would_say_something_else_besides_is_not_made()
    {
        Assert.Null(SurveyEdits.Moved(Text, 97, 8.5));
        Assert.Null(SurveyEdits.Supplied(Text, "Green", "None"));
        Assert.Null(SurveyEdits.Supplied(Text, "Blue", "Main"));
        Assert.Null(SurveyEdits.Supplied(Text.Replace("    supply: \"Main\"\n", "", StringComparison.Ordinal), "Green", "Main"));
    }
}
