using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using NodaTime;
using Valvewright.Engine.Values;
using Valvewright.Store;
using Valvewright.Records;

namespace Valvewright.Tests.Serving;

/// <summary>Somebody who writes to a server and remembers what it said is kept.</summary>
internal sealed class Writer(int number, int seed)
{
    private readonly Random random = new(seed);
    private readonly Guid site = Ids.New();
    private readonly Dictionary<Guid, VisitValue> visits = [];
    private readonly Dictionary<Guid, PhotoValue> photos = [];
    private long version;
    private string survey = "";
    private string? inFlight;

    /// <summary>Changes that were said to be kept.</summary>
    public int Kept { get; private set; }

    /// <summary>Raised with each change that was said to be kept.</summary>
    public event Action? HasKept;

    /// <summary>A survey that is valid, with something in it that tells versions apart.</summary>
    public static string Survey(string name, string note) => $"""
        # {note}
        site: {name}
        location: {"{ latitude: 38.298, longitude: 48.847, elevation: 720 m }"}
        time zone: Asia/Baku
        units: metric
        clock: 24 hours
        soil: loam
        slope: 2 %
        supplies:
          - name: Tank
            flow: 30 l/min
            pressure: 300 kPa
        controllers:
          - name: Gate
            profile: 4 stations, 2 programs, 4 starts
            supply: Tank
            zones:
              - station: 1
                name: Lawn
                area: 50 m2
                plants: cool-season turf
                sprinklers: {"{ kind: spray, rate: 30 mm/h, uniformity: 60 % }"}

        """;

    /// <summary>Writes until the server is gone or the time is over.</summary>
    public async Task Write(HttpClient client, CancellationToken stop)
    {
        try
        {
            while (!stop.IsCancellationRequested)
            {
                await Once(client);
            }
        }
        catch (HttpRequestException)
        {
            // The server was killed; what was under way may be kept or not.
        }
        catch (IOException)
        {
            // The same, in the middle of an answer.
        }
    }

    /// <summary>What was said to be kept and is not, or is kept otherwise.</summary>
    public IEnumerable<string> Missing(SiteStore store)
    {
        if (version > 0)
        {
            Kept<SiteValue>? now = store.Site(site);
            bool asSaid = now is not null && now.Version == version && now.Value.Survey == survey;
            bool asUnderWay = now is not null && now.Version == version + 1 && now.Value.Survey == inFlight;
            if (!asSaid && !asUnderWay)
            {
                yield return $"site {site}: version {version} was kept, there is {now?.Version.ToString(CultureInfo.InvariantCulture) ?? "none"}";
            }
        }

        Dictionary<Guid, VisitValue> there = store.All<VisitValue>(site).ToDictionary(v => v.Id, v => v.Value);
        foreach ((Guid id, VisitValue value) in visits.Where(v => there.GetValueOrDefault(v.Key) != v.Value))
        {
            yield return $"visit {id} ({value.Notes.Length} characters of notes)";
        }

        Dictionary<Guid, PhotoValue> pictures = store.All<PhotoValue>(site).ToDictionary(v => v.Id, v => v.Value);
        foreach ((Guid id, _) in photos.Where(p => pictures.GetValueOrDefault(p.Key) != p.Value))
        {
            yield return $"photo {id}";
        }
    }

    /// <summary>After a kill: takes over what was under way and is there.</summary>
    public void Resume(SiteStore store)
    {
        if (store.Site(site) is { } now)
        {
            (version, survey) = (now.Version, now.Value.Survey);
        }

        inFlight = null;
    }

    private async Task Once(HttpClient client)
    {
        int what = version == 0 ? 0 : random.Next(10);
        if (what < 3)
        {
            inFlight = Survey($"Bed {number}", $"change {Kept} {new string('x', random.Next(3000))}");
            HttpResponseMessage answer = await Put(
                client, $"/api/sites/{site}", new StringContent(inFlight, Encoding.UTF8, "application/yaml"), version);
            Require(answer, version == 0 ? HttpStatusCode.Created : HttpStatusCode.OK);
            (version, survey, inFlight) = (version + 1, inFlight, null);
        }
        else if (what < 9 || visits.Count == 0)
        {
            Guid id = Ids.New();
            VisitValue value = new("Gate", new LocalDateTime(2026, 4, 1, 9, random.Next(60)), "A: starts 5:00", "A: starts 4:00",
                8 + random.NextDouble(), [new CoilReading(1, 24.5)], 12.5, new string('n', random.Next(2000)));
            Require(await Put(client, $"/api/sites/{site}/visits/{id}",
                new StringContent(Json.Write(value), Encoding.UTF8, "application/json"), 0), HttpStatusCode.Created);
            visits.Add(id, value);
        }
        else
        {
            Guid visit = visits.Keys.ElementAt(random.Next(visits.Count)), id = Ids.New();
            byte[] bytes = new byte[random.Next(500, 20_000)];
            random.NextBytes(bytes);
            ((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF, 0xE0, 0xFF, 0xFF]).CopyTo(bytes);
            ByteArrayContent content = new(bytes) { Headers = { ContentType = new MediaTypeHeaderValue("image/jpeg") } };
            HttpResponseMessage answer = await Put(client, $"/api/sites/{site}/visits/{visit}/photos/{id}", content, 0);
            if (answer.StatusCode == HttpStatusCode.Conflict)
            {
                return; // As many photos as a visit has room for.
            }

            Require(answer, HttpStatusCode.Created);
            photos.Add(id, new PhotoValue(visit, "image/jpeg", SiteStore.DigestOf(bytes), bytes.Length));
        }

        Kept++;
        HasKept?.Invoke();
    }

    private static async Task<HttpResponseMessage> Put(HttpClient client, string address, HttpContent content, long version)
    {
        using HttpRequestMessage request = new(HttpMethod.Put, address) { Content = content };
        if (version > 0)
        {
            request.Headers.TryAddWithoutValidation("If-Match", $"\"{version}\"");
        }

        return await client.SendAsync(request);
    }

    private static void Require(HttpResponseMessage answer, HttpStatusCode wanted)
    {
        if (answer.StatusCode != wanted)
        {
            throw new InvalidOperationException(
                $"{answer.RequestMessage?.RequestUri}: {answer.StatusCode}, {answer.Content.ReadAsStringAsync().GetAwaiter().GetResult()}");
        }
    }
}
