using Valvewright.Engine.Budget;
using Valvewright.Engine.Weather;

namespace Valvewright.Work;

/// <summary>A site's yearly water budgets of the California ordinance, for the mean ETo of its weather record.</summary>
/// <param name="EtoMm">Mean ETo per year.</param>
/// <param name="AreaM2">Irrigated area.</param>
/// <param name="AllowanceL">MAWA.</param>
/// <param name="Zones">ETWU, zone by zone.</param>
public sealed record WaterBudget(double EtoMm, double AreaM2, double AllowanceL, ListOf<BudgetedZone> Zones)
{
    /// <summary>ETWU of the site.</summary>
    public double EstimatedUseL => Zones.Sum(z => z.EstimatedUseL);

    /// <summary>Works the budgets out.</summary>
    /// <param name="years">The site and its years.</param>
    /// <param name="use">What the landscape is for.</param>
    /// <param name="specialAreaM2">Special landscape area, at most the irrigated area.</param>
    public static WaterBudget Of(SiteYears years, LandscapeUse use, double specialAreaM2 = 0)
    {
        ArgumentNullException.ThrowIfNull(years);
        Climate[] all = [.. years.Training.Concat(years.HeldBack)];
        double eto = all.Sum(c => c.EtoMm.Sum()) / all.Sum(c => c.Days) * 365.25;
        ListOf<BudgetedZone> zones = years.Site.Controllers.SelectMany(c => c.Zones.Select(z => Of(c.Name, z, all, eto))).ToListOf();
        double area = zones.Sum(z => z.Zone.AreaM2);
        return new WaterBudget(eto, area, Mwelo.AllowanceL(eto, area, Mwelo.AdjustmentFactor(use), specialAreaM2), zones);
    }

    private static BudgetedZone Of(string controller, Zone zone, Climate[] years, double eto)
    {
        double factor = years.Sum(c => Enumerable.Range(0, c.Days)
            .Sum(d => c.EtoMm[d] * zone.Planting.CoefficientByMonth[c.DateOf(d).Month - 1])) / years.Sum(c => c.EtoMm.Sum());
        return new BudgetedZone(controller, zone, factor, Mwelo.EstimatedUseL(
            eto, new Hydrozone(zone.AreaM2, factor, Mwelo.IrrigationEfficiency(zone.Emission.Kind))));
    }
}

/// <summary>A zone as its budget counts it.</summary>
/// <param name="Controller">The controller's name.</param>
/// <param name="Zone">The zone.</param>
/// <param name="PlantFactor">Mean landscape coefficient over ETo.</param>
/// <param name="EstimatedUseL">Its part of ETWU.</param>
public sealed record BudgetedZone(string Controller, Zone Zone, double PlantFactor, double EstimatedUseL);
