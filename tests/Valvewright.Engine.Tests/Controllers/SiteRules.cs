using NodaTime;
using NodaTime.Text;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;
using static Valvewright.Engine.Tests.Controllers.Words;

namespace Valvewright.Engine.Tests.Controllers;

/// <summary>
/// Rules 45 to 56 of docs/emulator.md: a controller on a site. The dates of clock changes are published by the European
/// Union (Directive 2000/84/EC: last Sundays of March and October, 01:00 UTC): 29 March and 25 October 2026.
/// </summary>
public sealed class SiteRules
{
    private static readonly DateTimeZone Madrid = DateTimeZoneProviders.Tzdb["Europe/Madrid"];
    private static readonly LocalDate SpringForward = new(2026, 3, 29);
    private static readonly LocalDate FallBack = new(2026, 10, 25);
    private static readonly Settings AtHalfPastTwo = Settings(Program('A', "02:30", "1=10m", EveryDay));
    private static readonly Profile Knowing = Plain with { ClockKnowsDaylightSaving = true };

    [Fact]
    public void Rule_45_a_clock_without_daylight_saving_keeps_standard_time()
    {
        Circumstances told = new() { KeyedIn = new LocalDateTime(2026, 6, 1, 8, 0) };
        SiteTimeline summer = SiteEmulator.Run(Plain, AtHalfPastTwo, told, Madrid, new LocalDate(2026, 7, 1), new LocalDate(2026, 7, 1));
        Assert.Equal("2026-07-01T03:30", SiteTimes(summer));
        Assert.Equal(new LocalDateTime(2026, 7, 1, 2, 30), summer.Runs[0].Shown);
        Assert.Equal("2026-12-01T02:30",
            SiteTimes(SiteEmulator.Run(Plain, AtHalfPastTwo, told, Madrid, new LocalDate(2026, 12, 1), new LocalDate(2026, 12, 1))));
    }

    [Fact]
    public void Rule_46_the_missing_and_the_doubled_hour_do_not_exist_to_it()
    {
        Assert.Equal("2026-03-29T01:30Z", Utc(Night(Plain, SpringForward)));
        Assert.Equal("2026-10-25T01:30Z", Utc(Night(Plain, FallBack)));
    }

    [Fact]
    public void Rule_47_a_clock_with_daylight_saving_skips_and_repeats()
    {
        Assert.Equal("", Utc(Night(Knowing, SpringForward)));
        Assert.Equal("2026-10-25T00:30Z, 2026-10-25T01:30Z", Utc(Night(Knowing, FallBack)));
        Assert.Equal("2026-03-30T02:30, 2026-03-31T02:30",
            SiteTimes(SiteEmulator.Run(Knowing, AtHalfPastTwo, Keyed(SpringForward), Madrid, SpringForward, SpringForward.PlusDays(2))));
    }

    [Fact]
    public void Rule_48_a_clock_set_wrong_changes_at_the_wrong_moment()
    {
        // A day ahead, it changes a day early: at 02:00 of the 28th it shows 02:00 of the 29th.
        Circumstances told = Keyed(SpringForward.PlusDays(-2)) with { ClockSetTo = SpringForward.PlusDays(-1).AtMidnight() };
        Assert.Equal("2026-03-28T01:00Z, 2026-03-29T01:00Z", Utc(SiteEmulator.Run(
            Knowing, Settings(Program('A', "03:00", "1=10m", EveryDay)), told, Madrid, SpringForward.PlusDays(-1), SpringForward)));
    }

    [Fact]
    public void Rule_49_a_fast_clock_counts_everything_too_fast()
    {
        // 60 s a day fast: after 30 days it shows 02:30 about half an hour early (30 days x 60 s, less the drift of that half hour).
        Circumstances told = Keyed(new LocalDate(2026, 12, 1)) with { DriftMillisecondsPerDay = 60_000 };
        SiteTimeline timeline = SiteEmulator.Run(Plain, Settings(Program('A', "00:00", "1=240m", EveryDay)), told, Madrid,
            new LocalDate(2026, 12, 30), new LocalDate(2026, 12, 30));

        // 30 counted days are 30 x 86400 x 86400 / 86460 = 2,590,201.25 true seconds, 1,798.75 s less than 30 days.
        SiteRun run = Assert.Single(timeline.Runs);
        Assert.Equal(new LocalDateTime(2026, 12, 30, 23, 30, 1), run.Opens.InZone(Madrid).LocalDateTime);

        // 14,400 counted seconds are 14,390.007 true ones.
        Assert.Equal(14_390, (run.Closes - run.Opens).TotalSeconds);
    }

    [Fact]
    public void Rule_50_a_clock_set_wrong_keeps_its_error()
    {
        LocalDateTime noon = new(2026, 12, 1, 12, 0);
        Settings odd = Settings(Program('A', "06:00", "1=10m", new OddDays()));
        string Runs(Circumstances told) =>
            SiteTimes(SiteEmulator.Run(Plain, odd, told, Madrid, new LocalDate(2026, 12, 3), new LocalDate(2026, 12, 6)));
        Circumstances right = new() { KeyedIn = noon };
        Assert.Equal("2026-12-03T06:00, 2026-12-05T06:00", Runs(right));
        Assert.Equal("2026-12-03T18:00, 2026-12-05T18:00", Runs(right with { ClockSetTo = ClockSetting.HalfADayOut(noon).To }));
        Assert.Equal("2026-12-04T06:00, 2026-12-06T06:00",
            Runs(right with { ClockSettings = [ClockSetting.DaysOut(noon.PlusHours(1), -1)] }));

        // A year behind a leap year the display goes from 28 February to 1 March: odd days slip by one.
        Circumstances wrongYear = new() { KeyedIn = new LocalDateTime(2028, 2, 1, 12, 0),
            ClockSetTo = ClockSetting.YearsOut(new LocalDateTime(2028, 2, 1, 12, 0), -1).To };
        Assert.Equal("2028-02-27T06:00, 2028-02-29T06:00, 2028-03-02T06:00",
            SiteTimes(SiteEmulator.Run(Plain, odd, wrongYear, Madrid, new LocalDate(2028, 2, 27), new LocalDate(2028, 3, 2))));
    }

    [Fact]
    public void Rule_51_a_change_that_nobody_keys_in()
    {
        LocalDateTime summer = new(2026, 7, 1, 12, 0);
        Circumstances told = new() { KeyedIn = summer, ClockSetTo = summer };
        Assert.Equal("2026-10-24T02:30, 2026-10-25T02:30, 2026-10-26T01:30", SiteTimes(SiteEmulator.Run(
            Plain, AtHalfPastTwo, told, Madrid, FallBack.PlusDays(-1), FallBack.PlusDays(1))));
    }

    [Fact]
    public void Rule_52_a_rain_hold_lasts_n_times_24_hours()
    {
        LocalDateTime set = new(2026, 12, 3, 2, 30);
        Circumstances told = Keyed(new LocalDate(2026, 12, 1)) with { RainHolds = [new RainHold(set, 2)] };
        SiteTimeline timeline = SiteEmulator
            .Run(Plain, AtHalfPastTwo, told, Madrid, new LocalDate(2026, 12, 2), new LocalDate(2026, 12, 6));
        Assert.Equal("2026-12-02T02:30, 2026-12-05T02:30, 2026-12-06T02:30", SiteTimes(timeline));
        Assert.All(timeline.LostStarts, s => Assert.Equal(LostReason.RainHold, s.Reason));
        Assert.Throws<ArgumentException>(
            () => SiteEmulator.Run(Plain, AtHalfPastTwo, told with { RainHolds = [new RainHold(set, 8)] }, Madrid, set.Date, set.Date));
    }

    [Fact]
    public void Rule_53_a_rain_sensor_is_wet_and_dries_out()
    {
        RainSensor sensor = new(5, 30, new LocalDate(2026, 12, 2), [5.0, 0, 4.9, 12, 0], LocalTime.Midnight);
        Circumstances told = Keyed(new LocalDate(2026, 12, 1)) with { Sensor = sensor };
        SiteTimeline timeline = SiteEmulator
            .Run(Plain, AtHalfPastTwo, told, Madrid, new LocalDate(2026, 12, 1), new LocalDate(2026, 12, 7));
        Assert.Equal("2026-12-01T02:30, 2026-12-04T02:30, 2026-12-07T02:30", SiteTimes(timeline));
        Assert.Equal(4, timeline.LostStarts.Count);
        Assert.Throws<ArgumentException>(
            () => SiteEmulator.Run(Plain with { HasSensorInput = false }, AtHalfPastTwo, told, Madrid, SpringForward, SpringForward));
    }

    [Fact]
    public void Rule_54_what_is_lost_with_the_power()
    {
        PowerLoss loss = new(
            new LocalDateTime(2026, 12, 2, 12, 0), new LocalDateTime(2026, 12, 2, 15, 0), null, null, ValveStaysOpen: false);
        string Runs(PowerLoss l) => SiteTimes(SiteEmulator.Run(
            Plain, AtHalfPastTwo, Keyed(new LocalDate(2026, 12, 1)) with { PowerLosses = [l] }, Madrid, new LocalDate(2026, 12, 3),
                new LocalDate(2026, 12, 3)));
        Assert.Equal("2026-12-03T02:30", Runs(loss));
        Assert.Equal("2026-12-03T17:30", Runs(loss with { ClockThen = new LocalDateTime(2000, 1, 1, 0, 0) }));
        Settings factory = Settings(Program('A', "08:00", "1=5m,2=5m", EveryDay));
        Assert.Equal("2026-12-03T08:00, 2026-12-03T08:05", Runs(loss with { SettingsThen = factory }));
        Assert.Equal("", Runs(loss with { SettingsThen = Settings() }));
    }

    [Fact]
    public void Rule_55_percent_0_is_off()
    {
        Circumstances told = Keyed(new LocalDate(2026, 12, 1)) with
        {
            Rekeyings =
            [
                new Rekeying(new LocalDateTime(2026, 12, 3, 0, 0), AtHalfPastTwo with { PercentAdjust = 0 }),
                new Rekeying(new LocalDateTime(2026, 12, 5, 0, 0), AtHalfPastTwo with { PercentAdjust = 50 }),
            ],
            RunsByHand = [new RunByHand(new LocalDateTime(2026, 12, 4, 9, 0), 1, 60)],
        };
        SiteTimeline timeline = SiteEmulator
            .Run(Plain, AtHalfPastTwo, told, Madrid, new LocalDate(2026, 12, 2), new LocalDate(2026, 12, 5));
        Assert.Equal("2026-12-02T02:30, 2026-12-05T02:30", SiteTimes(timeline));
        Assert.Equal(new SiteLostStart('*', Instant.FromUtc(2026, 12, 4, 8, 0), LostReason.Off), Assert.Single(timeline.LostStarts));
    }

    /// <summary>Keyed in at percent 0 it is off like after a visit that leaves percent 0: a run by hand is refused.</summary>
    [Fact]
    public void Rule_55_percent_0_from_the_beginning_is_off_for_runs_by_hand()
    {
        Circumstances told = Keyed(new LocalDate(2026, 12,
            1)) with { RunsByHand = [new RunByHand(new LocalDateTime(2026, 12, 4, 9, 0), 1, 60)] };
        SiteTimeline timeline = SiteEmulator.Run(
            Plain, AtHalfPastTwo with { PercentAdjust = 0 }, told, Madrid, new LocalDate(2026, 12, 4), new LocalDate(2026, 12, 4));
        Assert.Empty(timeline.Runs);
        Assert.Equal(new SiteLostStart('*', Instant.FromUtc(2026, 12, 4, 8, 0), LostReason.Off), Assert.Single(timeline.LostStarts));
    }

    [Fact]
    public void Rule_56_dates_are_dates_of_the_site()
    {
        // The clock keeps standard time: its 23:30 is 00:30 of the next date by summer time.
        Settings late = Settings(Program('A', "23:30", "1=10m", EveryDay));
        Assert.Equal("2026-07-02T00:30", SiteTimes(
            SiteEmulator.Run(Plain, late, Keyed(new LocalDate(2026, 6, 1)), Madrid, new LocalDate(2026, 7, 2), new LocalDate(2026, 7, 2))));

        // 02:10 in the missing hour is taken an hour later, 02:10 in the doubled hour the first time.
        SiteTimeline spring = ByHandAt(SpringForward + (new LocalTime(2, 10)));
        Assert.Equal("2026-03-29T01:10Z", Utc(spring));
        Assert.Equal("2026-10-25T00:10Z", Utc(ByHandAt(FallBack + (new LocalTime(2, 10)))));
    }

    private static SiteTimeline ByHandAt(LocalDateTime at) => SiteEmulator.Run(
        Plain, Settings(), Keyed(at.Date.PlusDays(-1)) with { RunsByHand = [new RunByHand(at, 1, 60)] }, Madrid, at.Date, at.Date);

    private static SiteTimeline Night(Profile profile, LocalDate date) =>
        SiteEmulator.Run(profile, AtHalfPastTwo, Keyed(date), Madrid, date, date);

    private static Circumstances Keyed(LocalDate date) => new() { KeyedIn = date.AtMidnight() };

    private static string SiteTimes(SiteTimeline timeline) => string.Join(
        ", ", timeline.Runs.Select(
            r => LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm").Format(r.Opens.InZone(Madrid).LocalDateTime)));

    private static string Utc(SiteTimeline timeline) => string.Join(
        ", ", timeline.Runs.Select(r => InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm'Z'").Format(r.Opens)));
}
