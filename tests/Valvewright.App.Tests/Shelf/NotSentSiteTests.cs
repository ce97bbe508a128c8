using NodaTime;
using NodaTime.Testing;
using Valvewright.App.Link;
using Valvewright.App.Outbox;
using Valvewright.App.Pages.Survey;
using Valvewright.App.Person;
using Valvewright.App.Shelf;
using Valvewright.App.Tests.Outbox;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Survey;
using Valvewright.Files.Surveys;
using Valvewright.Records;
using Valvewright.Tests;

namespace Valvewright.App.Tests.Shelf;

/// <summary>A new site that was surveyed without a server is opened here at once, and is the same site when it was sent.</summary>
public sealed class NotSentSiteTests : IDisposable
{
    private static readonly string Folder = Path.Combine(Checkout.Root, "demo", "quarry-hill");
    private static readonly string Survey = File.ReadAllText(Path.Combine(Folder, "site.yaml"));
    private static readonly Site Site = SurveyFiles.ParseApart(Survey, "survey").Site!;
    private static readonly Instant Now = Instant.FromUtc(2026, 7, 14, 12, 0);

    private readonly FakeDevice device = new();
    private readonly FakeServer server = new() { Fate = () => Fate.NoServer };
    private readonly Guid id = Ids.New();

    public void Dispose() => server.Dispose();

    [Fact]
    public void It_is_what_the_survey_and_its_weather_say()
    {
        CarriedSite site = NotSentSite.Of(id, Survey, (Site.Weather!.File!, Weather()), "Ana", Now)!;
        Assert.True(site.IsNotSent);
        Assert.Equal((id, Site.Name), (site.Id, site.Name));
        Assert.Equal(Site, site.All.Site.Site);
        Assert.Equal(site, CarriedSite.Read(site.Write()));
        Assert.True(CarriedSite.Read(site.Write()).IsNotSent);
        // Needs are worked out of it as of any other.
        Assert.Equal(Site.Controllers.Sum(c => c.Zones.Count), ZoneNeeds.OfAll(Site, site.Weather!.Training()).Count);
    }

    [Fact]
    public void Without_a_weather_file_that_can_be_used_it_says_why_and_is_there_all_the_same()
    {
        Assert.Equal("weather-missing", NotSentSite.Of(id, Survey, null, "", Now)!.All.WeatherProblem!.Kind);
        Assert.Equal("weather-unusable",
            NotSentSite.Of(id, Survey, (Site.Weather!.File!, "no weather"), "", Now)!.All.WeatherProblem!.Kind);
        Assert.Null(NotSentSite.Of(id, "site: nothing else", null, "", Now));
    }

    [Fact]
    public async Task It_can_be_opened_before_it_is_sent_and_goes_with_what_was_thrown_away()
    {
        (SiteShelf sites, Unsent unsent, SurveyDrafts drafts) = Window();
        SurveyDraft draft = new(id, true, Survey, null, "check", Now, new DraftWeather(Site.Weather!.File!, "text/csv", Weather()));
        Assert.True((await drafts.SendAsync(draft)).IsUnreachable);
        CarriedSite opened = (await sites.OpenAsync(id)).Value!;
        Assert.True(opened.IsNotSent);
        Assert.NotNull(opened.Weather);
        Assert.Equal(["survey", "weather"], unsent.Records.Select(r => r.Kind));
        Assert.All(unsent.Records, r => Assert.Equal((Site.Name, Site.Units, Site.Clock), (r.SiteName, r.Units, r.Clock)));

        // Changed once more, still without a server: the site changes with it, and its weather is still known.
        await drafts.SendAsync(
            new SurveyDraft(id, false, Survey.Replace($"site: {Site.Name}", "site: Renamed", StringComparison.Ordinal), null,
                "check", Now));
        Assert.Equal("Renamed", (await sites.OpenAsync(id)).Value!.Name);
        Assert.NotNull((await sites.OpenAsync(id)).Value!.Weather);

        await unsent.Discard(unsent.Records[0]);
        Assert.Empty((await Window().Sites.CarriedAsync()));
    }

    [Fact]
    public async Task What_belongs_to_it_is_not_sent_before_the_site_itself_is_there()
    {
        (SiteShelf sites, Unsent unsent, SurveyDrafts drafts) = Window();
        await drafts.SendAsync(new SurveyDraft(id, true, Survey, null, "check", Now));
        Guid visit = Ids.New();
        await unsent.KeepOnly(visit, id, "visit", $"api/sites/{id}/visits/{visit}", "application/json", Outbox.Window.Visit("there"), null);
        server.Fate = () => Fate.Trouble;
        await unsent.SendAsync();
        Assert.Equal($"api/sites/{id}", server.Asked[^1]);
        server.Fate = () => Fate.Arrives;
        CarriedSite made = (await sites.OpenAsync(id)).Value!;
        server.Given[$"api/sites/{id}/carry.json"] = System.Text.Json.JsonSerializer
            .Serialize(made.All with { Site = made.All.Site with { Version = 1 } }, Valvewright.Engine.Values.Json.Compact);
        Assert.True(made.IsNotSent);
        await unsent.SendAsync();
        Assert.False((await sites.OpenAsync(id)).Value!.IsNotSent);
        Assert.Equal([$"api/sites/{id}", $"api/sites/{id}/visits/{visit}"], server.Kept.Keys);
        Assert.Empty(unsent.Records);
    }

    [Fact]
    public async Task A_site_that_came_from_the_server_is_never_replaced_by_one_made_here()
    {
        (SiteShelf sites, _, _) = Window();
        CarriedSite made = NotSentSite.Of(id, Survey, null, "", Now)!,
            fetched = CarriedSite.Of(id, "\"a\"", Now, made.All with { Site = made.All.Site with { Version = 1 } });
        await new DeviceShelf(device.Window()).PutSite(fetched);
        await sites.KeepNotSentAsync(made);
        await sites.ForgetNotSentAsync(id);
        Assert.False((await sites.OpenAsync(id)).Value!.IsNotSent);
    }

    private static string Weather() => File.ReadAllText(Path.Combine(Folder, Site.Weather!.File!));

    private (SiteShelf Sites, Unsent Unsent, SurveyDrafts Drafts) Window()
    {
        Microsoft.JSInterop.IJSRuntime scripts = device.Window();
        Device here = new(scripts);
        Preferences preferences = new(here);
        DeviceShelf shelf = new(scripts);
        FakeClock clock = new(Now, Duration.FromSeconds(1));
        ServerLink link = new(
            new HttpClient(server, disposeHandler: false) { BaseAddress = new Uri("http://server.example/") }, preferences);
        SiteShelf sites = new(shelf, link, clock);
        Unsent unsent = new(shelf, link, preferences, clock, here, sites);
        return (sites, unsent, new SurveyDrafts(shelf, link, unsent, clock, sites, preferences));
    }
}
