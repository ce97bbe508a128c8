using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Planning;
using Valvewright.Records.Carrying;
using Valvewright.Records.Jobs;
using Valvewright.Records.Views;
using Valvewright.Tests.Serving;

namespace Valvewright.Server.Tests;

public sealed class JobTests(Running running) : IClassFixture<Running>
{
    [Fact]
    public async Task A_plan_is_made_proven_and_kept_and_its_cards_can_be_fetched()
    {
        Guid site = await Site();
        JsonElement job = await Ask(site, """{"kind":"plan","visits":0,"from":"2026-04-01"}""");
        Assert.True(job.GetProperty("state").GetString() == "done", job.ToString());
        string plan = job.GetProperty("result").GetProperty("plan").GetString()!;
        JsonElement kept = (await running.Get($"/api/sites/{site}/plans/{plan}")).Json;
        Assert.True(kept.GetProperty("fitsSurvey").GetBoolean());
        Assert.Equal("2026-04-01", kept.GetProperty("from").GetString());
        Assert.Equal("Heron Bank", kept.GetProperty("proof").GetProperty("site").GetString());
        Assert.Equal(200, (await running.Get($"/api/sites/{site}/plans/{plan}/cards.pdf")).Status);

        JsonElement proof = await Ask(site, $$"""{"kind":"proof","plan":"{{plan}}"}""");
        Assert.Equal("done", proof.GetProperty("state").GetString());
        Assert.Equal(job.GetProperty("result").GetProperty("verdict").ToString(),
            proof.GetProperty("result").GetProperty("verdict").ToString());

        JsonElement season = await Ask(site, $$"""{"kind":"season","plan":"{{plan}}","visits":2}""");
        Assert.True(season.GetProperty("state").GetString() == "done", season.ToString());
        JsonElement with = (
            await running.Get($"/api/sites/{site}/plans/{season.GetProperty("result").GetProperty("plan").GetString()}")).Json;
        Assert.Equal(2, with.GetProperty("plan").GetProperty("plan").GetProperty("controllers")[0].GetProperty("visits").GetArrayLength());
        Assert.Contains("2 visits", with.GetProperty("proof").ToString(), StringComparison.Ordinal);
        Assert.Equal(3, (await running.Get($"/api/sites/{site}/jobs")).Json.GetArrayLength());

        // What the season found is kept beside the plan, and carried.
        CarryView carried = Json.Read<CarryView>((await running.Get($"/api/sites/{site}/carry.json")).Text)!;
        SeasonKept found = carried.Plans[0].Season!;
        Assert.Null(carried.Plans[1].Season);
        Assert.Equal(Json.Read<JobView>(season.ToString())!.ResultAs<VisitsFound>()!.Season, found.Season);
        Assert.Equal(Enumerable.Range(1, 12), found.Curve.Steps.Select(s => s.Visits));
        Assert.All(found.Curve.Steps.Zip(found.Curve.Steps.Skip(1)), s =>
            Assert.True(s.Second.CostLitres <= s.First.CostLitres * 1.000001, $"{s}"));
        Assert.True(found.Season.CostLitres <= found.Curve.StepOf(2)!.CostLitres * 1.000001,
            $"{found.Season.CostLitres} {found.Curve.StepOf(2)}");
        Assert.Equal(YearOfWater.Of(carried.Site.Site, PlanFiles.Parse(carried.Plans[0].Plan.GetRawText(), "plan").Saved!.Plan,
            carried.Weather!.Training()).Weeks.Sum(w => w.WaterMm), found.Weeks.Weeks.Sum(w => w.WaterMm), 1e-6);
    }

    [Fact]
    public async Task Wishes_are_kept_by_a_season_and_those_that_cannot_be_are_told()
    {
        (Guid site, Guid plan) = await running.Planned();
        await running.Put($"/api/sites/{site}/weather", Running.Bytes(Running.Weather(), "text/csv"));
        JobRequest request = new("season", plan, null, 4, new SeasonWishes(
            [IsoDayOfWeek.Monday, IsoDayOfWeek.Thursday], [new PeriodOfYear(new AnnualDate(8, 1), new AnnualDate(8, 31))], null,
                [new AnnualDate(5, 14)], 20));
        SeasonPlan season = Json.Read<JobView>((await Ask(site, Json.Write(request))).ToString())!.ResultAs<VisitsFound>()!.Season!;
        Assert.Equal(4, season.Dates.Count);
        Assert.Contains(new AnnualDate(5, 14), season.Dates);
        Assert.DoesNotContain(season.Dates, d => d.Month == 8);
        Assert.All(season.Dates.Where(d => d != new AnnualDate(5, 14)), d =>
            Assert.True(d.InYear(2026).DayOfWeek is IsoDayOfWeek.Monday or IsoDayOfWeek.Thursday, $"{d}"));

        // Fixed winter, and visits that set percents alone: the season is the one of the curve.
        request = request with
            { Visits = 3, Wishes = new SeasonWishes(Shutdown: new Shutdown(new AnnualDate(11, 12), new AnnualDate(3, 19))) };
        VisitsFound winter = Json.Read<JobView>((await Ask(site, Json.Write(request))).ToString())!.ResultAs<VisitsFound>()!;
        Assert.Contains(new AnnualDate(11, 12), winter.Season!.Dates);
        Assert.Contains(new AnnualDate(3, 19), winter.Season.Dates);
        Assert.All(winter.Season.Controllers, c =>
            Assert.Equal(0, c.Percents[winter.Season.Dates.ToList().IndexOf(new AnnualDate(11, 12))]));
        SeasonKept kept = Json.Read<PlanView>((await running.Get($"/api/sites/{site}/plans/{winter.Plan}")).Text)!.Season!;
        Assert.Equal(kept.Curve.StepOf(3)!.CostLitres, winter.Season.CostLitres);
        Assert.Equal(2, kept.Curve.Steps[0].Visits);

        request = request with
            { Visits = 2, Wishes = new SeasonWishes(Agreed: [new AnnualDate(5, 1), new AnnualDate(6, 1), new AnnualDate(7, 1)]) };
        JobView failed = Json.Read<JobView>((await Ask(site, Json.Write(request))).ToString())!;
        Assert.Equal((JobState.Failed, "no-season"), (failed.State, failed.Problem!.Kind));
        Assert.Contains("3 visits are agreed", failed.Problem.Detail, StringComparison.Ordinal);
        foreach (string wrong in new[] { """{"kind":"plan","visits":0,"wishes":{}}""", """{"kind":"proof","wishes":{}}""",
            """{"kind":"plan","wishes":{"leastDaysBetween":0}}""", """{"kind":"season","wishes":{"leastDaysBetween":0}}""",
                """{"kind":"season","wishes":{"onlyOn":["none"]}}""", """{"kind":"season","wishes":{"agreed":["13-40"]}}""",
                    """{"kind":"season","wishes":{"aim":7}}""" })
        {
            (await running.Send("POST", $"/api/sites/{site}/jobs", Running.AsJson(wrong))).Problem(400, "wrong-input");
        }
    }

    [Fact]
    public async Task Without_a_plan_programs_and_visits_are_found_together()
    {
        Guid site = await Site();
        VisitsFound found = Json.Read<JobView>((await Ask(site, """{"kind":"season","visits":3,"from":"2026-04-01"}""")).ToString())!
            .ResultAs<VisitsFound>()!;
        Assert.Equal((3, true), (found.Season!.Dates.Count, found.Verdict is not null));
        Assert.Equal(200, (await running.Get($"/api/sites/{site}/plans/{found.Plan}/cards.txt")).Status);
    }

    /// <summary>What the command makes with as many visits, from the same survey and weather, is made here too: the same programs and
    /// percents.</summary>
    [Theory]
    [InlineData("""{"kind":"plan","from":"2026-04-01"}""", 4, null)]
    [InlineData("""{"kind":"plan","from":"2026-04-01","visits":3,"wishes":{"shutdown":{"off":"11-12","on":"03-19"}}}""", 3, "11-12")]
    public async Task A_plan_is_made_with_its_visits(string request, int visits, string? off)
    {
        Guid site = await Site();
        PlanMade made = Json.Read<JobView>((await Ask(site, request)).ToString())!.ResultAs<PlanMade>()!;
        CarryView carried = Json.Read<CarryView>((await running.Get($"/api/sites/{site}/carry.json")).Text)!;
        PlanView kept = Assert.Single(carried.Plans);
        Assert.Equal((made.Plan, visits), (kept.Id, made.Season!.Dates.Count));
        Assert.Equal((visits, made.Season), (kept.Season!.Season.Dates.Count, kept.Season.Season));

        Site surveyed = carried.Site.Site;
        BuiltClimate built = ClimateBuilder.Build(SiteWeather.ReadBytes(surveyed, "weather.csv", Running.Weather()).Record!);
        SeasonWishes wishes = Json.Read<JobRequest>(request)!.Wishes ?? new SeasonWishes();
        PlanAndSeasonResult same = PlanAndSeason.Of(
            surveyed, built.Split(surveyed.Place.LatitudeDeg).Training.Select(y => y.Of(built.Climate)).ToListOf(),
            new PlannerOptions { InForceFrom = new LocalDate(2026, 4, 1) }, wishes.ToOptions(visits, 2026));
        Assert.Equal(SeedbedVisits.Keep(surveyed, same.Season!.ApplyTo(same.Plan.Plan!)),
            PlanFiles.Parse(kept.Plan.GetRawText(), "plan").Saved!.Plan);
        int[] percents = [.. kept.Season.Season.Controllers.SelectMany(c => c.Percents)];
        Assert.Contains(100, percents);
        if (off is null)
        {
            Assert.Contains(percents, p => p is > 0 and not 100);
        }
        else
        {
            Assert.Contains(made.Season.Dates, d => $"{d.Month:00}-{d.Day:00}" == off);
        }
    }

    [Fact]
    public async Task Weather_that_does_not_say_where_it_was_measured_is_taken_for_the_sites_own_and_that_is_told()
    {
        string survey = Running.WithWeather("Heron Bank");
        Guid site = await running
            .Site(string.Concat(survey.Split('\n').Where(l => !l.Contains("station: {", StringComparison.Ordinal)).Select(l => l + "\n")));
        Assert.Equal(201, (await running.Put($"/api/sites/{site}/weather", Running.Bytes(Running.Weather(), "text/csv"))).Status);
        JobView job = Json.Read<JobView>((await Ask(site, """{"kind":"plan","visits":0}""")).ToString())!;
        Assert.Equal(JobState.Done, job.State);
        CarriedWeather carried = Json.Read<CarryView>((await running.Get($"/api/sites/{site}/carry.json")).Text)!.Weather!;
        Assert.True(carried.IsPlaceAssumed);
        Assert.Equal(38.298, carried.Place.LatitudeDeg);

        Guid said = await Site();
        Assert.False(Json.Read<CarryView>((await running.Get($"/api/sites/{said}/carry.json")).Text)!.Weather!.IsPlaceAssumed);
    }

    [Fact]
    public async Task Without_weather_that_can_be_used_a_job_says_what_is_wanting()
    {
        Guid none = await running.Site(Writer.Survey("Heron Bank", "no weather"));
        Assert.Equal("weather-not-named", Json.Read<JobView>((await Ask(none, """{"kind":"plan"}""")).ToString())!.Problem!.Kind);
        Guid missing = await running.Site(Running.WithWeather("Heron Bank"));
        Assert.Equal("weather-missing", Json.Read<JobView>((await Ask(missing, """{"kind":"plan"}""")).ToString())!.Problem!.Kind);
        Guid bad = await running.Site(Running.WithWeather("Heron Bank"));
        Assert.Equal(
            201, (await running.Put($"/api/sites/{bad}/weather",
                Running.Bytes("date,tmax_c,tmin_c\n2020-01-01,20,\n2020-03-02,,9\n"u8.ToArray(), "text/csv"))).Status);
        JobView failed = Json.Read<JobView>((await Ask(bad, """{"kind":"plan"}""")).ToString())!;
        Assert.Equal((JobState.Failed, "weather-unusable"), (failed.State, failed.Problem!.Kind));
        Assert.NotEmpty(failed.Problem.Problems!);

        Guid brief = await running.Site(Running.WithWeather("Heron Bank"));
        await running.Put($"/api/sites/{brief}/weather",
            Running.Bytes("date,tmax_c,tmin_c\n2020-01-01,20,10\n2020-01-02,21,9\n"u8.ToArray(), "text/csv"));
        Assert.Equal("weather-too-short", Json.Read<JobView>((await Ask(brief, """{"kind":"plan"}""")).ToString())!.Problem!.Kind);
        Assert.Equal(JobState.Done, Json.Read<JobView>((await Ask(brief, """{"kind":"plan","visits":0}""")).ToString())!.State);
    }

    [Fact]
    public async Task A_job_can_be_stopped_and_leaves_nothing()
    {
        Guid site = await Site();
        Reply first = await running.Send("POST", $"/api/sites/{site}/jobs", Running.AsJson("""{"kind":"plan"}""")),
            second = await running.Send("POST", $"/api/sites/{site}/jobs", Running.AsJson("""{"kind":"plan"}"""));
        foreach (Reply asked in new[] { second, first })
        {
            Assert.Equal(200, (await running.Send("DELETE", $"/api/jobs/{asked.Json.GetProperty("id")}")).Status);
        }

        foreach (Reply asked in new[] { second, first })
        {
            Assert.Equal("stopped", (await Jobs.Ended(running, $"{asked.Json.GetProperty("id")}")).GetProperty("state").GetString());
        }

        Assert.Equal(0, (await running.Get($"/api/sites/{site}/plans")).Json.GetArrayLength());
    }

    [Fact]
    public async Task A_job_that_means_nothing_is_refused_at_once()
    {
        Guid site = await Site();
        foreach (string wrong in new[] { """{"kind":"dig"}""", """{"kind":"proof"}""",
            """{"kind":"season","plan":"018f3b1c-8a00-7000-8000-000000000000","visits":13}""", """{"kind":"plan","from":"0001-01-01"}""",
            """{"kind":"plan","visits":-1}""", """{"kind":"plan","visits":13}""", """{"kind":"season","visits":0}""" })
        {
            (await running.Send("POST", $"/api/sites/{site}/jobs", Running.AsJson(wrong))).Problem(400, "wrong-input");
        }

        (await running.Send("POST", $"/api/sites/{site}/jobs",
            Running.AsJson("""{"kind":"proof","plan":"018f3b1c-8a00-7000-8000-000000000000"}"""))).Problem(404, "not-found");
        (await running.Get("/api/jobs/018f3b1c-8a00-7000-8000-000000000000?wait=20")).Problem(404, "not-found");
        (await running.Get("/api/jobs/018f3b1c-8a00-7000-8000-000000000000?wait=21")).Problem(400, "wrong-input");
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
