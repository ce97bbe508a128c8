using NodaTime;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Files.Weather;
using Valvewright.Records;
using Valvewright.Records.Carrying;

namespace Valvewright.Server.Tests;

public sealed class CarryTests(Running running) : IClassFixture<Running>
{
    [Fact]
    public async Task What_is_carried_is_the_whole_site_and_the_engine_can_work_on_it()
    {
        (Guid site, Guid plan) = await running.Planned();
        Guid visit = Ids.New(), photo = Ids.New(), reading = Ids.New();
        await running.Put($"/api/sites/{site}/weather", Running.Bytes(Running.Weather(), "text/csv"));
        await running.Put($"/api/sites/{site}/visits/{visit}?by=Ana", Running.AsJson(Running.Visit("wet")));
        await running.Put($"/api/sites/{site}/visits/{visit}/photos/{photo}", Running.Bytes([0xFF, 0xD8, 0xFF, 0xE0], "image/jpeg"));
        await running.Put($"/api/sites/{site}/readings/{reading}",
            Running.AsJson(new ReadingValue("Gate", new(2026, 4, 1, 9, 0), "A: none")));
        CarryView carried = await Carried(site);

        Assert.Equal(SurveyFiles.ParseApart(Running.WithWeather("Heron Bank"), "survey").Site, carried.Site.Site);
        Assert.Equal(Running.WithWeather("Heron Bank"), carried.Site.Survey);
        Assert.Equal((plan, true), (Assert.Single(carried.Plans).Id, carried.Plans[0].FitsSurvey));
        Assert.NotNull(PlanFiles.Parse(carried.Plans[0].Plan.GetRawText(), "plan").Saved);
        Assert.Equal((visit, "wet", photo),
            (Assert.Single(carried.Visits).Id, carried.Visits[0].Value.Notes, Assert.Single(carried.Visits[0].Photos).Id));
        Assert.Equal(reading, Assert.Single(carried.Readings).Id);

        // Set beside the same file read without a server.
        BuiltClimate built = ClimateBuilder.Build(SiteWeather.ReadBytes(carried.Site.Site, "weather.csv", Running.Weather()).Record!);
        YearSplit split = built.Split(carried.Site.Site.Place.LatitudeDeg);
        Climate climate = carried.Weather!.ToClimate();
        Assert.Equal(split, carried.Weather.Years);
        Assert.Equal(built.Climate.Last, climate.Last);
        for (int day = 0; day < climate.Days; day++)
        {
            int there = built.Climate.DayOf(climate.DateOf(day));
            Assert.Equal(built.Climate.EtoMm[there], climate.EtoMm[day], 0.0051);
            Assert.Equal(built.Climate.RainMm[there], climate.RainMm[day], 0.0051);
        }

        double least = ZoneNeeds.OfAll(carried.Site.Site, carried.Weather.Training())[0].LeastWaterMm.Mean;
        double exact = ZoneNeeds.OfAll(carried.Site.Site, [.. split.Training.Select(y => y.Of(built.Climate))])[0].LeastWaterMm.Mean;
        Assert.InRange(least, exact * 0.995, exact * 1.005);
        ProofReport proof = Proofs.Replay(
            carried.Site.Site, PlanFiles.Parse(carried.Plans[0].Plan.GetRawText(), "plan").Saved!.Plan, carried.Weather.HeldBack(),
                new ProofOptions(new LocalDate(2026, 4, 1), carried.Weather.Training()));
        Assert.Equal("Heron Bank", proof.Site);
    }

    [Fact]
    public async Task The_tag_stays_while_nothing_changes_and_goes_with_any_part()
    {
        Guid site = await running.Site(Running.WithWeather("Heron Bank")), visit = Ids.New();
        string address = $"/api/sites/{site}/carry.json";
        List<string> tags = [(await running.Get(address)).Tag!];
        Assert.Equal("weather-missing", (await Carried(site)).WeatherProblem!.Kind);
        Assert.Equal(304, (await running.Get(address, ("If-None-Match", tags[0]))).Status);
        await running.Put($"/api/sites/{site}/weather", Running.Bytes(Running.Weather(), "text/csv"));
        tags.Add((await running.Get(address)).Tag!);
        await running.Put($"/api/sites/{site}/visits/{visit}", Running.AsJson(Running.Visit("wet")));
        tags.Add((await running.Get(address)).Tag!);
        await running.Send("DELETE", $"/api/sites/{site}/visits/{visit}", null, ("If-Match", "\"1\""));
        tags.Add((await running.Get(address)).Tag!);
        Assert.Equal(tags.Count, tags.Distinct().Count());
        Assert.Empty((await Carried(site)).Visits);
        (await running.Get($"/api/sites/{Ids.New()}/carry.json")).Problem(404, "not-found");
    }

    private async Task<CarryView> Carried(Guid site) => Json.Read<CarryView>((await running.Get($"/api/sites/{site}/carry.json")).Text)!;
}
