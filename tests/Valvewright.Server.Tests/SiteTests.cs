using System.Text.Json;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Records;
using Valvewright.Records.Views;
using Valvewright.Tests.Serving;

namespace Valvewright.Server.Tests;

public sealed class SiteTests(Running running) : IClassFixture<Running>
{
    [Fact]
    public async Task A_survey_comes_back_as_written_and_as_understood()
    {
        string survey = Writer.Survey("Heron Bank", "kept to the letter");
        Guid id = await running.Site(survey);
        Reply site = await running.Get($"/api/sites/{id}");
        Assert.Equal(("\"1\"", 200), (site.Tag, site.Status));
        Assert.Equal("Heron Bank", site.Json.GetProperty("site").GetProperty("name").GetString());
        Assert.Equal("Ana", site.Json.GetProperty("changed").GetProperty("by").GetString());
        Assert.Equal(survey, (await running.Get($"/api/sites/{id}/survey")).Text);
        Assert.Equal(304, (await running.Get($"/api/sites/{id}", ("If-None-Match", "\"1\""))).Status);
        Assert.Contains(id.ToString(), (await running.Get("/api/sites")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_survey_with_mistakes_is_refused_with_all_of_them()
    {
        Guid id = Ids.New();
        Reply reply = await running.Put($"/api/sites/{id}",
            Running.Yaml(Writer.Survey("Heron Bank", "x").Replace("soil: loam", "soil: laom", StringComparison.Ordinal)));
        JsonElement problem = Assert.Single(reply.Problem(422, "wrong-text").GetProperty("problems").EnumerateArray());
        Assert.Equal("loam", problem.GetProperty("nearest").GetString());
        Assert.Equal(7, problem.GetProperty("line").GetInt32());
        (await running.Get($"/api/sites/{id}")).Problem(404, "not-found");
    }

    [Fact]
    public async Task Two_who_edit_one_site_are_both_shown_what_differs_and_nothing_is_lost()
    {
        string common = Writer.Survey("Heron Bank", "first");
        string anas = common.Replace("flow: 30", "flow: 28", StringComparison.Ordinal),
            bens = common.Replace("area: 50", "area: 60", StringComparison.Ordinal);
        Guid id = await running.Site(common);
        Assert.Equal("\"2\"", (await running.Put($"/api/sites/{id}?by=Ana", Running.Yaml(anas), "\"1\"")).Tag);
        JsonElement problem = (await running.Put($"/api/sites/{id}?by=Ben", Running.Yaml(bens), "\"1\"")).Problem(412, "changed-since");
        Assert.Equal("Ana", problem.GetProperty("changed").GetProperty("by").GetString());
        Assert.Equal(anas, problem.GetProperty("current").GetProperty("survey").GetString());
        Assert.Equal(bens, problem.GetProperty("given").GetProperty("survey").GetString());
        Assert.Equal(common, problem.GetProperty("common").GetProperty("survey").GetString());
        Assert.Contains("flow: 28", Assert.Single(problem.GetProperty("theirs").EnumerateArray()).GetProperty("added")[0].GetString(),
            StringComparison.Ordinal);
        Assert.Contains("area: 60", Assert.Single(problem.GetProperty("yours").EnumerateArray()).GetProperty("added")[0].GetString(),
            StringComparison.Ordinal);
        Assert.Equal(2, problem.GetProperty("fromCurrentToGiven").GetArrayLength());

        string merged = anas.Replace("area: 50", "area: 60", StringComparison.Ordinal);
        Assert.Equal("\"3\"", (await running.Put($"/api/sites/{id}?by=Ben", Running.Yaml(merged), "\"2\"")).Tag);
        (await running.Put($"/api/sites/{id}", Running.Yaml(common))).Problem(428, "version-needed");
        Assert.Equal(200, (await running.Put($"/api/sites/{id}", Running.Yaml(merged))).Status);
    }

    [Fact]
    public async Task History_says_who_changed_what_and_an_undo_is_an_entry()
    {
        Guid id = await running.Site();
        await running.Put($"/api/sites/{id}?by=Bénédicte", Running.Yaml(Writer.Survey("Heron Bank", "second")), "\"1\"");
        Assert.Equal(204, (await running.Send("DELETE", $"/api/sites/{id}?by=Ben", null, ("If-Match", "\"2\""))).Status);
        (await running.Get($"/api/sites/{id}")).Problem(404, "not-found");
        JsonElement[] entries = [.. (await running.Get($"/api/sites/{id}/history")).Json.EnumerateArray()];
        Assert.Equal(["Ben", "Bénédicte", "Ana"], entries.Select(e => e.GetProperty("changed").GetProperty("by").GetString()));
        Assert.Contains("second", entries[0].GetProperty("before").GetProperty("survey").GetString(), StringComparison.Ordinal);

        (await running.Send("POST", $"/api/sites/{id}/history/{entries[1].GetProperty("number")}/undo")).Problem(409, "changed-since");
        Reply undone = await running.Send("POST", $"/api/sites/{id}/history/{entries[0].GetProperty("number")}/undo?by=Ana");
        Assert.Equal(entries[0].GetProperty("number").GetInt64(), undone.Json.GetProperty("undoOf").GetInt64());
        Assert.Contains("second", (await running.Get($"/api/sites/{id}/survey")).Text, StringComparison.Ordinal);
        (await running.Send("DELETE", $"/api/sites/{id}")).Problem(428, "version-needed");
        (await running.Send("DELETE", $"/api/sites/{id}", null, ("If-Match", "\"2\""))).Problem(412, "changed-since");
    }

    [Fact]
    public async Task Weather_belongs_to_a_survey_that_names_it()
    {
        Guid without = await running.Site(), with = await running.Site(Running.WithWeather("Heron Bank"));
        (await running.Put($"/api/sites/{without}/weather", Running.Bytes(Running.Weather(), "text/csv")))
            .Problem(422, "weather-not-named");
        (await running.Put($"/api/sites/{with}/weather", Running.Bytes("date,nothing\n1,2\n"u8.ToArray(), "text/csv")))
            .Problem(422, "wrong-text");
        Reply kept = await running.Put($"/api/sites/{with}/weather", Running.Bytes(Running.Weather(), "text/csv"));
        Assert.Equal((201, 3753), (kept.Status, kept.Json.GetProperty("days").GetInt32()));
        Assert.Equal(Running.Weather(), (await running.Get($"/api/sites/{with}/weather")).Bytes);
    }

    [Theory]
    [InlineData("/etc/passwd")]
    [InlineData("../../../../etc/hostname")]
    [InlineData("/nowhere/at/all.csv")]
    public async Task No_file_of_the_machine_is_looked_for_whatever_a_survey_names(string file)
    {
        Guid id = await running.Site(Running.WithWeather("Heron Bank").Replace("weather.csv", file, StringComparison.Ordinal));
        JsonElement job = await Waited(await running.Send("POST", $"/api/sites/{id}/jobs", Running.AsJson("""{"kind":"plan"}""")));
        Assert.Equal("failed", job.GetProperty("state").GetString());
        Assert.Equal("/problems/weather-missing", job.GetProperty("problem").GetProperty("type").GetString());
    }

    private async Task<JsonElement> Waited(Reply asked)
    {
        Assert.Equal(202, asked.Status);
        return await Jobs.Ended(running, asked.Json.GetProperty("id").GetString()!);
    }

    [Fact]
    public async Task A_survey_is_understood_without_being_stored()
    {
        long before = running.Entries();
        string survey = Writer.Survey("Heron Bank", "asked");
        SurveyUnderstood understood = Json.Read<SurveyUnderstood>(
            (await running.Send("POST", "/api/surveys/understood", Running.Yaml(survey))).Text)!;
        Assert.Equal("Heron Bank", understood.Site.Name);
        Assert.NotEmpty(understood.Site.Assumptions);
        Guid id = await running.Site(survey);
        Assert.Equal((await running.Get($"/api/sites/{id}")).Json.GetProperty("digest").GetString(), understood.Digest);
        ProblemDocument problem = Json.Read<ProblemDocument>(
            (await running.Send("POST", "/api/surveys/understood",
                Running.Yaml(survey.Replace("soil: loam", "soil: laom", StringComparison.Ordinal)))).Text)!;
        Assert.Equal(("wrong-text", "loam", 7), (problem.Kind, Assert.Single(problem.Problems!).Nearest, problem.Problems![0].Line));
        Assert.Equal(before + 1, running.Entries());
    }

    [Fact]
    public async Task Profiles_and_needs_are_what_the_engine_says()
    {
        Assert.Equal(GenericProfiles.All, Json.Read<ListOf<Profile>>((await running.Get("/api/profiles")).Text));
        Guid id = await running.Site(Running.WithWeather("Heron Bank"));
        (await running.Get($"/api/sites/{id}/needs.json")).Problem(422, "weather-missing");
        await running.Put($"/api/sites/{id}/weather", Running.Bytes(Running.Weather(), "text/csv"));
        NeedsView needs = Json.Read<NeedsView>((await running.Get($"/api/sites/{id}/needs.json")).Text)!;
        Assert.Equal(52, Assert.Single(needs.Zones).Weeks.Count);
        Assert.NotEmpty(needs.Zones[0].RefillMm.From.Text);
    }
}
