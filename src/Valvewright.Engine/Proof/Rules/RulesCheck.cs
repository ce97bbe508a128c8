using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof.Rules;

/// <summary>Every rule, on every day of some years of calendar.</summary>
internal sealed record RulesCheck(
    LocalDate From, LocalDate To, ListOf<Breach> Breaches, ListOf<SupplyProof> Supplies, ListOf<Workload> Workloads)
{
    /// <summary>Checks a plan from one date to another, both included.</summary>
    /// <param name="site">The survey.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="from">First date.</param>
    /// <param name="to">Last date.</param>
    /// <param name="memory">What the last check of the same site on the same dates left; null: it is the only one.</param>
    public static RulesCheck Of(Site site, Plan plan, LocalDate from, LocalDate to, RulesMemory? memory = null)
    {
        memory ??= new RulesMemory();
        DateTimeZone zone = site.Zone();
        BreachList breaches = new();
        double years = (Period.DaysBetween(from, to) + 1) / 365.25;
        List<Workload> workloads = [];
        List<Opening> all = [];
        CheckNames(site, plan, breaches);
        foreach (SiteController controller in site.Controllers)
        {
            if (plan.Controllers.FirstOrDefault(c => c.Controller == controller.Name) is not { } own)
            {
                continue;
            }

            KeyableCheck.Run(controller, own, breaches);
            Watered watered = memory.WateredBy(zone, controller, own, from, to);
            CheckLost(zone, controller, watered, breaches);
            CycleCheck.Run(zone, watered.Openings, breaches);
            workloads.Add(Workload.Of(zone, controller, watered.Openings, years));
            all.AddRange(watered.Openings);
        }

        List<SupplyProof> supplies = [];
        foreach (WaterSupply supply in site.Supplies)
        {
            List<Opening> drawing = [.. all.Where(o => o.Controller.Supply == supply.Name)];
            DatesInDoubt? inDoubt = PermittedCheck.Run(zone, supply, drawing, from, to, breaches, memory);
            StorageCheck.Run(zone, supply, drawing, breaches);
            supplies.Add(FlowSweep.Run(zone, supply, drawing, breaches) with { InDoubt = inDoubt });
        }

        return new RulesCheck(from, to, breaches.ToListOf(), supplies.ToListOf(), workloads.ToListOf());
    }

    private static void CheckNames(Site site, Plan plan, BreachList breaches)
    {
        foreach (SiteController controller in site.Controllers.Where(c => plan.Controllers.All(p => p.Controller != c.Name)))
        {
            breaches.Add(BreachKind.ControllerMissing, controller.Name, "it has no plan");
        }

        foreach (IGrouping<string, ControllerPlan> own in plan.Controllers.GroupBy(p => p.Controller))
        {
            if (site.Controllers.All(c => c.Name != own.Key))
            {
                breaches.Add(BreachKind.ControllerMissing, own.Key, "it has a plan, but is not in the survey");
            }
            else if (own.Count() > 1)
            {
                breaches.Add(BreachKind.ControllerMissing, own.Key, "it has more than one plan");
            }
        }
    }

    private static void CheckLost(DateTimeZone zone, SiteController controller, Watered watered, BreachList breaches)
    {
        SiteClock clock = new(zone, controller.Profile);
        foreach (LostStart lost in watered.Lost)
        {
            LocalDateTime at = clock.SiteTime(clock.MomentOf(lost.DueAt));
            breaches.Add(BreachKind.StartLost, $"{controller.Name}, program {lost.Program}",
                "a start falls due while another run goes on, and never happens", at);
        }
    }
}
