using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Proof;

public class NextWateringsTests
{
    private static readonly Site Site = Sites.Site("North");

    private static Plan Every(int days, params Visit[] visits)
    {
        Plan plan = Sites.Plan(Site, Sites.Daily('A', 20, new LocalTime(3, 0), new LocalTime(23, 50)) with
            { Days = new EveryNDays(days, new LocalDate(2026, 7, 1)) });
        return plan with { Controllers = [plan.Controllers[0] with { Visits = visits.ToListOf() }] };
    }

    /// <summary>By the clock at 03:00 and 23:50; people read 04:00 and 00:50, as it is July in California.</summary>
    [Fact]
    public void AreToldInTheTimePeopleLiveBy()
    {
        ListOf<Watering> next = NextWaterings.Of(Site, Every(3).Controllers[0], new LocalDate(2026, 7, 1), 3);
        Assert.Equal(
            [new LocalDateTime(2026, 7, 1, 4, 0), new LocalDateTime(2026, 7, 2, 0, 50), new LocalDateTime(2026, 7, 4, 4, 0)],
            next.Select(w => w.Opens));
        Assert.Equal(new LocalDateTime(2026, 7, 1, 3, 0), next[0].OpensByClock);
        Assert.Equal(new LocalDateTime(2026, 7, 1, 4, 40), next[0].Closes);
        Assert.Equal([new WateredStation(1, "Lawn 1", 1200), new WateredStation(2, "Lawn 2", 1200)], next[0].Stations);
    }

    [Fact]
    public void AreLookedForBeyondTheWinter()
    {
        ListOf<Watering> next = NextWaterings.Of(
            Site, Every(1, new Visit(new AnnualDate(4, 1), 50), new Visit(new AnnualDate(10, 1), 0)).Controllers[0],
                new LocalDate(2026, 10, 5), 10);
        Assert.Equal(10, next.Count);
        Assert.Equal(new LocalDate(2027, 4, 1), next[0].Opens.Date);
        Assert.Equal(50, next[0].Percent);
        Assert.Equal(600, next[0].Stations[0].Seconds);
    }

    [Fact]
    public void AreNoneWhenItIsAlwaysOff() =>
        Assert.Empty(NextWaterings.Of(Site, Every(1, new Visit(new AnnualDate(4, 1), 0)).Controllers[0], new LocalDate(2026, 10, 5), 10));
}
