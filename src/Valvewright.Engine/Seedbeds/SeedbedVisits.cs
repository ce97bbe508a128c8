using NodaTime;
using Valvewright.Engine.Balance;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Needs;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Seedbeds;

/// <summary>Keeps seedbeds wet under a season that was chosen for the zones that last.</summary>
/// <remarks>
/// A controller that waters a seedbed has two visits of its own, on days when you are there anyway. At sowing you set the seedbed's
/// programs at 100 %; when it has become a lawn, the year's programs at the percent that the season sets. Where no programs of its own
/// fit, only the percent changes. Where the sowing date is not known the percent stays at 100 whenever water is on.
/// </remarks>
public static class SeedbedVisits
{
    private const int Full = 100;

    /// <summary>Counts days in a year without 29 February.</summary>
    private const int CommonYear = 2001;

    /// <summary>The plan with no visit that lets a seedbed go dry.</summary>
    /// <param name="site">The site.</param>
    /// <param name="plan">Programs and visits chosen for the zones that last.</param>
    /// <param name="during">The programs of a controller while it waters a seedbed; null where they stay those of the year.</param>
    public static Plan Keep(Site site, Plan plan, Func<string, ListOf<Program>?>? during = null)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        return plan with
        {
            Controllers = plan.Controllers
                .Select(c => site.Controllers.FirstOrDefault(s => s.Name == c.Controller) is { } controller
                    ? Keep(controller, c, during?.Invoke(c.Controller))
                    : c)
                .ToListOf(),
        };
    }

    /// <summary>The site as it is for most of the year: seedbeds of known dates are the lawns that they become.</summary>
    public static Site AsLawns(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site with
        {
            Controllers = site.Controllers.Select(c => !HasProgramsOfItsOwn(c) ? c : c with
            {
                Zones = c.Zones.Select(z => !z.Lasts && z.Planting.Becomes is { } lawn ? z with { Planting = lawn } : z).ToListOf(),
            }).ToListOf(),
        };
    }

    /// <summary>The same for those controllers alone for which a plan has programs for the seedbed.</summary>
    public static Site AsLawns(Site site, Plan plan)
    {
        ArgumentNullException.ThrowIfNull(site);
        Site lawns = AsLawns(site);
        return site with
        {
            Controllers = site.Controllers.Select((c, i) => ProgramsIn(site, plan, c.Name) is null ? c : lawns.Controllers[i]).ToListOf(),
        };
    }

    /// <summary>The seedbeds alone that a plan has programs for.</summary>
    public static Site SeedbedsOf(Site site, Plan plan)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site with
        {
            Controllers = site.Controllers.Where(c => ProgramsIn(site, plan, c.Name) is not null)
                .Select(c => c with { Zones = c.Zones.Where(Seedbed.IsOne).ToListOf() }).ToListOf(),
        };
    }

    /// <summary>Whether a controller waters seedbeds in one stretch of known dates, for which it can be programmed.</summary>
    public static bool HasProgramsOfItsOwn(SiteController controller)
    {
        ArgumentNullException.ThrowIfNull(controller);
        Zone[] seedbeds = [.. controller.Zones.Where(Seedbed.IsOne)];
        return DatesOf(controller).Count == 1 && seedbeds.All(z => z.Planting.Becomes is not null && Seedbed.DatesOf(z) is not null);
    }

    /// <summary>The programs that a plan sets for a controller's seedbed; null where it has none.</summary>
    public static ListOf<Program>? ProgramsIn(Site site, Plan plan, string controller)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        return site.Controllers.FirstOrDefault(c => c.Name == controller) is { } own && HasProgramsOfItsOwn(own)
            ? plan.Controllers.FirstOrDefault(c => c.Controller == controller)?
                .Visits.FirstOrDefault(v => v.Date == DatesOf(own)[0].From)?.Programs
            : null;
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
    public static ListOf<AnnualDate> VisitsOf(SiteController controller) =>
        DatesOf(controller).SelectMany(d => new[] { d.From, DayAfter(d) }).ToListOf();

    private static ControllerPlan Keep(SiteController controller, ControllerPlan own, ListOf<Program>? during)
    {
        if (!HasSeedbed(controller) || own.Visits.Count == 0)
        {
            return own;
        }

        return own with
        {
            Visits = controller.Zones.Any(z => Seedbed.IsOne(z) && Seedbed.DatesOf(z) is null)
                ? own.Visits.Select(v => v.Percent == 0 ? v : v with { Percent = Full }).ToListOf()
                : DatesOf(controller).Aggregate(own.Visits, (visits, dates) => With(visits, dates, during, own.Settings.Programs)),
        };
    }

    /// <summary>The visits with 100 % over the dates, and as they were before and after.</summary>
    private static ListOf<Visit> With(ListOf<Visit> visits, PeriodOfYear dates, ListOf<Program>? during, ListOf<Program> after)
    {
        AnnualDate end = DayAfter(dates);
        Visit[] kept = [.. visits.Where(v => v.Date != dates.From && v.Date != end && !dates.Contains(v.Date.InYear(CommonYear)))];
        Visit sown = new(dates.From, Full, during), passed = new(end, PercentOn(visits, end), during is null ? null : after);
        return kept.Append(sown).Append(passed).OrderBy(v => v.Date).ToListOf();
    }

    private static AnnualDate DayAfter(PeriodOfYear dates)
    {
        LocalDate after = dates.To.InYear(CommonYear).PlusDays(1);
        return new AnnualDate(after.Month, after.Day);
    }

    private static int PercentOn(ListOf<Visit> visits, AnnualDate date) =>
        (visits.LastOrDefault(v => v.Date <= date) ?? visits[^1]).Percent;
}
