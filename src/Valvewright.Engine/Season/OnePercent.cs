using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Season;

/// <summary>A plan that no one adjusts: what a season is measured against.</summary>
public static class OnePercent
{
    private const int Full = 100;

    /// <summary>The plan at 100 % whenever it is on, with the programs of its settings; off when it is off.</summary>
    public static Plan Of(Plan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return plan with { Controllers = plan.Controllers.Select(c => c with { Visits = Of(c.Visits) }).ToListOf() };
    }

    private static ListOf<Visit> Of(ListOf<Visit> visits)
    {
        Visit[] full = [.. visits.Select(v => v with { Percent = v.Percent == 0 ? 0 : Full })];
        bool Changes(Visit visit, int i) =>
            visit.Programs is not null || visit.Percent != full[(i + full.Length - 1) % full.Length].Percent;
        Visit[] changes = [.. full.Where(Changes)];
        return changes.Length > 0 ? changes.ToListOf() : full.Take(1).ToListOf();
    }
}
