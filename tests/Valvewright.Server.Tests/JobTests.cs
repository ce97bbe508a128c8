using System.Text.Json;

namespace Valvewright.Server.Tests;

public sealed class JobTests(Running running) : IClassFixture<Running>
{
    [Fact]
    public async Task A_plan_is_made_proven_and_kept_and_its_cards_can_be_fetched()
    {
        Guid site = await Site();
        JsonElement job = await Ask(site, """{"kind":"plan","from":"2026-04-01"}""");
        Assert.True(job.GetProperty("state").GetString() == "done", job.ToString());
        string plan = job.GetProperty("result").GetProperty("plan").GetString()!;
        JsonElement kept = (await running.Get($"/api/sites/{site}/plans/{plan}")).Json;
        Assert.True(kept.GetProperty("fitsSurvey").GetBoolean());
        Assert.Equal("2026-04-01", kept.GetProperty("from").GetString());
        Assert.Equal("Heron Bank", kept.GetProperty("proof").GetProperty("site").GetString());
        Assert.Equal(200, (await running.Get($"/api/sites/{site}/plans/{plan}/cards.pdf")).Status);

        JsonElement proof = await Ask(site, $$"""{"kind":"proof","plan":"{{plan}}"}""");
        Assert.Equal("done", proof.GetProperty("state").GetString());
        Assert.Equal(job.GetProperty("result").GetProperty("verdict").ToString(), proof.GetProperty("result").GetProperty("verdict").ToString());

        JsonElement season = await Ask(site, $$"""{"kind":"season","plan":"{{plan}}","visits":2}""");
        Assert.True(season.GetProperty("state").GetString() == "done", season.ToString());
        JsonElement with = (await running.Get($"/api/sites/{site}/plans/{season.GetProperty("result").GetProperty("plan").GetString()}")).Json;
        Assert.Equal(2, with.GetProperty("plan").GetProperty("plan").GetProperty("controllers")[0].GetProperty("visits").GetArrayLength());
    }

    [Fact]
    public async Task A_job_can_be_stopped_and_leaves_nothing()
    {
        Guid site = await Site();
        Reply first = await running.Send("POST", $"/api/sites/{site}/jobs", Running.AsJson("""{"kind":"plan"}""")), second = await running.Send("POST", $"/api/sites/{site}/jobs", Running.AsJson("""{"kind":"plan"}"""));
        foreach (Reply asked in new[] { second, first })
        {
            string id = asked.Json.GetProperty("id").GetString()!;
            Assert.Equal(200, (await running.Send("DELETE", $"/api/jobs/{id}")).Status);
            Assert.Equal("stopped", (await Jobs.Ended(running, id)).GetProperty("state").GetString());
        }

        Assert.Equal(0, (await running.Get($"/api/sites/{site}/plans")).Json.GetArrayLength());
    }

    [Fact]
    public async Task A_job_that_means_nothing_is_refused_at_once()
    {
        Guid site = await Site();
        foreach (string wrong in new[] { """{"kind":"dig"}""", """{"kind":"proof"}""", """{"kind":"season","plan":"018f3b1c-8a00-7000-8000-000000000000","visits":13}""", """{"kind":"plan","from":"0001-01-01"}""" })
        {
            (await running.Send("POST", $"/api/sites/{site}/jobs", Running.AsJson(wrong))).Problem(400, "wrong-input");
        }

        (await running.Send("POST", $"/api/sites/{site}/jobs", Running.AsJson("""{"kind":"proof","plan":"018f3b1c-8a00-7000-8000-000000000000"}"""))).Problem(404, "not-found");
    }

    private async Task<Guid> Site()
    {
        Guid site = await running.Site(Running.WithWeather("Heron Bank"));
        Assert.Equal(201, (await running.Put($"/api/sites/{site}/weather", Running.Bytes(Running.Weather(), "text/csv"))).Status);
        return site;
    }

    private async Task<JsonElement> Ask(Guid site, string request)
    {
        Reply asked = await running.Send("POST", $"/api/sites/{site}/jobs", Running.AsJson(request));
        Assert.True(asked.Status == 202, asked.Text);
        return await Jobs.Ended(running, asked.Json.GetProperty("id").GetString()!);
    }
}
