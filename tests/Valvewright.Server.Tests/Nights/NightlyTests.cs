using NodaTime;
using NodaTime.Testing;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Surveys;
using Valvewright.Files.Weather;
using Valvewright.Records;
using Valvewright.Server.Jobs;
using Valvewright.Server.Nights;
using Valvewright.Server.Sites;
using Valvewright.Store;
using Valvewright.Work.Rounds;

namespace Valvewright.Server.Tests.Nights;

/// <summary>The advice of the night at sites of a store, on a clock that the test moves.</summary>
public sealed class NightlyTests : IDisposable
{
    /// <summary>Noon at the site (Asia/Baku, four hours ahead); the record reaches further than the day before.</summary>
    private static readonly Instant Noon = Instant.FromUtc(2026, 4, 10, 8, 0);
    private static readonly LocalDate Today = new(2026, 4, 10);
    private static readonly Stamp Ana = new("Ana", Noon);

    private readonly string folder = Directory.CreateTempSubdirectory("valvewright-nights-").FullName;
    private readonly FakeClock clock = new(Noon);
    private readonly SiteStore store;

    public NightlyTests() => store = SiteStore.Open(Path.Combine(folder, "sites.db"));

    public void Dispose()
    {
        store.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Each_site_is_looked_at_once_a_night_and_again_when_something_of_it_has_changed()
    {
        Guid site = Site("Heron Bank", Running.Weather()), bare = Site("Bare Bank", null);
        await using WorkSilo silo = await WorkSilo.StartAsync(store, null, clock);
        INightGrain night = silo.Grains.GetGrain<INightGrain>(0);
        Assert.Equal(2, await night.Look());
        Assert.Equal(0, await night.Look());
        KeptAdvice kept = store.Advice(site)!;
        Assert.Equal(Today, kept.Night);

        // The same as the engine finds from the same file, asked without a store.
        Site surveyed = SurveyFiles.ParseApart(Running.WithWeather("Heron Bank"), "survey").Site!;
        BuiltClimate built = ClimateBuilder.Build(SiteWeather.ReadBytes(surveyed, "weather.csv", Running.Weather()).Record!);
        ListOf<InYearAdvice> same = InYearAdvice.Of(
            surveyed.AsOf(Today), Valvewright.Files.Plans.PlanFiles.Parse(PlanOf(surveyed), "plan").Saved!.Plan,
            built.Split(surveyed.Place.LatitudeDeg).Training.Select(y => y.Of(built.Climate)).ToListOf(),
            built.Climate.Between(new LocalDate(2026, 1, 1), Today.PlusDays(-1)), new Dictionary<string, int>());
        Assert.Equal(same, Nightly.Kept(store, site, Today)!.Controllers);
        Assert.Single(same);
        SiteAdvice none = Nightly.Kept(store, bare, Today)!;
        Assert.Empty(none.Controllers);
        Assert.NotNull(none.Missing);

        // A visit is news: what it left is where the advice begins. A reading is not.
        store.Put(site, Ids.New(), new ReadingValue("Gate", new(2026, 4, 9, 9, 0), "A: none"), null, Ana);
        Assert.Equal(0, await night.Look());
        store.Put(site, Ids.New(), Running.Visit() with { AsLeft = "percent 80", At = new(2026, 4, 9, 9, 30) }, null, Ana);
        Assert.Equal(1, await night.Look());
        Assert.Equal(80, Nightly.Kept(store, site, Today)!.Controllers[0].PercentNow);

        // New weather is news.
        WeatherTo(bare, Running.Weather());
        Assert.Equal(1, await night.Look());
        Assert.Null(Nightly.Kept(store, bare, Today)!.Missing);

        // Midnight at the site, not of the server.
        clock.Reset(Instant.FromUtc(2026, 4, 10, 19, 59));
        Assert.Equal(0, await night.Look());
        clock.Reset(Instant.FromUtc(2026, 4, 10, 20, 1));
        Assert.Equal(2, await night.Look());
        Assert.Equal(Today.PlusDays(1), store.Advice(site)!.Night);
    }

    [Fact]
    public async Task A_site_that_can_have_no_advice_says_why_and_a_removed_one_is_left_alone()
    {
        Guid site = Site("Heron Bank", Running.Weather()), gone = Site("Gone Bank", Running.Weather());
        string[] lines = System.Text.Encoding.UTF8.GetString(Running.Weather()).Split('\n');
        Site("Later Bank", System.Text.Encoding.UTF8.GetBytes(
            string.Join('\n', lines.Where(l => !l.StartsWith("2026", StringComparison.Ordinal)))));
        store.Remove<SiteValue>(gone, gone, 1, Ana);
        await using WorkSilo silo = await WorkSilo.StartAsync(store, null, clock);
        Assert.Equal(2, await silo.Grains.GetGrain<INightGrain>(0).Look());
        Assert.Null(store.Advice(gone));
        Assert.Equal([null, "no weather of this year"], store.Sites().Select(s => Nightly.Kept(store, s.Id, Today)!.Missing?.Text));
        Assert.Null(Nightly.Kept(store, site, Today.PlusDays(1)));
    }

    /// <summary>Of two who looked at the same night and the same records the first counts; older finds never replace newer.</summary>
    [Fact]
    public void Advice_is_written_once()
    {
        Guid site = Site("Heron Bank", null);
        Assert.True(store.KeepAdvice(new KeptAdvice(site, Today, 3, Noon, "first")));
        Assert.False(store.KeepAdvice(new KeptAdvice(site, Today, 3, Noon, "again")));
        Assert.False(store.KeepAdvice(new KeptAdvice(site, Today.PlusDays(-1), 4, Noon, "earlier")));
        Assert.Equal("first", store.Advice(site)!.Value);
        Assert.True(store.KeepAdvice(new KeptAdvice(site, Today, 4, Noon, "newer")));
        Assert.True(store.KeepAdvice(new KeptAdvice(site, Today.PlusDays(1), 4, Noon, "next")));
        Assert.Equal("next", store.Advice(site)!.Value);
    }

    /// <summary>A site with a plan of two visits.</summary>
    private Guid Site(string name, byte[]? weather)
    {
        Guid site = Ids.New();
        (SiteValue value, Site read, _) = SiteReading.Survey(Running.WithWeather(name));
        store.PutSite(site, value, null, Ana);
        store.Put(site, Ids.New(), new PlanValue(value.Digest, new LocalDate(2026, 4, 1), PlanOf(read)), null, Ana);
        if (weather is not null)
        {
            WeatherTo(site, weather);
        }

        return site;
    }

    private void WeatherTo(Guid site, byte[] weather) => store.Put(
        site, Ids.WeatherOf(site), new WeatherValue("weather.csv", SiteStore.DigestOf(weather), weather.Length), null, Ana, weather);

    private static string PlanOf(Site site) => Running.PlanText(site.Name, Valvewright.Files.Plans.SavedPlan.DigestOf(site),
        new(new AnnualDate(4, 1), 60), new(new AnnualDate(6, 1), 100));
}
