using NodaTime;
using Valvewright.App.Pages.Survey;
using Valvewright.Engine.Survey;
using Valvewright.Files.Surveys;
using Valvewright.Records;
using Valvewright.Tests;

namespace Valvewright.App.Tests.Survey;

/// <summary>A survey worked on step by step: told at the right time what is wrong, kept as typed, never lost.</summary>
public sealed class SurveyWorkTests
{
    private static SurveyDraft Draft(string text, bool isNew = true) =>
        new(Ids.New(), isNew, text, isNew ? null : "\"3\"", "place", Instant.FromUtc(2026, 4, 1, 0, 0));

    private static string Demo(string name) => File.ReadAllText(Path.Combine(Checkout.Root, "demo", name, SurveyFiles.UsualName));

    [Fact]
    public void What_is_missing_is_told_only_once_its_step_was_left()
    {
        SurveyWork work = new(Draft("supplies:\n  - {}\n"));
        Assert.Empty(work.Wrong("site"));
        work.GoTo("supplies");
        Assert.Single(work.Wrong("site"));
        Assert.Empty(work.Wrong("supplies/0/flow"));
        work.GoTo("check");
        Assert.Single(work.Wrong("supplies/0/flow"));
        Assert.True(work.WrongIn("supplies") > 0);
    }

    [Fact]
    public void What_is_wrong_is_told_at_once_and_goes_when_it_is_put_right()
    {
        SurveyWork work = new(Draft(""));
        work.Set("supplies/0/flow", "40 psi");
        Assert.Contains("measures pressure", Assert.Single(work.Wrong("supplies/0/flow")).Message, StringComparison.Ordinal);
        work.Set("supplies/0/flow", "40 l/min");
        Assert.Empty(work.Wrong("supplies/0/flow"));
        work.Set("supplies/0/flow", "40000 l/min");
        Assert.Empty(work.Wrong("supplies/0/flow"));
        Assert.Single(work.Doubtful("supplies/0/flow"));
    }

    [Fact]
    public void A_survey_typed_from_nothing_can_be_saved()
    {
        SurveyWork work = new(Draft("time zone: Europe/Zurich\nsupplies:\n  - {}\ncontrollers:\n  - {}\n"));
        int changes = 0;
        work.Changed += () => changes++;
        foreach ((string path, string value) in ((string, string)[])
        [
            ("site", "Green"), ("location/latitude", "47.43"), ("location/longitude", "8.52"), ("units", "metric"),
                ("supplies/0/name", "Main"), ("supplies/0/flow", "40 L/min"),
            ("controllers/0/name", "Gate"), ("controllers/0/profile", "4 stations, 2 programs, 4 starts"),
                ("controllers/0/zones/0/station", "1"), ("controllers/0/zones/0/name", "Lawn"),
            ("controllers/0/zones/0/area", "80"), ("controllers/0/zones/0/plants/kind", "cool-season turf"),
                ("controllers/0/zones/0/sprinklers/kind", "spray"), ("controllers/0/zones/0/sprinklers/flow", "18"),
        ])
        {
            Assert.Null(work.Site);
            work.Set(path, value);
        }

        Assert.Equal(14, changes);
        Assert.Equal("Lawn", work.Site?.Controllers[0].ZoneAt(1).Name);
        Assert.Equal(work.Text, new SurveyWork(work.Draft).Text);
        Assert.Equal(["controllers/0/zones/0"], work.Zones());
    }

    [Fact]
    public void Text_that_is_no_YAML_is_kept_and_can_be_mended()
    {
        SurveyWork work = new(Draft(Demo("quarry-hill"), isNew: false));
        work.SetText("site: [\n");
        Assert.Null(work.Sheet);
        Assert.NotEmpty(work.Problems);
        Assert.Equal("site: [\n", work.Draft.Text);
        work.SetText(Demo("quarry-hill"));
        Assert.NotNull(work.Site);
        Assert.Equal(Demo("quarry-hill"), work.Text);
    }

    [Fact]
    public void A_decision_about_two_versions_rests_on_the_version_that_stands()
    {
        SurveyWork work = new(Draft(Demo("quarry-hill"), isNew: false));
        work.RestOn(Demo("thin-creek"), "\"7\"");
        Assert.Equal("\"7\"", work.Draft.Version);
        Assert.False(work.IsNew);
        Assert.Equal(Demo("thin-creek"), work.Draft.Text);
    }

    [Theory]
    [InlineData("site", "place")]
    [InlineData("location/latitude", "place")]
    [InlineData("supplies/0/permitted/hours/1", "supplies")]
    [InlineData("profiles/0/stations", "controllers")]
    [InlineData("controllers/1/profile", "controllers")]
    [InlineData("controllers/1/zones", "zones")]
    [InlineData("controllers/1/zones/0/soil/clay", "zones")]
    [InlineData("weather/file", "weather")]
    [InlineData("", "check")]
    public void Every_value_belongs_to_a_step(string path, string step) => Assert.Equal(step, SurveySteps.Of(path));

    [Fact]
    public void Steps_follow_each_other_both_ways()
    {
        Assert.Equal("supplies", SurveySteps.After("place"));
        Assert.Null(SurveySteps.After("check"));
        Assert.Null(SurveySteps.Before("place"));
        Assert.Equal("weather", SurveySteps.Before("check"));
    }

    [Fact]
    public void Every_controller_of_the_demo_sites_has_a_profile_that_is_understood()
    {
        SurveyWork work = new(Draft(Demo("quarry-hill"), isNew: false));
        Assert.Equal(GenericProfiles.Named("4 stations, 2 programs, 4 starts"), work.ProfileOf("controllers/0"));
    }
}
