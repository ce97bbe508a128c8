using System.Text.Json;
using NodaTime;
using Valvewright.App.Shelf;
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
        string text = JsonSerializer.Serialize(kept, Json.Compact);
        CarriedSite read = Json.Read<CarriedSite>(text)!;
        Assert.Null(read.All.Weather);
        Assert.Equal(Weather, read.Weather);
        Assert.Equal(kept, read);
    }

    [Fact]
    public void A_site_kept_before_with_its_weather_inside_is_still_read()
    {
        string text = JsonSerializer.Serialize(new { All.Site.Id, All.Site.Name, ETag = "1", FetchedAt = Now, All }, Json.Compact);
        Assert.Equal(Weather, Json.Read<CarriedSite>(text)!.Weather);
    }
}
