using NodaTime;
using Valvewright.Cli.Reports;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;

namespace Valvewright.Cli.Tests.Reports;

public class SeasonPagesTests
{
    [Fact]
    public void AVisitAtWhichNoControllerChangesIsNamed()
    {
        // The year goes round: on 31 December both stay as October left them, and North alone changes in June.
        Plan plan = new("site", [Own("North", 100, 80, 20, 20), Own("South", 100, 100, 40, 40)]);
        Assert.Equal([new AnnualDate(12, 31)], SeasonPages.Idle(plan));
        Assert.Equal([new AnnualDate(6, 25), new AnnualDate(12, 31)], SeasonPages.Idle(new Plan("site", [Own("South", 100, 100, 40, 40)])));
        Assert.Empty(SeasonPages.Idle(new Plan("site", [Own("South", 100, 90, 40, 30)])));
    }

    private static ControllerPlan Own(string name, params int[] percents) => new(
        name, new Settings([]), percents.Zip(new[] { (3, 12), (6, 25), (10, 8), (12, 31) }, (p, d) => new Visit(new AnnualDate(d.Item1, d.Item2), p)).ToListOf());
}
