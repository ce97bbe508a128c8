using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Plans;

/// <summary>Which visit comes next, and which one nobody has made.</summary>
public sealed class OverdueVisitTests
{
    private static readonly ControllerPlan Plan = new("Gate", new Settings([]),
        [new Visit(new AnnualDate(4, 9), 60), new Visit(new AnnualDate(9, 10), 0)]);

    private static readonly LocalDate From = new(2026, 4, 1);

    [Theory]
    [InlineData("2026-04-09", "2026-04-09")]
    [InlineData("2026-04-10", "2026-09-10")]
    [InlineData("2026-11-28", "2027-04-09")]
    public void The_next_visit_may_be_in_the_next_year(string today, string next) =>
        Assert.Equal(Date(next), Plan.NextVisit(Date(today)!.Value));

    [Theory]
    [InlineData("2026-04-08", null, null)]
    [InlineData("2026-04-09", null, "2026-04-09")]
    [InlineData("2026-11-28", "2026-04-10", "2026-09-10")]
    [InlineData("2026-11-28", "2026-09-02", "2026-09-10")]
    [InlineData("2026-11-28", "2026-09-03", null)]
    [InlineData("2027-02-01", "2026-04-10", "2026-09-10")]
    public void A_visit_is_overdue_until_one_is_on_record_from_a_week_before_it(string today, string? last, string? overdue) =>
        Assert.Equal(Date(overdue), Plan.OverdueVisit(Date(today)!.Value, From, Date(last)));

    [Fact]
    public void A_plan_without_visits_has_none()
    {
        ControllerPlan steady = Plan with { Visits = [] };
        Assert.Null(steady.NextVisit(From));
        Assert.Null(steady.OverdueVisit(From, From, null));
    }

    private static LocalDate? Date(string? text) => text is null ? null : NodaTime.Text.LocalDatePattern.Iso.Parse(text).Value;
}
