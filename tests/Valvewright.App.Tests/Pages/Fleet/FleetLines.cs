using NodaTime;
using Valvewright.App.Pages.Fleet;
using Valvewright.Records.Views;

namespace Valvewright.App.Tests.Pages.Fleet;

/// <summary>What is due at a controller, and in which order controllers stand.</summary>
public sealed class FleetLines
{
    private static readonly LocalDate Today = new(2026, 7, 14);
    private static readonly FleetRow Sound = new(Guid.NewGuid(), "Quarry Hill", "Gate", "Tank", 4, 3, 38.3, 48.8, new LocalDate(2026, 3, 1),
        true, 80, new LocalDate(2026, 10, 1), null, new LocalDate(2026, 5, 1), 9.1, null);

    [Fact]
    public void Nothing_is_due_where_all_is_well() => Assert.Empty(FleetLine.Of(Sound, Today).Dues);

    [Theory]
    [InlineData(7.5, Due.Battery)]
    [InlineData(2.4, Due.Battery)]
    internal void A_low_battery_is_due(double volts, Due due) =>
        Assert.Equal([due], FleetLine.Of(Sound with { BatteryVolts = volts }, Today).Dues);

    [Fact]
    public void A_visit_is_due_within_two_weeks()
    {
        Assert.Equal([Due.Visit], FleetLine.Of(Sound with { NextPlannedVisit = Today.PlusDays(14) }, Today).Dues);
        Assert.Empty(FleetLine.Of(Sound with { NextPlannedVisit = Today.PlusDays(15) }, Today).Dues);
    }

    [Fact]
    public void A_planned_visit_that_is_not_on_record_is_due() =>
        Assert.Equal([Due.Visit], FleetLine.Of(Sound with { OverdueVisit = Today.PlusDays(-40) }, Today).Dues);

    [Fact]
    public void A_plan_that_is_not_there_or_not_of_this_survey_is_told()
    {
        Assert.Equal([Due.OldPlan], FleetLine.Of(Sound with { PlanFitsSurvey = false }, Today).Dues);
        Assert.Equal([Due.NoPlan], FleetLine.Of(Sound with { PlanInForceFrom = null, PlanFitsSurvey = null }, Today).Dues);
        Assert.Equal([Due.Unreadable], FleetLine.Of(Sound with { Controller = null }, Today).Dues);
    }

    [Fact]
    public void The_most_pressing_stands_first_in_each_order()
    {
        FleetLine[] lines = [
            .. new[] { Sound, Sound with { Controller = "Terrace", BatteryVolts = null, LastVisit = null, NextPlannedVisit = null },
                Sound with { Site = "Claybank", Controller = "Zoo", BatteryVolts = 7.2, NextPlannedVisit = Today,
                    LastVisit = Today } }.Select(r => FleetLine.Of(r, Today))];
        string[] In(FleetOrder order, bool descending = false) =>
            [.. FleetLine.Sorted(lines, order, descending).Select(l => l.Row.Controller!)];
        Assert.Equal(["Zoo", "Gate", "Terrace"], In(FleetOrder.Site));
        Assert.Equal(["Gate", "Terrace", "Zoo"], In(FleetOrder.Controller));
        Assert.Equal(["Zoo", "Gate", "Terrace"], In(FleetOrder.NextVisit));
        Assert.Equal(["Terrace", "Gate", "Zoo"], In(FleetOrder.LastVisit));
        Assert.Equal(["Zoo", "Gate", "Terrace"], In(FleetOrder.Battery));
        Assert.Equal(["Terrace", "Gate", "Zoo"], In(FleetOrder.Battery, descending: true));
    }
}
