using NodaTime;
using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Plans;

/// <summary>A run of dates, both included, over which a controller stays as a visit left it.</summary>
/// <param name="From">First date, the visit's own unless the asked-for dates begin later.</param>
/// <param name="To">Last date.</param>
/// <param name="Percent">The percent; 0 means off.</param>
/// <param name="Programs">The programs, where visits change them; null where they are the settings' own all year.</param>
public readonly record struct Spell(LocalDate From, LocalDate To, int Percent, ListOf<Program>? Programs = null)
{
    /// <summary>What is set over the spell, with its percent (0 where it is off).</summary>
    public Settings SettingsOf(ControllerPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return plan.Settings with { Programs = Programs ?? plan.Settings.Programs, PercentAdjust = Percent };
    }

    /// <summary>The spells of a plan from one date to another, by rising date, without a gap.</summary>
    /// <remarks>The last visit's setting holds over the new year until the first visit. Without visits: one spell at the settings'
    /// percent.</remarks>
    public static IEnumerable<Spell> Of(ControllerPlan plan, LocalDate from, LocalDate to)
    {
        ArgumentNullException.ThrowIfNull(plan);
        if (plan.Visits.Count == 0)
        {
            yield return new Spell(from, to, plan.Settings.PercentAdjust);
            yield break;
        }

        ListOf<Program>?[] programs = [.. plan.Visits.Select((_, v) => plan.ChangesPrograms ? plan.ProgramsAfter(v) : null)];
        List<(LocalDate Date, int Percent, ListOf<Program>? Programs)> visits = [];
        for (int year = from.Year - 1; year <= to.Year; year++)
        {
            visits.AddRange(plan.Visits.Select((v, i) => (v.Date.InYear(year), v.Percent, programs[i])).OrderBy(v => v.Item1));
        }

        for (int i = 0; i < visits.Count; i++)
        {
            LocalDate first = LocalDate.Max(visits[i].Date, from);
            LocalDate last = i + 1 < visits.Count ? LocalDate.Min(visits[i + 1].Date.PlusDays(-1), to) : to;
            if (first <= last)
            {
                yield return new Spell(first, last, visits[i].Percent, visits[i].Programs);
            }
        }
    }
}
