using System.Text;
using System.Text.Json;
using NodaTime;
using Valvewright.App.Shelf;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;
using Valvewright.Files.Surveys;
using Valvewright.Records;
using Valvewright.Records.Carrying;
using Valvewright.Records.Views;
using Valvewright.Tests;

namespace Valvewright.App.Tests.Shelf;

/// <summary>A site on the device is opened without reading its weather, and the weather is the same when it is read.</summary>
public sealed class CarriedSiteTests
{
    private static readonly Site Site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "quarry-hill", "site.yaml")).Site!;
    private static readonly Instant Now = Instant.FromUtc(2026, 4, 8, 9, 0);

    private static readonly CarriedWeather Weather = new(
        "A station", Site.Place, "made for this test", new LocalDate(2020, 1, 1), [1.25, 2.5], [0, 7.31], [20.1, double.NaN], [9.9, 8.8],
        new YearSplit([new YearSpan(new LocalDate(2020, 1, 1), new LocalDate(2020, 1, 2))], [], false, ""), [], []);

    private static readonly CarryView All = new(
        new SiteView(Guid.CreateVersion7(), 1, Site.Name, "", new Stamp("Ana", Now), "", Site, [], null), Weather, null, [], [], []);

    [Fact]
    public void Weather_comes_back_as_it_was()
    {
        CarriedSite kept = CarriedSite.Of(All.Site.Id, "1", Now, All);
        CarriedSite read = CarriedSite.Read(kept.Write());
        Assert.Null(read.All.Weather);
        Assert.Equal(Weather, read.Weather);
        Assert.Equal(kept, read);
    }

    [Fact]
    public void A_site_kept_before_with_its_weather_inside_is_still_read()
    {
        string text = JsonSerializer.Serialize(new { All.Site.Id, All.Site.Name, ETag = "1", FetchedAt = Now, All }, Json.Compact);
        CarriedSite read = CarriedSite.Read(Encoding.UTF8.GetBytes(text));
        Assert.Equal(Weather, read.Weather);
        Assert.Equal(Weather, CarriedSite.Read(read.Write()).Weather);
    }

    [Fact]
    public void Proofs_lie_beside_the_rest_and_belong_to_their_plans()
    {
        Stamp stamp = new("Ana", Now);
        PlanView Plan(string? proof) => new(
            Guid.CreateVersion7(), 1, stamp, new LocalDate(2026, 4, 1), true, JsonSerializer.Deserialize<JsonElement>("{}"),
                proof is null ? null : JsonSerializer.Deserialize<JsonElement>(proof), null);
        ProofReport report = new()
        {
            Site = "One\nTwo", Verdict = new Verdict(true, false, ["dry"]),
                Replayed = [new ReplayedYear(new LocalDate(2020, 1, 1), new LocalDate(2020, 12, 31), 900.5, double.NaN)],
            RulesFrom = new LocalDate(2026, 1, 1), RulesTo = new LocalDate(2029, 12, 31), Breaches = [], Zones = [], Supplies = [],
                Workloads = [], Comparison = [], Rulers = new Rulers(1, 2, 3, 4), Next = [],
        };
        CarriedSite kept = CarriedSite.Of(All.Site.Id, "1", Now, All with { Plans = [Plan(null), Plan(Json.Write(report)), Plan(null)] });
        CarriedSite read = CarriedSite.Read(kept.Write());
        Assert.All(read.All.Plans, p => Assert.Null(p.Proof));
        Assert.Equal([false, true, false], read.Plans.Select(p => p.HasProof));
        Assert.Equal(Json.Write(report), Json.Write(read.Plans[1].Proof));
        Assert.Null(read.Plans[0].Proof);
        CarriedSite later = read with { FetchedAt = Now + Duration.FromDays(1) };
        Assert.Equal(Weather, CarriedSite.Read(later.Write()).Weather);
        Assert.NotEqual(later, read);
    }
}
