using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Proof.Rules;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Proof.ByHand;

/// <summary>A site with its years of record, kept while somebody tries settings: what does not change is not worked out again.</summary>
/// <param name="site">The survey.</param>
/// <param name="years">Whole years of record.</param>
/// <param name="from">First date of the calendar on which rules are checked.</param>
public sealed class WhatIfYears(Site site, IReadOnlyList<Climate> years, LocalDate from)
{
    private readonly Dictionary<Zone, ZoneDays[]> days = [];
    private readonly Dictionary<string, (ControllerPlan Plan, ListOf<WhatIfZone> Zones)> last = [];
    private readonly Dictionary<Zone, (double[][] Gross, double[][] Net, WhatIfZone Outcome)> watered = [];
    private readonly WaterByDay water = new(RulesNowInForce.Of(site.Zone()));
    private readonly RulesMemory memory = new();

    /// <summary>What a plan would do. Controllers that are as in the plan asked about before, and zones whose water is, are taken from
    /// there.</summary>
    public WhatIf Of(Plan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        RulesCheck check = RulesCheck.Of(site, plan, from, from.PlusYears(1).PlusDays(-1), memory);
        return new WhatIf(plan, check.Breaches, check.Supplies, site.Controllers
            .SelectMany(c => ZonesOf(c, plan.Controllers.FirstOrDefault(p => p.Controller == c.Name))).ToListOf());
    }

    private ListOf<WhatIfZone> ZonesOf(SiteController controller, ControllerPlan? plan)
    {
        if (plan is null)
        {
            return [];
        }

        if (last.TryGetValue(controller.Name, out (ControllerPlan Plan, ListOf<WhatIfZone> Zones) known) && known.Plan == plan)
        {
            return known.Zones;
        }

        StationWater[] byYear = [.. years.Select(y => water.Of(controller, plan, y))];
        ListOf<WhatIfZone> zones = controller.Zones.Where(z => z.Lasts)
            .Select(z => OfZone(controller, z, [.. byYear.Select(y => y.GrossMm[z.Station])], [.. byYear.Select(y => y.NetMm[z.Station])]))
            .ToListOf();
        last[controller.Name] = (plan, zones);
        return zones;
    }

    private WhatIfZone OfZone(SiteController controller, Zone planted, double[][] grossMm, double[][] netMm)
    {
        if (watered.TryGetValue(planted, out (double[][] Gross, double[][] Net, WhatIfZone Outcome) known)
            && AreSame(known.Gross, grossMm) && AreSame(known.Net, netMm))
        {
            return known.Outcome;
        }

        ZoneDays[] all = days.TryGetValue(planted, out ZoneDays[]? kept) ? kept
            : days[planted] = [.. years.Select(y => ZoneDays.Of(planted, y))];
        double applied = 0, demand = 0, unmet = 0, share = planted.ReachingShare;
        RootZone root = RootZone.Of(planted);
        for (int year = 0; year < all.Length; year++)
        {
            ZoneDays own = all[year];
            double[] gross = grossMm[year], net = netMm[year];
            SpotStore column = new(root, 0);
            double before = 0;
            for (int step = 0; step < own.Steps; step++)
            {
                before = step == own.Lead ? column.UnmetMm : before;
                column.Step(own, step, net[step] * share);
                applied += step >= own.Lead ? gross[step] : 0;
            }

            unmet += column.UnmetMm - before;
            demand += own.DemandMm;
        }

        WhatIfZone outcome = new(
            controller.Name, planted.Station, planted.Name, planted.AreaM2, applied / all.Length, demand / all.Length, unmet / all.Length,
                QualityGoal.Of(planted.Quality).LeastUseMet);
        watered[planted] = (grossMm, netMm, outcome);
        return outcome;
    }

    private static bool AreSame(double[][] one, double[][] other) => one.Zip(other).All(y => y.First.AsSpan().SequenceEqual(y.Second));
}
