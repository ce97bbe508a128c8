using System.Text;
using Ical.Net;
using Ical.Net.CalendarComponents;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Files.Timelines;

namespace Valvewright.Files.Tests.Timelines;

/// <summary>
/// The calendar read back by Ical.Net, a general-purpose library that has no part in writing it: a full year, over both
/// clock changes, must give exactly the emulator's instants.
/// </summary>
public sealed class TimelineCalendarTests
{
    private static readonly LocalDate From = new(2026, 1, 1);
    private static readonly LocalDate To = new(2026, 12, 31);

    [Theory]
    [InlineData("Europe/Madrid", false)]
    [InlineData("Europe/Madrid", true)]
    [InlineData("America/Los_Angeles", false)]
    [InlineData("America/Los_Angeles", true)]
    [InlineData("Australia/Adelaide", false)]
    [InlineData("Australia/Lord_Howe", true)]
    [InlineData("America/Phoenix", false)]
    public void An_independent_reader_finds_the_same_instants(string timeZone, bool knowsDaylightSaving)
    {
        SiteWaterings site = SiteWaterings.Of(Sites.Of(timeZone, knowsDaylightSaving), Sites.Plan, From, To);
        string text = TimelineCalendar.Write(site);
        (Instant, Instant)[] read = Read(text);
        (Instant, Instant)[] expected = [.. site.Waterings.Select(w => (w.Opens, w.Closes)).Order()];
        Assert.Equal(expected, read);
        Assert.True(read.Length > 700);
        Assert.Contains("RRULE:FREQ=WEEKLY", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_clock_without_daylight_saving_runs_an_hour_later_by_summer_time_in_the_calendar()
    {
        // Worked by hand: 02:30 of Monday 6 July 2026 by standard time, UTC+1, is 01:30 UTC, 03:30 for people in Madrid.
        SiteWaterings site = SiteWaterings.Of(Sites.Of("Europe/Madrid", knowsDaylightSaving: false), Sites.Plan, From, To, "East");
        Assert.Contains(Read(TimelineCalendar.Write(site)), r => r.Opens == Instant.FromUtc(2026, 7, 6, 1, 30));

        // 02:30 on 29 March does not exist in Madrid, the clock shows it all the same; on 25 October it comes once.
        Instant[] opens = [.. Read(TimelineCalendar.Write(site)).Select(r => r.Opens)];
        Assert.Contains(Instant.FromUtc(2026, 3, 29, 1, 30), opens);
        Assert.Contains(Instant.FromUtc(2026, 10, 25, 1, 30), opens);
        Assert.DoesNotContain(Instant.FromUtc(2026, 10, 25, 0, 30), opens);
    }

    [Fact]
    public void Instants_are_those_of_the_plain_emulator_and_the_clock_of_plans()
    {
        // The other way to the same instants: counted seconds of the whole year, then what the clock of plans makes of them.
        Site site = Sites.Of("America/Los_Angeles", knowsDaylightSaving: false);
        ControllerPlan west = Sites.Plan.For("West");
        Valvewright.Engine.Plans.SiteClock clock = new(site.Zone(), site.Controllers[1].Profile);
        Instant[] expected =
        [
            .. Emulator.Run(site.Controllers[1].Profile, west.Settings, From, To).Runs.Select(r => clock.MomentOf(r.Opens)).Order(),
        ];
        Instant[] read = [.. Read(TimelineCalendar.Write(SiteWaterings.Of(site, Sites.Plan, From, To, "West"))).Select(r => r.Opens)];
        Assert.Equal(expected, read);
    }

    [Fact]
    public void Names_cannot_break_out_of_their_line()
    {
        SiteWaterings site = SiteWaterings.Of(Sites.Of("Europe/Madrid", false), Sites.Plan, From, From.PlusDays(9), "West");
        string text = TimelineCalendar.Write(site);
        string plain = Sites.HostileName.ReplaceLineEndings("\n");
        Calendar calendar = Calendar.Load(text)!;
        Assert.All(calendar.Events, e => Assert.EndsWith(plain, e.Summary, StringComparison.Ordinal));
        Assert.Equal(2, calendar.Events.Count);
        string[] lines = text.Split("\r\n");
        Assert.All(lines, l => Assert.True(Encoding.UTF8.GetByteCount(l) <= 75, l));
        Assert.All(lines, l => Assert.DoesNotContain('\n', l));
        Assert.Equal(2, lines.Count(l => l == "BEGIN:VEVENT"));
        Assert.Equal(text, TimelineCalendar.Write(site));
    }

    private static (Instant Opens, Instant Closes)[] Read(string text)
    {
        Calendar calendar = Calendar.Load(text)!;
        List<(Instant, Instant)> found = [];
        foreach (CalendarEvent single in calendar.Events)
        {
            foreach (var occurrence in single.GetOccurrences().Take(1000))
            {
                found.Add((Instant.FromDateTimeUtc(occurrence.Period.StartTime.AsUtc),
                    Instant.FromDateTimeUtc(occurrence.Period.EffectiveEndTime!.AsUtc)));
            }
        }

        return [.. found.Order()];
    }
}
