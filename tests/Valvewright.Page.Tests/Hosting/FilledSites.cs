using System.Text.Json;
using System.Text.RegularExpressions;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;
using Valvewright.Files.Plans;
using Valvewright.Records;
using Valvewright.Tests.Browsing;

namespace Valvewright.Page.Tests.Hosting;

/// <summary>Sites in a store that everything has been done with.</summary>
/// <param name="Garden">The demo with two controllers: planned, with the year's visits, readings, visits and a photo.</param>
/// <param name="Hostile">A site whose names are script, with the same.</param>
internal sealed partial record FilledSites(TourSite Garden, TourSite Hostile)
{
    /// <summary>What would run if a name were taken for markup.</summary>
    public const string Script = "<script>window.hit=1</script><img src=x onerror=window.hit=2>";

    /// <summary>So many years of weather: what pages show of them does not depend on how many there are, how long they work does.</summary>
    public const int Years = 6;

    private const string Notes = "The lid was wet.";

    /// <summary>A reading with a slip in it: the second start is at noon.</summary>
    private const string Reading = "A: starts 5:00 12:00; days daily; stations 1=10 2=15";

    /// <summary>What people wrote beside the survey.</summary>
    public static readonly string[] Words = [Notes];

    public static async Task<FilledSites> Make(SiteFiller fill)
    {
        Guid garden = await fill.Bring("quarry-hill", years: Years);
        Guid plan = (await fill.Do(garden, new { kind = "plan", visits = 0, from = "2026-04-01" })).GetProperty("plan").GetGuid();
        await fill.Do(garden, new { kind = "season", plan, visits = 4 });
        Guid visit = await Record(fill, garden, "Gate", Notes);

        Guid hostile = await fill.Bring("quarry-hill", WithScript, Years);
        string digest = (await fill.Send(HttpMethod.Get, $"api/sites/{hostile}", [], "application/json"))
            .GetProperty("digest").GetString()!;
        string name = $"{Script} Quarry Hill Memorial Garden", gate = $"{Script} Gate";
        Guid slight = await fill.Keep($"api/sites/{hostile}/plans/", new SavedPlan(1, digest, new LocalDate(2026, 4, 1), new Plan(name,
            [new(gate, new([new('A', [new LocalTime(5, 0)], [new(1, 300)], new EveryNDays(2, new LocalDate(2026, 4, 1)))]), [])])));
        return new FilledSites(
            new TourSite(garden, plan, visit, "Gate"), new TourSite(hostile, slight, await Record(fill, hostile, gate, Script), gate));
    }

    /// <summary>The smallest picture that is one: a pixel.</summary>
    public static byte[] Pixel { get; } = Convert.FromBase64String(
        "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==");

    private static string WithScript(string survey) =>
        ZoneOrSite().Replace(survey, m => $"{m.Groups[1].Value}\"{Script} {m.Groups[2].Value}\"");

    private static async Task<Guid> Record(SiteFiller fill, Guid site, string controller, string notes)
    {
        await fill.Keep($"api/sites/{site}/readings/", new ReadingValue(controller, new LocalDateTime(2026, 6, 2, 9, 30), Reading, notes));
        Guid visit = await fill.Keep($"api/sites/{site}/visits/", new VisitValue(controller, new LocalDateTime(2026, 6, 2, 9, 40), Reading,
            "A: starts 5:00; days daily; stations 1=10 2=15", 8.7, [new CoilReading(1, 24.5)], 12.5, notes));
        await fill.Send(HttpMethod.Put, $"api/sites/{site}/visits/{visit}/photos/{Ids.New()}?by=Demo", Pixel, "image/png");
        return visit;
    }

    [GeneratedRegex(@"^(site: |\s+(?:- )?(?:name|supply): )(.+)$", RegexOptions.Multiline)]
    private static partial Regex ZoneOrSite();
}
