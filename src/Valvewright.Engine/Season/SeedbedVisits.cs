using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Season;

/// <summary>Keeps seedbeds wet under a season that was chosen for the zones that last.</summary>
/// <remarks>
/// A percent scales every program of a controller, and a seedbed's run times are what its hardest day takes at 100 %. So a controller
/// that waters one has two visits of its own: at sowing it is set to 100 %, and when the seedbed has passed, to what the season says. Somebody is
/// there on both days anyway: to sow, and to key in a lawn's program. Where the sowing date is not known it stays at 100 % whenever it is on.
/// </remarks>
public static class SeedbedVisits
{
    private const int Full = 100;

    /// <summary>Counts days in a year without 29 February.</summary>
    private const int CommonYear = 2001;

    /// <summary>The plan with no visit that lets a seedbed go dry.</summary>
    public static Plan Keep(Site site, Plan plan)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        return plan with
        {
            Controllers = plan.Controllers.Select(c => site.Controllers.FirstOrDefault(s => s.Name == c.Controller) is { } controller ? Keep(controller, c) : c).ToListOf(),
        };
    }

    /// <summary>When a controller waters seedbeds of known sowing date.</summary>
    public static ListOf<PeriodOfYear> DatesOf(SiteController controller)
    {
        ArgumentNullException.ThrowIfNull(controller);
        return controller.Zones.Select(Seedbed.DatesOf).OfType<PeriodOfYear>().Distinct().ToListOf();
    }

    /// <summary>Whether a controller waters a seedbed.</summary>
    public static bool HasSeedbed(SiteController controller)
    {
        ArgumentNullException.ThrowIfNull(controller);
        return controller.Zones.Any(Seedbed.IsOne);
    }

    /// <summary>The visits to a controller that are there for its seedbeds: at sowing, and when they have passed.</summary>
    public static ListOf<AnnualDate> VisitsOf(SiteController controller) => DatesOf(controller).SelectMany(d => new[] { d.From, DayAfter(d) }).ToListOf();

    /// <summary>How many visits a site's plan has a year, but for those that are only there for a seedbed.</summary>
    public static int OthersIn(Site site, Plan plan)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        return plan.Controllers
            .SelectMany(c =>
            {
                SiteController? controller = site.Controllers.FirstOrDefault(s => s.Name == c.Controller);
                ListOf<AnnualDate> own = controller is null ? [] : VisitsOf(controller);
                return c.Visits.Select(v => v.Date).Where(d => !own.Contains(d));
            })
            .Distinct()
            .Count();
    }

    private static ControllerPlan Keep(SiteController controller, ControllerPlan own)
    {
        if (!HasSeedbed(controller) || own.Visits.Count == 0)
        {
            return own;
        }

        return own with
        {
            Visits = controller.Zones.Any(z => Seedbed.IsOne(z) && Seedbed.DatesOf(z) is null)
                ? own.Visits.Select(v => v.Percent == 0 ? v : v with { Percent = Full }).ToListOf()
                : DatesOf(controller).Aggregate(own.Visits, With),
        };
    }

    /// <summary>The visits with 100 % over the dates, and as they were before and after.</summary>
    private static ListOf<Visit> With(ListOf<Visit> visits, PeriodOfYear dates)
    {
        AnnualDate end = DayAfter(dates);
        Visit[] kept = [.. visits.Where(v => v.Date != dates.From && v.Date != end && !dates.Contains(v.Date.InYear(CommonYear)))];
        return kept.Append(new Visit(dates.From, Full)).Append(new Visit(end, PercentOn(visits, end))).OrderBy(v => v.Date).ToListOf();
    }

    private static AnnualDate DayAfter(PeriodOfYear dates)
    {
        LocalDate after = dates.To.InYear(CommonYear).PlusDays(1);
        return new AnnualDate(after.Month, after.Day);
    }

    private static int PercentOn(ListOf<Visit> visits, AnnualDate date) => (visits.LastOrDefault(v => v.Date <= date) ?? visits[^1]).Percent;
}
