using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Season;

/// <summary>Which controllers a season is planned for.</summary>
public static class SeasonControllers
{
    /// <summary>Those with a program and a planting that lasts: seedbeds pass within weeks and have their own waterings.</summary>
    public static ListOf<string> Of(Site site, Plan plan)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        return site.Controllers
            .Where(c => c.Zones.Any(z => z.Lasts) && plan.Controllers.Any(p => p.Controller == c.Name && p.Settings.Programs.Count > 0))
            .Select(c => c.Name)
            .ToListOf();
    }
}
