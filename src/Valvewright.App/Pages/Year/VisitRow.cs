namespace Valvewright.App.Pages.Year;

/// <summary>One date of the year, with what each controller is left at.</summary>
/// <param name="Date">The date.</param>
/// <param name="Visits">By controller, in the plan's order; null where it is not visited then.</param>
public sealed record VisitRow(AnnualDate Date, ListOf<Engine.Plans.Visit?> Visits)
{
    /// <summary>All dates on which any controller is visited, by rising date.</summary>
    public static ListOf<VisitRow> Of(Engine.Plans.Plan plan)
    {
        return plan.Controllers
            .SelectMany(c => c.Visits.Select(v => v.Date)).Distinct().Order()
            .Select(d => new VisitRow(d, plan.Controllers.Select(c => c.Visits.FirstOrDefault(v => v.Date == d)).ToListOf()))
            .ToListOf();
    }
}
