using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Seedbeds;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Season;

/// <summary>The dates on which a plan asks for a visit.</summary>
/// <param name="Yearly">Visits of every year.</param>
/// <param name="Once">Visits that are only there for new seed, and change something; they happen once.</param>
public sealed record VisitDates(ListOf<AnnualDate> Yearly, ListOf<AnnualDate> Once)
{
    /// <summary>Both, by date.</summary>
    public ListOf<AnnualDate> All => Yearly.Concat(Once).Order().ToListOf();

    /// <summary>The dates of a plan; a date of new seed on which nothing changes is none.</summary>
    public static VisitDates Of(Site site, Plan plan)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        (AnnualDate Date, bool IsForSeed, bool Changes)[] all = [.. plan.Controllers.SelectMany(own =>
        {
            SiteController? controller = site.Controllers.FirstOrDefault(c => c.Name == own.Controller);
            ListOf<AnnualDate> seed = controller is null ? [] : SeedbedVisits.VisitsOf(controller);
            Visit[] visits = [.. own.Visits.OrderBy(v => v.Date)];
            return visits.Select((v, i) => (v.Date, seed.Contains(v.Date), v.Programs is not null
                || v.Percent != visits[(i + visits.Length - 1) % visits.Length].Percent));
        })];
        AnnualDate[] yearly = [.. all.Where(v => !v.IsForSeed).Select(v => v.Date).Distinct().Order()];
        return new VisitDates(yearly.ToListOf(), all.Where(v => v.IsForSeed && v.Changes).Select(v =>
            v.Date).Distinct().Except(yearly).Order().ToListOf());
    }
}
