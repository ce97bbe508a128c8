using NodaTime;

namespace Valvewright.Engine.Plans;

/// <summary>A run of dates, both included, over which a controller's percent adjust stays as a visit left it.</summary>
/// <param name="From">First date, the visit's own unless the asked-for dates begin later.</param>
/// <param name="To">Last date.</param>
/// <param name="Percent">The percent; 0 means off.</param>
public readonly record struct Spell(LocalDate From, LocalDate To, int Percent)
{
    /// <summary>The spells of a plan from one date to another, by rising date, without a gap.</summary>
    /// <remarks>The last visit's setting holds over the new year until the first visit. Without visits: one spell at the settings' percent.</remarks>
    public static IEnumerable<Spell> Of(ControllerPlan plan, LocalDate from, LocalDate to)
    {
        ArgumentNullException.ThrowIfNull(plan);
        if (plan.Visits.Count == 0)
        {
            yield return new Spell(from, to, plan.Settings.PercentAdjust);
            yield break;
        }

        List<(LocalDate Date, int Percent)> visits = [];
        for (int year = from.Year - 1; year <= to.Year; year++)
        {
            visits.AddRange(plan.Visits.Select(v => (v.Date.InYear(year), v.Percent)).OrderBy(v => v.Item1));
        }

        for (int i = 0; i < visits.Count; i++)
        {
            LocalDate first = LocalDate.Max(visits[i].Date, from);
            LocalDate last = i + 1 < visits.Count ? LocalDate.Min(visits[i + 1].Date.PlusDays(-1), to) : to;
            if (first <= last)
            {
                yield return new Spell(first, last, visits[i].Percent);
            }
        }
    }
}
