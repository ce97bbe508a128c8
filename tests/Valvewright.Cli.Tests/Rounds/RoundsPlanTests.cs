using NodaTime;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Work.Rounds;
using Valvewright.Work.Search.Rounds;

namespace Valvewright.Cli.Tests.Rounds;

public sealed class RoundsPlanTests
{
    private static readonly LocalDate Monday = new(2026, 5, 11);

    [Fact]
    public void What_is_due_is_on_a_round_or_stays_with_its_reason()
    {
        DueItem fault = Item("A", DueRisk.High, 0, 2), early = Item("A", DueRisk.Low, 20, 30), far = Item("Far", DueRisk.High, 0, 3),
            promised = Item("B", DueRisk.Low, 0, 30), missed = Item("C", DueRisk.Low, 0, 30);
        RoundsPlan plan = RoundsPlan.Of(Request(
            [fault, early, far, promised, missed],
            [Named("A", 0.1), Named("B", 0.2), Named("C", 0.1), Named("Far", 30)],
            [new PromisedVisit("B", Monday.PlusDays(1), new LocalTime(10, 0), new LocalTime(11, 0)),
                new PromisedVisit("C", Monday.PlusDays(9), LocalTime.Midnight, new LocalTime(23, 59))]), 100);
        Assert.Equal(
            [(early, NotReached.TooEarly), (far, NotReached.TooFar), (missed, NotReached.PromisedOtherwise)],
            plan.Left.Select(l => (l.Item, l.Reason)));
        StopOfRound[] stops = [.. plan.Rounds.SelectMany(r => r.Stops)];
        Assert.Equal(["A", "B"], stops.Select(s => s.Site).Order());
        StopOfRound b = stops.Single(s => s.Site == "B");
        Assert.Equal(Monday.PlusDays(1), plan.Rounds.Single(r => r.Stops.Contains(b)).On);
        Assert.InRange(b.Begins, new LocalTime(10, 0), new LocalTime(11, 0));
    }

    [Fact]
    public void Work_at_one_site_is_one_stop_where_the_dates_meet()
    {
        DueItem soon = Item("A", DueRisk.High, 0, 1), late = Item("A", DueRisk.Low, 0, 9), apart = Item("A", DueRisk.Low, 3, 9);
        RoundsPlan plan = RoundsPlan.Of(Request([soon, late, apart], [Named("A", 0.1)], []), 50);
        StopOfRound stop = Assert.Single(plan.Rounds.SelectMany(r => r.Stops));
        Assert.Equal([soon, late], stop.Items);
        Assert.Equal(NotReached.DatesApart, Assert.Single(plan.Left).Reason);
        Assert.Equal(45, Period.Between(stop.Begins, stop.Ends, PeriodUnits.Minutes).Minutes);
    }

    [Fact]
    public void Own_travel_times_go_before_distance()
    {
        NamedPlace a = Named("A", 0), b = Named("B", 1);
        TravelTimes times = new(1.3, 45, new Dictionary<(string, string), double> { [("A", "B")] = 12.5 });
        Assert.Equal(13 * 60, times.Seconds(a, b));

        // One degree of longitude on the equator of a sphere of 6371 km is 111.19 km.
        Assert.Equal(60 * Math.Ceiling(60 * 1.3 * 111.195 / 45), times.Seconds(b, a));
    }

    private static DueItem Item(string site, DueRisk risk, int earliest, int latest) => new(
        site, "Gate", DueKind.Fault, $"{risk} {earliest} {latest}", Monday.PlusDays(earliest), Monday.PlusDays(latest), 20, null, risk);

    private static NamedPlace Named(string name, double longitude) => new(name, new Place(0, longitude, 0));

    private static RoundsRequest Request(ListOf<DueItem> due, ListOf<NamedPlace> sites, ListOf<PromisedVisit> promised) => new()
    {
        Due = due, Sites = sites, Days = Enumerable.Range(0, 5).Select(Monday.PlusDays).ToListOf(), People = 1,
        Leaves = new LocalTime(7, 30), Back = new LocalTime(16, 0), Start = Named("Start", 0), End = Named("End", 0), Promised = promised,
        Travel = new TravelTimes(1.3, 45, new Dictionary<(string, string), double>()),
    };
}
