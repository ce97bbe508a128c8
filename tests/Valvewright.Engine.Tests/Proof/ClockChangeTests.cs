using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Tests.Proof;

/// <summary>
/// A clock that knows nothing of daylight saving is kept in standard time. US rules since 2007 (Energy Policy Act of 2005): from 02:00 on
/// the second Sunday of March to 02:00 on the first Sunday of November; in 2026 8 March and 1 November.
/// </summary>
public class ClockChangeTests
{
    private static readonly DateTimeZone Pacific = DateTimeZoneProviders.Tzdb["America/Los_Angeles"];

    /// <summary>06:30 + 2 x 20 min by the clock is over at 07:10 in winter and 08:10 in summer; 08:00 is the end.</summary>
    [Fact]
    public void WateringThatIsLawfulInWinterOnlyIsFound()
    {
        Site site = Sites.Site("North");
        Plan plan = Sites.Plan(site, Sites.Daily('A', 20, new LocalTime(6, 30)));
        Breach breach = Assert.Single(Sites.Prove(site, plan).Breaches);
        Assert.Equal(BreachKind.OutsidePermittedTimes, breach.Kind);
        Assert.Equal(new LocalDateTime(2026, 3, 8, 7, 50), breach.FirstAt);
        Assert.Contains("station 2", breach.Where, StringComparison.Ordinal);
        Assert.Equal(new BreachFigure(BreachMeasure.Seconds, 600, 0), breach.Worst);

        Site knows = site.With(c => c with { Profile = c.Profile with { ClockKnowsDaylightSaving = true } });
        Assert.Empty(Sites.Prove(knows, plan).Breaches);
    }

    [Fact]
    public void WateringThatIsOffInSummerIsNotTouchedByIt()
    {
        Site site = Sites.Site("North");
        Plan plan = Sites.Plan(site, Sites.Daily('A', 20, new LocalTime(6, 30)));
        Plan winter = plan with
            { Controllers = [plan.Controllers[0] with
                { Visits = [new Visit(new AnnualDate(3, 7), 0), new Visit(new AnnualDate(11, 8), 100)] }] };
        Assert.Empty(Sites.Prove(site, winter).Breaches);
    }

    /// <summary>
    /// Ireland lives by UTC in winter and UTC+1 in summer (Standard Time Act 1968 and Standard Time (Amendment) Act 1971, which call the
    /// summer hour standard); Morocco by UTC+1 but in Ramadan, by UTC (decree 2-18-855 of 2018; Ramadan of 2026 was foretold for 18
    /// February to 19 March).
    /// </summary>
    [Theory]
    [InlineData("Europe/Dublin", 1, 15, 0)]
    [InlineData("Europe/Dublin", 7, 15, 3600)]
    [InlineData("Europe/London", 7, 15, 3600)]
    [InlineData("Africa/Casablanca", 3, 1, 0)]
    [InlineData("Africa/Casablanca", 8, 20, 3600)]
    [InlineData("Africa/Nairobi", 7, 15, 0)]
    public void WinterTimeIsStandardWhateverTheLawCallsIt(string name, int month, int day, int behind)
    {
        DateTimeZone zone = DateTimeZoneProviders.Tzdb[name];
        SiteClock clock = new(zone, Sites.Profile);
        LocalDate date = new(2026, month, day);
        Assert.Equal([behind], clock.SecondsBehind(date, date));
        Instant noon = clock.MomentOf(Valvewright.Engine.Controllers.ClockSeconds.From(date.At(new LocalTime(12, 0))));
        Assert.Equal(date.At(new LocalTime(12, 0)).PlusSeconds(behind), clock.SiteTime(noon));
    }

    [Fact]
    public void TheClockIsBehindByOneHourWhileDaylightSavingIsInForce()
    {
        SiteClock clock = new(Pacific, Sites.Profile);
        Assert.Equal([0], clock.SecondsBehind(new LocalDate(2026, 1, 1), new LocalDate(2026, 3, 7)));
        Assert.Equal([0, 3600], clock.SecondsBehind(new LocalDate(2026, 1, 1), new LocalDate(2026, 3, 8)));
        Assert.Equal([3600], clock.SecondsBehind(new LocalDate(2026, 4, 1), new LocalDate(2026, 9, 30)));
        Assert.Equal([0], new SiteClock(Pacific, Sites.Profile with { ClockKnowsDaylightSaving = true }).SecondsBehind(
            new LocalDate(2026, 4, 1), new LocalDate(2026, 9, 30)));
    }
}
