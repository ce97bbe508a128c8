using NodaTime;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Values;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Tests.Season;

/// <summary>Wishes about the dates of visits.</summary>
public sealed partial class SeasonPlannerTests
{
    [Fact]
    public void Wishes_about_dates_are_kept()
    {
        (Site site, Plan plan) = Green(25, "only");
        SeasonOptions wishes = new()
        {
            Visits = 4,
            Year = 2027,
            OnlyOn = [IsoDayOfWeek.Monday],
            NotIn = [new PeriodOfYear(new AnnualDate(8, 1), new AnnualDate(8, 31))],
            Agreed = [new AnnualDate(5, 12)],
            LeastDaysBetween = 21,
        };
        SeasonPlan season = SeasonPlanner.Of(site, plan, Maricopa.Value, wishes);
        Assert.Contains(new AnnualDate(5, 12), season.Dates);
        Assert.All(season.Dates.Where(d => d != new AnnualDate(5, 12)), d => Assert.Equal(IsoDayOfWeek.Monday, d.InYear(2027).DayOfWeek));
        Assert.DoesNotContain(season.Dates, d => d.Month == 8);
        Assert.All(season.Dates.Zip(season.Dates.Skip(1)), d => Assert.True(Period.DaysBetween(d.First.InYear(2027), d.Second.InYear(2027)) >= 21));
    }

    [Fact]
    public void Wishes_that_cannot_be_met_are_said_plainly()
    {
        (Site site, Plan plan) = Green(25, "only");
        ArgumentException tooMany = Assert.ThrowsAny<ArgumentException>(() => SeasonPlanner.Of(site, plan, Maricopa.Value, new SeasonOptions { Visits = 13 }));
        Assert.Contains("1 to 12", tooMany.Message, StringComparison.Ordinal);
        ArgumentException close = Assert.ThrowsAny<ArgumentException>(
            () => SeasonPlanner.Of(site, plan, Maricopa.Value, new SeasonOptions { Visits = 6, LeastDaysBetween = 90 }));
        Assert.Contains("too close", close.Message, StringComparison.Ordinal);
    }
}
