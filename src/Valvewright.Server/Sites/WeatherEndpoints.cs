using Valvewright.Files.Surveys;
using Valvewright.Files.Weather;
using Valvewright.Records.Views;
using Valvewright.Records;
using Valvewright.Server.Conflicts;
using Valvewright.Server.Hosting;
using Valvewright.Server.Problems;
using Valvewright.Server.Requests;
using Valvewright.Store;

namespace Valvewright.Server.Sites;

/// <summary>The weather file that a site's survey names.</summary>
internal sealed class WeatherEndpoints(SiteStore store, IClock clock) : IEndpoints
{
    /// <summary>A century of days in the widest layout has less.</summary>
    public const int LargestBytes = 20_000_000;

    private static readonly string[] Types = ["text/csv", "text/plain", "application/json"];

    public void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/sites/{site}/weather", Get).GivesText("The weather file as it was sent.", "text/plain");
        routes.MapPut("/api/sites/{site}/weather", Put).Takes<string>(LargestBytes, Types).Gives<WeatherView>(
            "Sends the weather file that the survey names.");
        routes.MapDelete("/api/sites/{site}/weather", Delete).GivesNothing("Removes the weather file.");
    }

    /// <summary>What is kept of a site's weather; null where nothing is.</summary>
    public static WeatherView? View(SiteStore store, Guid site, WeatherReading? reading) =>
        store.Find<WeatherValue>(site, Ids.WeatherOf(site)) is { } kept ? View(kept, reading) : null;

    private static WeatherView View(Kept<WeatherValue> kept, WeatherReading? reading) => new(
        kept.Version, kept.Value.Name, kept.Value.Bytes, kept.Value.Blob, reading?.Record?.Days.Count ?? 0,
        reading?.Record?.Days is { Count: > 0 } days ? days[0].Date : null, reading?.Record?.Days is { Count: > 0 } all
            ? all[^1].Date : null,
        reading?.Notes.Select(n => n.Text.Text).ToListOf() ?? []);

    private IResult Get(string site, HttpContext http)
    {
        Guid id = Given.Id(site, "site");
        Kept<WeatherValue> kept = store.Find<WeatherValue>(id, Ids.WeatherOf(id)) ?? throw Refusal.NotFound("weather file");
        return Answers.Tagged(
            http, kept.Version, () => Answers.Bytes(store.Blob(kept.Value.Blob)!, "text/plain; charset=utf-8", kept.Value.Name));
    }

    private async Task<IResult> Put(
        string site, string? name, string? by, [FromHeader(Name = "If-Match")] string? ifMatch, HttpContext http)
    {
        (Kept<SiteValue> kept, Site read, _) = SiteReading.Of(store, site);
        long? expected = Given.Version(ifMatch);
        Stamp stamp = Given.Stamp(by, clock);
        string file = SiteReading.FileName(name ?? SiteReading.WeatherName(read) ?? "weather.csv");
        if (read.Weather?.File is null)
        {
            throw new Refusal(StatusCodes.Status422UnprocessableEntity, "weather-not-named",
                "The survey names no weather file. Name it there first. Nothing was stored.");
        }

        byte[] bytes = await Body.Bytes(http, LargestBytes, Types);
        WeatherReading reading = SiteWeather.ReadBytes(read, file, bytes);
        if (!reading.Ok)
        {
            throw Refusal.Of(reading.Problems, "The weather file cannot be used. Nothing was stored.");
        }

        WeatherValue value = new(file, SiteStore.DigestOf(bytes), bytes.Length);
        Kept<WeatherValue> now = Keeping.Settle(store, Ids.WeatherOf(kept.Id),
            store.Put(kept.Id, Ids.WeatherOf(kept.Id), value, expected, stamp, bytes), value, expected, http);
        return Answers.Json(View(now, reading), http.Response.StatusCode);
    }

    private IResult Delete(string site, string? by, [FromHeader(Name = "If-Match")] string? ifMatch)
    {
        Guid id = Given.Id(site, "site");
        return Removing.Of<WeatherValue>(store, id, Ids.WeatherOf(id), ifMatch, Given.Stamp(by, clock), "weather file");
    }
}
