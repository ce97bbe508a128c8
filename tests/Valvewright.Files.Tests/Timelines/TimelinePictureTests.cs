using System.Buffers.Binary;
using System.Xml.Linq;
using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Files.Timelines;
using Valvewright.Files.Timelines.Pictures;

namespace Valvewright.Files.Tests.Timelines;

/// <summary>The picture: every run is in it, where it belongs, and nothing in a name breaks it.</summary>
public sealed class TimelinePictureTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";
    private static readonly LocalDate Sunday = new(2026, 6, 7);

    [Fact]
    public void Every_run_is_drawn_between_its_hours()
    {
        Site site = Sites.Of("America/Phoenix", knowsDaylightSaving: false);
        SiteWaterings waterings = SiteWaterings.Of(site, Sites.Plan, Sunday, Sunday);
        XElement[] runs = [.. Runs(TimelinePicture.Svg(site, waterings))];

        // East 1 and 2 at 02:30 and 05:00, West 1 at 01:00 for 20 minutes.
        Assert.Equal(5, runs.Length);
        double hour = HourWidth(runs, "02:30", 2.5, "01:00", 1);
        Assert.Equal(20 / 60.0, Number(runs.Single(r => r.Value.Contains("West", StringComparison.Ordinal)), "width") / hour, 0.06);

        // East 3 waters on 8 June (39 x 4 days after 3 January) from 23:50 for an hour: 50 minutes of it on the 9th.
        SiteWaterings tuesday = SiteWaterings.Of(site, Sites.Plan, Sunday.PlusDays(2), Sunday.PlusDays(2));
        XElement carried = Assert
            .Single(Runs(TimelinePicture.Svg(site, tuesday)), r => r.Value.Contains("East 3", StringComparison.Ordinal));
        Assert.Equal(50 / 60.0, Number(carried, "width") / hour, 0.06);
    }

    [Fact]
    public void A_run_over_midnight_is_drawn_on_both_days_and_the_skipped_hour_stays_empty()
    {
        Site site = Sites.Of("Europe/Madrid", knowsDaylightSaving: false);
        LocalDate night = new(2026, 3, 28);
        SiteWaterings waterings = SiteWaterings.Of(site, Sites.Plan, night, night.PlusDays(1));
        XElement[] runs = [.. Runs(TimelinePicture.Svg(site, waterings))];

        // East 3 runs on 28 March (12 x 7 days after 3 January) from 23:50 for 36 minutes at 60 percent: 10 on the one date, 26 on the
        // next.
        Assert.Equal(2, runs.Count(r => r.Value.Contains("East 3", StringComparison.Ordinal)));

        // 02:30 by standard time is 03:30 on the 29th.
        Assert.Contains(runs, r =>
            r.Value.Contains("East 1", StringComparison.Ordinal) && r.Value.Contains("03:30 to 03:36", StringComparison.Ordinal));
    }

    [Fact]
    public void More_than_the_supply_gives_is_marked()
    {
        Site site = Sites.Of("America/Phoenix", false);
        SiteWaterings waterings = SiteWaterings.Of(site, Sites.Plan, Sunday, Sunday);
        Assert.DoesNotContain("more than Tank gives", TimelinePicture.Svg(site, waterings), StringComparison.Ordinal);
        Site thin = site with { Supplies = [site.Supplies[0] with { FlowLpm = 19 }] };
        Assert.Contains("more than Tank gives", TimelinePicture.Svg(thin, waterings), StringComparison.Ordinal);
    }

    [Fact]
    public void Hostile_names_stay_inside_their_texts()
    {
        Site site = Sites.Of("America/Phoenix", false);
        string name = "<script>&\"'\u0001\uFFFE</title>";
        Site hostile = site with { Name = name, Controllers = [site.Controllers[0] with { Name = name }] };
        Plan plan = new(name, [Sites.Plan.For("East") with { Controller = name }]);
        string svg = TimelinePicture.Svg(hostile, SiteWaterings.Of(hostile, plan, Sunday, Sunday));
        XElement root = XElement.Parse(svg);
        Assert.DoesNotContain(root.Descendants(), e => e.Name.LocalName == "script");
        Assert.Contains("<script>", root.Element(Svg + "title")!.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void The_png_is_the_same_each_time_and_as_large_as_laid_out()
    {
        Site site = Sites.Of("America/Phoenix", false);
        SiteWaterings waterings = SiteWaterings.Of(site, Sites.Plan, Sunday, Sunday.PlusDays(6));
        byte[] png = TimelinePicture.Png(site, waterings);
        Assert.Equal(png, TimelinePicture.Png(site, waterings));

        // Width and height stand in the header chunk (PNG specification, section 11.2.1).
        Assert.Equal(2246, BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(16)));
        XElement root = XElement.Parse(TimelinePicture.Svg(site, waterings));
        Assert.Equal(Math.Ceiling(2 * Number(root, "height")), BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(20)), 1.0);
        Assert.Throws<ArgumentException>(
            () => TimelinePicture.Png(site, waterings with { To = waterings.From.PlusDays(TimelinePicture.MostDays) }));
    }

    private static IEnumerable<XElement> Runs(string svg) => XElement.Parse(svg).Descendants(Svg + "rect")
        .Where(r => r.Element(Svg + "title")?.Value.Contains(", program ", StringComparison.Ordinal) == true);

    private static double HourWidth(XElement[] runs, string first, double firstHour, string second, double secondHour)
    {
        double XOf(string time) => Number(runs.First(r => r.Value.Contains($", {time} to", StringComparison.Ordinal)), "x");
        return (XOf(first) - XOf(second)) / (firstHour - secondHour);
    }

    private static double Number(XElement element, string attribute) =>
        double.Parse(element.Attribute(attribute)!.Value, System.Globalization.CultureInfo.InvariantCulture);
}
