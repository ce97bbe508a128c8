using Microsoft.VisualBasic.FileIO;
using NodaTime;
using Valvewright.Files.Timelines;

namespace Valvewright.Files.Tests.Timelines;

/// <summary>The CSV, read back with the class library's own parser; flows and questions, worked by hand.</summary>
public sealed class TimelineTablesTests
{
    private static readonly LocalDate From = new(2026, 6, 1);

    [Fact]
    public void The_table_reads_back_with_hostile_names_whole()
    {
        SiteWaterings site = SiteWaterings.Of(Sites.Of("Europe/Madrid", false), Sites.Plan, From, From.PlusDays(20));
        using TextFieldParser reader = new(new StringReader(TimelineCsv.Write(site))) { Delimiters = [","], TrimWhiteSpace = false };
        string[] header = reader.ReadFields()!;
        int row = 0;
        while (!reader.EndOfData)
        {
            Dictionary<string, string> cells = header.Zip(reader.ReadFields()!).ToDictionary(p => p.First, p => p.Second);
            Watering w = site.Waterings[row++];
            Assert.Equal(w.Zone, cells["zone"]);
            Assert.Equal(w.Opens, NodaTime.Text.InstantPattern.General.Parse(cells["opens_utc"]).Value);
            Assert.Equal(w.Seconds, long.Parse(cells["seconds"]));
        }

        Assert.Equal(site.Waterings.Count, row);
    }

    [Fact]
    public void Flow_adds_up_where_controllers_meet()
    {
        SiteWaterings site = SiteWaterings
            .Of(Sites.Of("America/Phoenix", false), Sites.Plan, new LocalDate(2026, 1, 3), new LocalDate(2026, 1, 5));
        FlowStep[] steps = [.. SupplyFlow.Of(site, "Tank")];
        Assert.All(steps.Zip(steps.Skip(1)), p => Assert.True(p.First.To <= p.Second.From));
        double litres = steps.Sum(s => s.FlowLpm * (s.To - s.From).TotalMinutes);
        Assert.Equal(site.Waterings.Sum(w => w.Litres), litres, 6);
        Assert.Equal(20, steps.Max(s => s.FlowLpm));
        Assert.Empty(SupplyFlow.Of(site, "Well"));
    }

    [Fact]
    public void Two_controllers_on_one_pipe_show_as_one_flow()
    {
        // Sunday 7 June 2026, an odd date in Phoenix: no meeting; East A at 02:30, West A at 01:00. Put West's start to 02:35.
        Engine.Plans.ControllerPlan west = Sites.Plan.For("West");
        Engine.Controllers.Program late = west.Settings.Programs[0] with { StartTimes = [new LocalTime(2, 35)] };
        Engine.Plans.Plan plan =
            new("Two Beds", [Sites.Plan.For("East"), west with { Settings = west.Settings with { Programs = [late] } }]);
        LocalDate sunday = new(2026, 6, 7);
        SiteWaterings site = SiteWaterings.Of(Sites.Of("America/Phoenix", false), plan, sunday, sunday);
        FlowStep both = Assert.Single(SupplyFlow.Of(site, "Tank"), s => s.FlowLpm > 20 && s.From == Instant.FromUtc(2026, 6, 7, 9, 35));
        Assert.Equal(40, both.FlowLpm);
    }

    [Fact]
    public void Water_of_a_month_counts_what_lies_in_it()
    {
        // West: odd dates 1200 s, even dates 1230 s, at 20 L/min: June has 15 of each: 15 x 400 + 15 x 410 L.
        MonthOfWater june = Assert
            .Single(TimelineQuestions.WaterIn(Sites.Of("America/Phoenix", false), Sites.Plan, new YearMonth(2026, 6), "West"));
        Assert.Equal(15 * 400 + 15 * 410, june.Litres, 6);
        Assert.Equal(50, june.LimitLpm);
    }

    [Fact]
    public void A_run_over_the_end_of_a_month_counts_in_part_in_both()
    {
        // East B, every 4 days from 3 January 2026, waters on 31 January (28 days on) from 23:50 for 60 min at 60 percent: 36 min.
        // It would be 26 February or 2 March else; 10 minutes lie in January, 26 in February.
        Engine.Survey.Site site = Sites.Of("America/Phoenix", false);
        Engine.Plans.ControllerPlan east = Sites.Plan.For("East");
        Engine.Plans.Plan plan =
            new("Two Beds", [east with { Visits = [], Settings = new Engine.Controllers.Settings([east.Settings.Programs[1]]) }]);
        double january = TimelineQuestions.WaterIn(site, plan, new YearMonth(2026, 1), null)[0].Litres;
        double february = TimelineQuestions.WaterIn(site, plan, new YearMonth(2026, 2), null)[0].Litres;

        // January: 8 starts from the 3rd to the 31st, the last with 10 of 60 minutes; February: 50 minutes carried in and 6 starts (4 to
        // 24), whole, and 28: 10 minutes.
        Assert.Equal(20 * (7 * 60 + 10), january, 6);
        Assert.Equal(20 * (50 + 6 * 60 + 10), february, 6);
    }

    [Fact]
    public void The_next_run_of_a_station_is_found_months_ahead()
    {
        // East is off from 10 November to 15 March; 15 March 2027 is a Monday.
        Watering next = TimelineQuestions.NextOf(Sites.Of("America/Phoenix", false), Sites.Plan, 1, new LocalDate(2026, 11, 12), "East")[0];
        Assert.Equal(new LocalDateTime(2027, 3, 15, 2, 30), next.Shown);
        Assert.Equal(360, next.Seconds);
        Assert.Empty(TimelineQuestions.NextOf(Sites.Of("America/Phoenix", false), Sites.Plan, 4, new LocalDate(2026, 11, 12), null));
    }
}
