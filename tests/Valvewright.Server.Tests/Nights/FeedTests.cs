using System.Net;
using System.Text.Json;
using Ical.Net;
using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Files.Rounds;
using Valvewright.Records.Views;
using Valvewright.Server.People;
using Valvewright.Server.Tests.People;

namespace Valvewright.Server.Tests.Nights;

/// <summary>The advice at secret addresses.</summary>
public sealed class FeedTests(Running running) : IClassFixture<Running>
{
    [Fact]
    public async Task The_advice_is_read_at_a_secret_address_until_that_is_taken_away()
    {
        (Guid site, Guid plan) = await running.Planned("Feed Bank");
        string digest = (await running.Get($"/api/sites/{site}")).Json.GetProperty("digest").GetString()!;
        await running.Put($"/api/sites/{site}/weather", Running.Bytes(Running.Weather(), "text/csv"));
        Assert.Equal(200, (await running.Put($"/api/sites/{site}/plans/{plan}", Running.AsJson(Running.PlanText("Feed Bank", digest,
            new(new AnnualDate(4, 1), 60), new(new AnnualDate(6, 1), 100))), "\"1\"")).Status);
        await running.LookAtNight();

        AdviceSheet own = Json.Read<AdviceSheet>((await running.Get("/api/advice.json")).Text)!;
        AdviceLine line = Assert.Single(own.Advice);
        Assert.Equal(("Feed Bank", "Gate", 60), (line.Site, line.Controller, line.PercentNow));

        Reply made = await running.Send("POST", "/api/feeds?by=Ana", Running.AsJson("""{"name":"Office calendar"}"""));
        Assert.Equal(201, made.Status);
        FeedMade feed = Json.Read<FeedMade>(made.Text)!;
        string secret = feed.Calendar.AbsolutePath.Split('/')[2];
        Assert.Equal(43, secret.Length);
        Reply json = await running.Get(feed.Json.AbsolutePath);
        Assert.Equal(own, Json.Read<AdviceSheet>(json.Text));
        Reply calendar = await running.Get(feed.Calendar.AbsolutePath);
        Assert.StartsWith("text/calendar", calendar.Type, StringComparison.Ordinal);
        Assert.Single(Calendar.Load(calendar.Text)!.Events);
        Assert.Contains("visita", Calendar.Load((await running.Get(feed.Calendar.AbsolutePath + "?language=es")).Text)!.Events[0]!.Summary!,
            StringComparison.Ordinal);

        // The secret is told once and kept nowhere: not in the list, not in the store.
        Reply list = await running.Get("/api/feeds");
        Assert.Contains("Office calendar", list.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(secret, list.Text, StringComparison.Ordinal);
        // Nothing can be done there but read; one sign less, another case, and there is nothing.
        Assert.Equal(405, (await running.Send("POST", feed.Json.AbsolutePath, Running.AsJson("{}"))).Status);
        foreach (string wrong in new[] { secret[..^1], secret.ToUpperInvariant(), secret + "A", $"{feed.Feed.Id}", "%20" })
        {
            (await running.Get($"/feeds/{wrong}/advice.json")).Problem(404, "not-found");
        }

        Assert.Equal(204, (await running.Send("DELETE", $"/api/feeds/{feed.Feed.Id}")).Status);
        (await running.Get(feed.Json.AbsolutePath)).Problem(404, "not-found");
        (await running.Get(feed.Calendar.AbsolutePath)).Problem(404, "not-found");
        (await running.Send("DELETE", $"/api/feeds/{feed.Feed.Id}")).Problem(404, "not-found");
        (await running.Send("POST", "/api/feeds", Running.AsJson("{}"))).Problem(400, "wrong-input");
    }

    /// <summary>Where people sign in, an address shows its organization's sites alone, and only its own members take it away.</summary>
    [Fact]
    public async Task An_address_belongs_to_an_organization()
    {
        await using Office office = await Office.Open();
        using Office.Browser ana = await office.Member("Parks", "Ana", MemberRole.Planner),
            other = await office.Member("Contractor", "Other", MemberRole.Owner),
            reader = await office.Member("Parks", "Rita", MemberRole.Reader), stranger = office.Stranger();
        foreach ((HttpClient who, string name) in new[] { (ana.Client, "Heron Bank"), (other.Client, "Otter Wharf") })
        {
            Assert.Equal(HttpStatusCode.Created, (await who.PutAsync($"/api/sites/{Records.Ids.New()}",
                Running.Yaml(Running.WithWeather(name)))).StatusCode);
        }

        Assert.Equal(2, await office.LookAtNight());
        using StringContent body = Running.AsJson("""{"name":"Office"}""");
        Assert.Equal(HttpStatusCode.Forbidden, (await reader.Client.PostAsync("/api/feeds", body)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await stranger.Client.PostAsync("/api/feeds", body)).StatusCode);
        FeedMade feed = Json.Read<FeedMade>(await (await ana.Client.PostAsync("/api/feeds", body)).Content.ReadAsStringAsync())!;
        string read = await stranger.Client.GetStringAsync(feed.Json.AbsolutePath);
        Assert.Contains("Heron Bank", read, StringComparison.Ordinal);
        Assert.DoesNotContain("Otter Wharf", read, StringComparison.Ordinal);
        Assert.Equal(JsonSerializer.Serialize(JsonSerializer.Deserialize<JsonElement>(read)), JsonSerializer.Serialize(
            JsonSerializer.Deserialize<JsonElement>(await reader.Client.GetStringAsync("/api/advice.json"))));
        Assert.Equal("[]", await other.Client.GetStringAsync("/api/feeds"));
        Assert.Equal(HttpStatusCode.NotFound, (await other.Client.DeleteAsync($"/api/feeds/{feed.Feed.Id}")).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await ana.Client.DeleteAsync($"/api/feeds/{feed.Feed.Id}")).StatusCode);
        Assert.Equal(404, await stranger.Status(feed.Json.AbsolutePath));
    }
}
