using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Files.Weather;
using Valvewright.Files.Weather.Fetch;

namespace Valvewright.Files.Tests.Weather;

/// <summary>Fetching, against a service on this machine that replays the layouts of the reference folder, whole and broken.</summary>
public sealed class FetchTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("weather-cache");
    private readonly LoopbackService service = new();
    private readonly SettableClock clock = new(Instant.FromUtc(2026, 3, 1, 12, 0));

    private static readonly string PowerAnswer = File
        .ReadAllText(Samples.PathOf("formats/nasapower_daily_json_2023_rebuilt-from-csv.json"));
    private static readonly string MeteoAnswer = File.ReadAllText(Samples.PathOf("formats/openmeteo_forecast_daily_us-units_2025.json"));
    private static readonly FetchRequest Power =
        new(WeatherService.NasaPower, new Place(38.298, 48.847, double.NaN), new LocalDate(2023, 1, 1), new LocalDate(2023, 12, 31));
    private static readonly FetchRequest Meteo =
        new(WeatherService.OpenMeteo, new Place(47.6854, -116.7843, 650), new LocalDate(2025, 7, 28), new LocalDate(2025, 8, 3));

    private FetchSettings Settings => new()
    {
        NasaPower = service.Address,
        OpenMeteo = service.Address,
        CacheFolder = Path.Combine(folder.FullName, "kept"),
        AttemptTimeout = TimeSpan.FromSeconds(10),
        FirstDelay = TimeSpan.FromMilliseconds(5),
        Retries = 3,
    };

    public void Dispose()
    {
        service.Dispose();
        folder.Delete(recursive: true);
    }

    [Fact]
    public async Task Nasa_power_is_asked_in_its_own_words_and_read()
    {
        service.Then(200, PowerAnswer);
        FetchResult result = await Fetch(Power);
        Assert.Equal(FetchOrigin.Service, result.Origin);
        Assert.Equal(365, result.Reading.Good().Record!.Days.Count);
        string asked = Assert.Single(service.Requests);
        Assert.Contains("latitude=38.298&longitude=48.847&start=20230101&end=20231231&format=JSON", asked, StringComparison.Ordinal);
        Assert.Contains("community=AG", asked, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Open_meteo_is_asked_in_its_own_words_and_read()
    {
        service.Then(200, MeteoAnswer);
        FetchResult result = await Fetch(Meteo);
        Assert.Equal(7, result.Reading.Good().Record!.Days.Count);
        Assert.Equal(650, result.Reading.Record!.Place.ElevationM);
        Assert.Contains("start_date=2025-07-28&end_date=2025-08-03&daily=temperature_2m_max,", Assert.Single(service.Requests),
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(429, "Retry-After: 0\r\n")]
    [InlineData(500, "")]
    [InlineData(503, "")]
    [InlineData(408, "")]
    public async Task A_refusal_that_may_pass_is_tried_again(int status, string headers)
    {
        service.Then(status, "{}", headers: headers).Then(status, "{}", headers: headers).Then(200, PowerAnswer);
        Assert.Equal(FetchOrigin.Service, (await Fetch(Power)).Origin);
        Assert.Equal(3, service.Requests.Count);
    }

    [Fact]
    public async Task The_wait_that_the_service_asks_for_is_kept()
    {
        service.Then(429, "{}", headers: "Retry-After: 7\r\n").Then(200, PowerAnswer);
        RememberedWaits waits = new();
        Assert.Equal(FetchOrigin.Service, (await Fetch(Power, Settings with { Time = waits })).Origin);
        Assert.Equal([TimeSpan.FromSeconds(7)], waits.All);
    }

    [Fact]
    public async Task A_wait_of_an_hour_is_not_waited()
    {
        service.Then(429, "{}", headers: "Retry-After: 3600\r\n");
        FetchResult result = await Fetch(Power);
        Assert.Equal(FetchOrigin.None, result.Origin);
        Assert.Contains("429", result.Reading.OnlyProblem().Message.Text, StringComparison.Ordinal);
        Assert.Single(service.Requests);
    }

    [Fact]
    public async Task A_refusal_that_stays_is_not_tried_again_and_its_words_are_passed_on()
    {
        service.Then(422, "{\"messages\":[\"latitude is out of range\"]}");
        FetchResult result = await Fetch(Power);
        Assert.Contains("latitude is out of range", result.Reading.OnlyProblem().Message.Text, StringComparison.Ordinal);
        Assert.Single(service.Requests);
    }

    /// <summary>Cut by the connection (fewer bytes than said), and cut but well delivered (half a JSON).</summary>
    [Fact]
    public async Task A_truncated_answer_is_noticed_and_asked_for_again()
    {
        service.Then(200, PowerAnswer, bytesSent: 20_000).Then(200, PowerAnswer[..30_000]).Then(200, PowerAnswer);
        Assert.Equal(365, (await Fetch(Power)).Reading.Good().Record!.Days.Count);
        Assert.Equal(3, service.Requests.Count);
    }

    [Fact]
    public async Task A_truncated_answer_is_never_kept()
    {
        for (int i = 0; i < 4; i++)
        {
            service.Then(200, PowerAnswer[..30_000]);
        }

        FetchResult result = await Fetch(Power);
        Assert.Contains("cut short", result.Reading.OnlyProblem().Message.Text, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Settings.CacheFolder));
    }

    [Fact]
    public async Task Silence_ends_with_the_time_allowed()
    {
        service.Then(200, PowerAnswer, silence: Timeout.InfiniteTimeSpan);
        FetchResult result = await Fetch(Power, Settings with { AttemptTimeout = TimeSpan.FromSeconds(0.3), Retries = 0 });
        Assert.Contains("no answer within 0.3 s", result.Reading.OnlyProblem().Message.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_page_instead_of_json_is_told()
    {
        service.Then(200, "<html>Log in to the network</html>", type: "text/html");
        Assert.Contains("text/html instead of JSON", (await Fetch(Power)).Reading.OnlyProblem().Message.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_answer_beyond_the_limit_is_given_up()
    {
        service.Then(200, PowerAnswer);
        Assert.Contains("larger than", (await Fetch(Power, Settings with { LargestBytes = 10_000 })).Reading.OnlyProblem().Message.Text,
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_question_needs_the_network_once()
    {
        service.Then(200, PowerAnswer);
        FetchResult first = await Fetch(Power);
        FetchResult second = await Fetch(Power);
        Assert.Equal(FetchOrigin.Cache, second.Origin);
        Assert.True(second.Reading.Notes(WeatherNoteKind.Found, "From the cache, fetched 2026-03-01"));
        Assert.Equal(first.Reading.Record!.Days, second.Reading.Record!.Days);
        Assert.Single(service.Requests);
        Assert.Equal(["nasa-power_38.2980_48.8470_20230101_20231231.json"],
            Directory.GetFiles(Settings.CacheFolder).Select(Path.GetFileName));
    }

    /// <summary>Fetched within 90 days of its last day, an answer is asked for again after a day; without network it still serves,
    /// aloud.</summary>
    [Fact]
    public async Task A_kept_answer_serves_when_the_network_is_gone()
    {
        FetchRequest recent = Meteo;
        clock.Now = Instant.FromUtc(2025, 8, 4, 0, 0);
        service.Then(200, MeteoAnswer);
        await Fetch(recent);
        clock.Now = Instant.FromUtc(2025, 8, 7, 0, 0);
        FetchResult result = await Fetch(recent, Settings with { OpenMeteo = new Uri("http://127.0.0.1:1/"), Retries = 1 });
        Assert.Equal(FetchOrigin.CacheForWantOfService, result.Origin);
        Assert.True(result.Reading.Notes(WeatherNoteKind.Warning, "could not be asked: the connection failed"));
        Assert.True(result.Reading.Notes(WeatherNoteKind.Warning, "fetched 2025-08-04"));
        Assert.Equal(7, result.Reading.Record!.Days.Count);
    }

    [Fact]
    public async Task A_damaged_kept_answer_is_replaced()
    {
        Directory.CreateDirectory(Settings.CacheFolder);
        string path = Path.Combine(Settings.CacheFolder, Power.CacheName);
        File.WriteAllText(path, PowerAnswer[..1000]);
        service.Then(200, PowerAnswer);
        Assert.Equal(FetchOrigin.Service, (await Fetch(Power)).Origin);
        Assert.Equal(PowerAnswer.Length, File.ReadAllText(path).Length);
    }

    [Fact]
    public async Task A_cache_that_cannot_be_written_is_only_a_warning()
    {
        string blocked = Path.Combine(folder.FullName, "file");
        File.WriteAllText(blocked, "");
        service.Then(200, PowerAnswer);
        FetchResult result = await Fetch(Power, Settings with { CacheFolder = blocked });
        Assert.True(result.Reading.Good().Notes(WeatherNoteKind.Warning, "could not be kept"));
    }

    [Fact]
    public async Task Swapped_coordinates_are_asked_back()
    {
        FetchResult result = await Fetch(Power with { Place = new Place(-116.78, 47.68, 0) });
        Assert.Contains("swapped", result.Reading.OnlyProblem().Message, StringComparison.Ordinal);
        Assert.Empty(service.Requests);
    }

    [Fact]
    public async Task Dates_in_the_future_are_not_asked_for() =>
        Assert.Contains("cannot be fetched", (await Fetch(Power with { To = new LocalDate(2030, 1, 1) })).Reading.OnlyProblem().Message,
            StringComparison.Ordinal);

    private async Task<FetchResult> Fetch(FetchRequest request, FetchSettings? settings = null)
    {
        using WeatherFetcher fetcher = new(settings ?? Settings, clock);
        return await fetcher.FetchAsync(request);
    }

    private sealed class SettableClock(Instant now) : IClock
    {
        public Instant Now { get; set; } = now;

        public Instant GetCurrentInstant() => Now;
    }
}
