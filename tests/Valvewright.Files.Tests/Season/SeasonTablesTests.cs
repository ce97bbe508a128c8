using Ical.Net;
using Ical.Net.CalendarComponents;
using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Files.Season;
using Valvewright.Files.Surveys;
using Valvewright.Tests;

namespace Valvewright.Files.Tests.Season;

/// <summary>The office's table and the calendar of visits.</summary>
public sealed class SeasonTablesTests
{
    private static readonly Plan Planned = new(
        "Green, north",
        [
            new ControllerPlan("Gate, old", new Settings([]), [new Visit(new AnnualDate(3, 1), 50), new Visit(new AnnualDate(10, 1), 0)]),
            new ControllerPlan("Terrace", new Settings([]), [new Visit(new AnnualDate(3, 1), 70)]),
        ]);

    [Fact]
    public void A_line_for_each_visit_and_controller() => Assert.Equal(
        "date,weekday,controller,percent,until,also_set\r\n"
        + "2027-03-01,Monday,\"Gate, old\",50,2027-10-01,\r\n"
        + "2027-03-01,Monday,Terrace,70,2028-03-01,\r\n"
        + "2027-10-01,Friday,\"Gate, old\",0,2028-03-01,\r\n",
        SeasonTable.Visits(Planned, 2027));

    [Fact]
    public void What_a_visit_keys_in_beside_the_percent_stands_in_table_and_calendar()
    {
        Program Every(int days) => new('B', [new LocalTime(4, 0)], [new RunTime(1, 600)], new EveryNDays(days, new LocalDate(2026, 1, 1)));
        Plan plan = new("Green",
            [new ControllerPlan("Gate", new Settings([Every(2)]),
                [new Visit(new AnnualDate(3, 1), 50, [Every(2)]), new Visit(new AnnualDate(10, 1), 60, [Every(4)])])]);
        Assert.Contains("2027-10-01,Friday,Gate,60,2028-03-01,program B every 4 days\r\n", SeasonTable.Visits(plan, 2027),
            StringComparison.Ordinal);
        Site site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "saguaro-lane")).Site!;
        Calendar calendar = Calendar.Load(VisitCalendar.Write(site, plan, new LocalDate(2026, 4, 1), everyYear: true))!;
        Assert.Contains(calendar.Events, e => e.Summary == "Green: set Gate 60% (program B every 4 days)");
    }

    [Fact]
    public void A_line_for_each_week()
    {
        string[] lines = SeasonTable.Weeks(
            new YearOfWater(new AnnualDate(7, 1), [new WeekOfWater(28, 14, 7.25, 99.94, -3), new WeekOfWater(1, 2, 3, 4, 5)]))
                .Split("\r\n");
        Assert.Equal(["week_from,need_mm,rain_mm,water_mm,store_percent,dry_store_percent", "07-01,28.0,14.0,7.3,99.9,-3.0",
            "07-08,1.0,2.0,3.0,4.0,5.0", ""], lines);
    }

    [Fact]
    public void An_independent_reader_finds_the_visits_of_years()
    {
        Site site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "saguaro-lane")).Site!;
        Calendar calendar = Calendar.Load(VisitCalendar.Write(site, Planned, new LocalDate(2026, 4, 1), everyYear: true))!;
        CalendarEvent[] events = [.. calendar.Events.OrderBy(e => e.Start!.Value)];
        Assert.Equal([new DateTime(2026, 10, 1), new DateTime(2027, 3, 1)], events.Select(e => e.Start!.Value));
        Assert.All(events, e => Assert.True(e.IsAllDay));
        Assert.Equal("Green, north: set Gate, old 50%, Terrace 70%", events[1].Summary);
        DateTime[] gate = [.. events[0].GetOccurrences().Take(3).Select(o => o.Period.StartTime.Value)];
        Assert.Equal([new DateTime(2026, 10, 1), new DateTime(2027, 10, 1), new DateTime(2028, 10, 1)], gate);
        Calendar once = Calendar.Load(VisitCalendar.Write(site, Planned, new LocalDate(2026, 4, 1), everyYear: false))!;
        Assert.All(once.Events, e => Assert.Single(e.GetOccurrences().Take(2)));
    }

    [Fact]
    public void A_visit_for_a_seedbed_does_not_come_back()
    {
        Site site = SurveyFiles.Read(Path.Combine(Checkout.Root, "demo", "quarry-hill")).Site!;
        Zone seedbed = site.Controllers.SelectMany(c => c.Zones).First(z => z.Planting.Stage == PlantStage.NewlySeeded);
        LocalDate sown = seedbed.Planting.Since!.Value;
        Plan plan = new(site.Name,
            [new ControllerPlan(
                "Gate", new Settings([]), [new Visit(new AnnualDate(sown.Month, sown.Day), 100), new Visit(new AnnualDate(9, 1), 50)])]);
        Calendar calendar = Calendar.Load(VisitCalendar.Write(site, plan, sown, everyYear: true))!;
        Assert.Single(calendar.Events.Single(e => e.Summary!.Contains("100%", StringComparison.Ordinal)).GetOccurrences().Take(2));
        Assert.Equal(2, calendar.Events.Single(e => e.Summary!.Contains("50%", StringComparison.Ordinal)).GetOccurrences().Take(2).Count());
    }
}
