using Valvewright.Files.Problems;

namespace Valvewright.Files.Weather.Fetch;

/// <summary>Where fetched weather came from.</summary>
public enum FetchOrigin
{
    /// <summary>The service answered now.</summary>
    Service,

    /// <summary>An answer kept from before, which needs no new question.</summary>
    Cache,

    /// <summary>An answer kept from before, because the service could not be asked.</summary>
    CacheForWantOfService,

    /// <summary>Nowhere: the service could not be asked and nothing was kept.</summary>
    None,
}

/// <summary>Weather from a service, or the problem.</summary>
/// <param name="Reading">The weather with its notes, or problems.</param>
/// <param name="Origin">Where it came from.</param>
/// <param name="Unreachable">Whether the service is to blame for the problem, not the request.</param>
public sealed record FetchResult(WeatherReading Reading, FetchOrigin Origin, bool Unreachable = false);

/// <summary>Fetches daily weather for a place and keeps it, so that the same question needs the network once.</summary>
public sealed class WeatherFetcher : IDisposable
{
    private readonly FetchSettings settings;
    private readonly IClock clock;
    private readonly HttpClient client;
    private readonly AnswerCache cache;

    /// <summary>A fetcher with its own connections.</summary>
    public WeatherFetcher(FetchSettings settings, IClock clock)
    {
        ArgumentNullException.ThrowIfNull(settings);
        this.settings = settings;
        this.clock = clock;
        cache = new AnswerCache(settings.CacheFolder);
        SocketsHttpHandler connections = new()
            { ConnectTimeout = TimeSpan.FromSeconds(15), AutomaticDecompression = System.Net.DecompressionMethods.All };
        client = new HttpClient(connections) { Timeout = Timeout.InfiniteTimeSpan };
        client.DefaultRequestHeaders.UserAgent.ParseAdd("valvewright/0.1");
    }

    /// <summary>The weather of a request, from the cache where that will do, else from the service.</summary>
    /// <param name="request">What is wanted.</param>
    /// <param name="askAnew">Ask the service even where a kept answer would do.</param>
    /// <param name="cancel">Stops the fetch.</param>
    public async Task<FetchResult> FetchAsync(FetchRequest request, bool askAnew = false, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (Wrong(request) is { } wrong)
        {
            return new FetchResult(WeatherReading.Failed(null, wrong), FetchOrigin.None);
        }

        (byte[] Bytes, Instant Fetched)? kept = cache.Find(request.CacheName);
        WeatherReading? old = kept is null ? null : Read(request, kept.Value.Bytes);
        if (old is { Ok: true } && !askAnew && Suffices(request, kept!.Value.Fetched))
        {
            return new FetchResult(
                Noted(old, WeatherNoteKind.Found, $"From the cache, fetched {Day(kept.Value.Fetched)}."), FetchOrigin.Cache);
        }

        Attempt attempt = await new ServiceCall(client, settings)
            .AskAsync(request.Address(settings), bytes => CutShort(request, bytes), cancel).ConfigureAwait(false);
        if (attempt.Bytes is { } bytes)
        {
            return Fresh(request, bytes);
        }

        if (old is { Ok: true })
        {
            Sentence text =
                $"{request.Service.Word()} could not be asked: {attempt.Failure}. Taken from the cache, fetched {Day(kept!.Value.Fetched)}.";
            return new FetchResult(Noted(old, WeatherNoteKind.Warning, text), FetchOrigin.CacheForWantOfService);
        }

        Problem problem = new(Name(request), 0, 0, "", "daily weather as JSON", null,
            $"the service gave no weather ({attempt.Failure}), and none is kept from before");
        return new FetchResult(WeatherReading.Failed(null, problem), FetchOrigin.None, Unreachable: true);
    }

    /// <inheritdoc/>
    public void Dispose() => client.Dispose();

    private static string Name(FetchRequest request) => request.Service.Word();

    private static string Day(Instant time) => time.InUtc().Date.ToString("uuuu-MM-dd", null);

    private static WeatherReading Noted(WeatherReading reading, WeatherNoteKind kind, Sentence text) =>
        reading with { Notes = reading.Notes.Add(new WeatherNote(kind, text)) };

    private static WeatherLayout LayoutOf(FetchRequest request) =>
        request.Service == WeatherService.NasaPower ? WeatherLayout.NasaPowerJson : WeatherLayout.OpenMeteoJson;

    private static WeatherReading Read(FetchRequest request, byte[] bytes)
    {
        WeatherReadOptions options = new()
            { Layout = LayoutOf(request), Place = double.IsNaN(request.Place.ElevationM) ? null : request.Place };
        return WeatherFiles.ReadBytes(Name(request), bytes, options);
    }

    /// <summary>Null, or how an answer shows that it is not all of it.</summary>
    private static string? CutShort(FetchRequest request, byte[] bytes)
    {
        if (bytes.Length == 0)
        {
            return "it is empty";
        }

        WeatherReading reading = Read(request, bytes);
        return reading.Problems.FirstOrDefault(p => p.Message.Text.Contains("not whole JSON", StringComparison.Ordinal)) is { } cut
            ? $"{cut.Line}:{cut.Column} {cut.Message}" : null;
    }

    private Problem? Wrong(FetchRequest request)
    {
        string name = Name(request);
        if (!(Math.Abs(request.Place.LatitudeDeg) <= 90) || !(Math.Abs(request.Place.LongitudeDeg) <= 180))
        {
            bool swapped = Math.Abs(request.Place.LatitudeDeg) <= 180 && Math.Abs(request.Place.LongitudeDeg) <= 90;
            return new Problem(name, 0, 0, $"{request.Place.LatitudeDeg}, {request.Place.LongitudeDeg}",
                "latitude -90 to 90, longitude -180 to 180", null, swapped ? "not a place; are latitude and longitude swapped?"
                    : "not a place");
        }

        LocalDate today = clock.GetCurrentInstant().InUtc().Date;
        return request.From > request.To || request.To > today || request.From.Year < 1940
            ? new Problem(name, 0, 0, $"{request.From:uuuu-MM-dd} to {request.To:uuuu-MM-dd}",
                $"a first and a last day from 1940 to {today:uuuu-MM-dd}", null, "these dates cannot be fetched")
            : null;
    }

    private bool Suffices(FetchRequest request, Instant fetched)
    {
        Instant end = request.To.PlusDays(1).AtMidnight().InUtc().ToInstant();
        return fetched - end >= Duration.FromTimeSpan(settings.SettledAfter)
            || clock.GetCurrentInstant() - fetched < Duration.FromTimeSpan(settings.FreshFor);
    }

    private FetchResult Fresh(FetchRequest request, byte[] bytes)
    {
        WeatherReading reading = Read(request, bytes);
        if (!reading.Ok)
        {
            return new FetchResult(reading, FetchOrigin.None, Unreachable: true);
        }

        string? notKept = cache.Keep(request.CacheName, bytes, clock.GetCurrentInstant());
        reading = Noted(reading, WeatherNoteKind.Found, $"Fetched now from {request.Service.Word()}.");
        ListOf<Valvewright.Engine.Weather.DailyWeather> days = reading.Record!.Days;
        if (days[0].Date > request.From || days[^1].Date < request.To)
        {
            reading = Noted(reading, WeatherNoteKind.Warning,
                $"Asked for {request.From:uuuu-MM-dd} to {request.To:uuuu-MM-dd}, given {days[0].Date:uuuu-MM-dd} to {days[^1].Date:uuuu-MM-dd}.");
        }

        return new FetchResult(notKept is null ? reading
            : Noted(reading, WeatherNoteKind.Warning, $"The answer could not be kept: {notKept}"), FetchOrigin.Service);
    }
}
