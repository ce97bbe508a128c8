using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Season;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Tests.Proof;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Tests.Season;

/// <summary>Visits that keep a seedbed wet; its 30 days are those of the balance.</summary>
public sealed class SeedbedVisitsTests
{
    private static readonly ListOf<Visit> Season =
        [new(new AnnualDate(3, 1), 50), new(new AnnualDate(5, 1), 80), new(new AnnualDate(10, 1), 0)];

    private static (Site Site, Plan Plan) Sown(LocalDate? since, ListOf<Visit> visits)
    {
        Site site = Sites.Site("only").With(c => c with
        {
            Zones = [c.Zones[0], c.Zones[1] with { Planting = c.Zones[1].Planting with { Stage = PlantStage.NewlySeeded, Since = since } }],
        });
        Plan plan = Sites.Plan(site, Sites.Daily('A', 10));
        return (site, plan with { Controllers = [plan.Controllers[0] with { Visits = visits }] });
    }

    [Fact]
    public void Two_visits_more_while_it_is_one()
    {
        // Sown 10 April: 30 days to 9 May. The visit of 1 May falls inside; what it sets comes into force on 10 May.
        (Site site, Plan plan) = Sown(new LocalDate(2026, 4, 10), Season);
        Assert.Equal(
            [new Visit(new AnnualDate(3, 1), 50), new Visit(new AnnualDate(4, 10), 100), new Visit(new AnnualDate(5, 10), 80),
                new Visit(new AnnualDate(10, 1), 0)],
            SeedbedVisits.Keep(site, plan).Controllers[0].Visits);
        Assert.Equal(2, VisitDates.Of(site, SeedbedVisits.Keep(site, plan)).Yearly.Count);
    }

    [Fact]
    public void Over_the_new_year_the_setting_before_comes_back()
    {
        (Site site, Plan plan) = Sown(new LocalDate(2026, 12, 20), Season);
        Assert.Equal(
            [new Visit(new AnnualDate(1, 19), 0), .. Season.Take(3), new Visit(new AnnualDate(12, 20), 100)],
            SeedbedVisits.Keep(site, plan).Controllers[0].Visits);
    }

    [Fact]
    public void Of_unknown_date_it_is_kept_whenever_water_is_on()
    {
        (Site site, Plan plan) = Sown(null, Season);
        Assert.Equal([100, 100, 0], SeedbedVisits.Keep(site, plan).Controllers[0].Visits.Select(v => v.Percent));
    }

    [Fact]
    public void Without_a_seedbed_nothing_changes()
    {
        Site site = Sites.Site("only");
        Plan plan = Sites.Plan(site, Sites.Daily('A', 10));
        Plan visited = plan with { Controllers = [plan.Controllers[0] with { Visits = Season }] };
        Assert.Equal(visited, SeedbedVisits.Keep(site, visited));
    }

    [Fact]
    public void A_plan_that_nobody_adjusts_keeps_its_winter()
    {
        (_, Plan plan) = Sown(null, Season);
        Assert.Equal([new Visit(new AnnualDate(3, 1), 100), new Visit(new AnnualDate(10, 1), 0)],
            OnePercent.Of(plan).Controllers[0].Visits);
        (_, Plan always) = Sown(null, [new(new AnnualDate(3, 1), 50), new(new AnnualDate(9, 1), 30)]);
        Assert.Equal([new Visit(new AnnualDate(3, 1), 100)], OnePercent.Of(always).Controllers[0].Visits);
        Assert.Empty(OnePercent.Of(Sown(null, []).Plan).Controllers[0].Visits);
    }
}
