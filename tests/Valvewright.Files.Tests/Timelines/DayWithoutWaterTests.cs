using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Files.Timelines;

namespace Valvewright.Files.Tests.Timelines;

/// <summary>A date on which nothing is to run.</summary>
public sealed class DayWithoutWaterTests
{
    private static readonly Site Site = Sites.Of("Etc/UTC", knowsDaylightSaving: false);

    private static Plan Daily(int hour, int minutes) => new(Site.Name, [new ControllerPlan(
        "East", new Settings(
            [new Program('A', [new LocalTime(hour, 0)], [new RunTime(1, 60 * minutes)], new EveryNDays(1, new LocalDate(2026, 1, 1)))]),
            [])]);

    [Fact]
    public void A_run_at_dawn_is_left_out_between_the_day_before_and_the_day_after()
    {
        DayWithoutWater day = Assert.Single(DayWithoutWater.Of(Site, Daily(5, 30), new LocalDate(2026, 7, 18)));
        Assert.Equal(new LocalDateTime(2026, 7, 17, 5, 30), day.OffAfter);
        Assert.Equal(new LocalDateTime(2026, 7, 18, 5, 0), day.OffBefore);
        Assert.Equal(new LocalDateTime(2026, 7, 19, 0, 0), day.OnAfter);
        Assert.Equal(new LocalDateTime(2026, 7, 19, 5, 0), day.OnBefore);
        Assert.Single(day.Left);
        Assert.Empty(day.AlsoLeft);
    }

    [Fact]
    public void A_run_over_midnight_is_stopped_before_it_begins()
    {
        DayWithoutWater day = Assert.Single(DayWithoutWater.Of(Site, Daily(23, 120), new LocalDate(2026, 7, 18)));
        Assert.Equal(new LocalDateTime(2026, 7, 17, 1, 0), day.OffAfter);
        Assert.Equal(new LocalDateTime(2026, 7, 17, 23, 0), day.OffBefore);
        Assert.Equal(2, day.Left.Count);

        // What is keyed in does what is said: no water on the date, and the next watering as planned.
        OffSpell off = new(day.OffBefore.PlusMinutes(-1), day.OnAfter.PlusMinutes(1));
        SiteWaterings after = SiteWaterings.Of(
            Site, Daily(23, 120), new LocalDate(2026, 7, 16), new LocalDate(2026, 7, 20), befalls: (_, told) => told with { Off = [off] });
        Instant begins = Instant.FromUtc(2026, 7, 18, 0, 0), ends = Instant.FromUtc(2026, 7, 19, 0, 0);
        Assert.DoesNotContain(after.Waterings, w => w.Opens < ends && w.Closes > begins);
        Assert.Contains(after.Waterings, w => w.Opens == Instant.FromUtc(2026, 7, 19, 23, 0));
    }

    [Fact]
    public void Where_nothing_runs_nothing_is_to_be_keyed_in()
    {
        Plan weekly = new(Site.Name, [new ControllerPlan(
            "East", new Settings([new Program('A', [new LocalTime(5, 0)], [new RunTime(1, 600)], new DaysOfWeek([IsoDayOfWeek.Monday]))]),
                [])]);
        Assert.Empty(Assert.Single(DayWithoutWater.Of(Site, weekly, new LocalDate(2026, 7, 18))).Left);
    }
}
