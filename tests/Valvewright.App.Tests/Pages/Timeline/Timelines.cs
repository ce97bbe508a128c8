using NodaTime;
using Valvewright.App.Pages.Timeline;
using Valvewright.App.Parts;
using Valvewright.App.Person;
using Valvewright.App.Tests.Outbox;
using Valvewright.App.Texts;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Files.Plans;
using Valvewright.Files.Surveys;
using Valvewright.Files.Texts;
using Valvewright.Files.Timelines;
using Valvewright.Tests;

namespace Valvewright.App.Tests.Pages.Timeline;

/// <summary>What the timeline shows is what the emulator says, whatever stands otherwise than planned.</summary>
public sealed class Timelines
{
    private static readonly Site Site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "quarry-hill", "site.yaml")).Site!;
    private static readonly Plan Plan = PlanFiles
        .Read(Path.Combine(Checkout.Root, "tests", "Shared", "Slips", "Plans", "quarry-hill.json")).Saved!.Plan;
    private static readonly TimelineAsked Asked = new(new LocalDate(2026, 7, 1), 14, null, null, Standing.AsPlanned, 3, 0);
    private static readonly PageWords Words = new(new Preferences(new Device(new FakeDevice().Window())));
    private static readonly SiteWords Say = new(Site.Units, Site.Clock, Words.Common);

    [Fact]
    public void As_planned_it_is_what_the_command_says() =>
        Assert.Equal(SiteWaterings.Of(Site, Plan, Asked.From, Asked.To), Asked.Follow(Site, Plan));

    [Fact]
    public void Switched_off_nothing_opens() => Assert.DoesNotContain((Asked with { Standing = Standing.Off }).Follow(Site, Plan).Waterings,
        w => w.Opens >= Site.Zone().AtStartOfDay(Asked.From).ToInstant());

    [Fact]
    public void The_next_opening_after_the_days_shown_is_found()
    {
        SiteWaterings later = SiteWaterings.Of(Site, Plan, Asked.To.PlusDays(1), Asked.To.PlusDays(60));
        Assert.Equal(later.Waterings[0].Opens.InZone(Site.Zone()).Date, Asked.NextOpening(Site, Plan));
        Assert.Null((Asked with { Standing = Standing.Off }).NextOpening(Site, Plan));
    }

    /// <summary>A hold of three days lasts three times 24 hours from its setting (docs/emulator.md).</summary>
    [Fact]
    public void A_rain_hold_keeps_everything_shut_for_its_days_and_no_longer()
    {
        SiteWaterings held = (Asked with { Standing = Standing.RainHold }).Follow(Site, Plan), planned = Asked.Follow(Site, Plan);
        Instant begins = Site.Zone().AtStartOfDay(Asked.From).ToInstant(),
            ends = Site.Zone().AtStartOfDay(Asked.From.PlusDays(3)).ToInstant();
        Assert.Contains(planned.Waterings, w => w.Opens >= begins && w.Opens < ends);
        Assert.DoesNotContain(held.Waterings, w => w.Opens >= begins && w.Opens < ends);
        Assert.Equal(planned.Waterings.Count(w => w.Opens >= ends), held.Waterings.Count(w => w.Opens >= ends));
    }

    /// <summary>A clock an hour ahead opens everything an hour earlier.</summary>
    [Fact]
    public void A_clock_ahead_waters_as_much_earlier()
    {
        SiteWaterings early = (Asked with { Standing = Standing.ClockOut, ClockMinutes = 60 }).Follow(Site, Plan),
            planned = Asked.Follow(Site, Plan);
        Instant from = Site.Zone().AtStartOfDay(Asked.From.PlusDays(1)).ToInstant(), to = Site.Zone().AtStartOfDay(Asked.To).ToInstant();
        Assert.Equal(planned.Waterings.Where(w => w.Opens >= from && w.Opens < to).Select(w => w.Opens - Duration.FromHours(1)),
            early.Waterings.Where(w => w.Opens >= from - Duration.FromHours(1) && w.Opens < to - Duration.FromHours(1))
                .Select(w => w.Opens));
    }

    [Fact]
    public void Half_the_percent_is_about_half_the_time()
    {
        double full = (Asked with { Percent = 100 }).Follow(Site, Plan).Waterings.Sum(w => w.Seconds),
            half = (Asked with { Percent = 50 }).Follow(Site, Plan).Waterings.Sum(w => w.Seconds);
        Assert.InRange(half / full, 0.47, 0.53);
    }

    [Fact]
    public void Each_opening_has_its_block_and_its_length()
    {
        SiteWaterings waterings = Asked.Follow(Site, Plan);
        Chart chart = TimelineCharts.Days(Site, waterings, Say, Words);
        Assert.Equal(28, chart.Lanes.Count);
        double hours = chart.Layers.Sum(l => l.X2.Zip(l.X, (to, from) => to - from).Sum());
        Assert.Equal(waterings.Waterings.Where(w => !w.CarriedIn).Sum(w => w.Seconds) / 3600.0, hours, 6);
        Assert.All(chart.Layers.SelectMany(l => l.Y), lane => Assert.InRange(lane, 0, 27));
        Assert.Equal(waterings.Waterings.Count, chart.Table.Rows.Count);
    }

    /// <summary>The peak is counted minute by minute over, apart from the steps that the picture is made of.</summary>
    [Fact]
    public void The_peak_of_the_flow_is_that_of_every_minute()
    {
        SiteWaterings waterings = Asked.Follow(Site, Plan);
        string supply = Site.Supplies[0].Name;
        double peak = 0;
        for (Instant now = Site.Zone().AtStartOfDay(Asked.From).ToInstant();
            now < Site.Zone().AtStartOfDay(Asked.To.PlusDays(1)).ToInstant(); now += Duration.FromMinutes(1))
        {
            peak = Math.Max(peak, waterings.Waterings.Where(w => w.Supply == supply && w.Opens <= now && w.Closes > now)
                .Sum(w => w.FlowLpm));
        }

        Assert.Equal(peak, TimelineCharts.MostByMinute(Site, waterings, supply).Max(), 9);
        Assert.True(peak > 0);
    }

    [Fact]
    public void A_watering_over_midnight_is_shown_on_both_days()
    {
        DateTimeZone utc = DateTimeZone.Utc;
        Instant opens = Instant.FromUtc(2026, 7, 1, 23, 30);
        Watering watering = new("Gate", 1, "", "", 'A', 0, opens, opens + Duration.FromMinutes(45), default, 1, false);
        Assert.Equal([(new LocalDate(2026, 7, 1), 23.5, 24.0), (new LocalDate(2026, 7, 2), 0.0, 0.25)],
            TimelineCharts.Parts(watering, utc));
    }
}
