using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Proof.Rules;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Planning.Changes;

/// <summary>Which settings break rules: on some weeks at once, on the proof's whole calendar before anything is kept.</summary>
internal sealed class ChangeRules(Site site, Plan found, LocalDate from)
{
    private const int ShortDays = 35;

    private readonly Dictionary<string, int> soon = new(StringComparer.Ordinal);
    private readonly Dictionary<string, bool> whole = new(StringComparer.Ordinal);

    /// <summary>Rules broken on the first weeks.</summary>
    public int Soon(ChangeState state)
    {
        string key = state.Key;
        return soon.TryGetValue(key, out int count) ? count
            : soon[key] = SiteRules.Breaches(site, PlanOf(state), from, from.PlusDays(ShortDays - 1)).Count;
    }

    /// <summary>Whether no rule is broken on any date of the proof's calendar.</summary>
    public bool AreKept(ChangeState state)
    {
        string key = state.Key;
        return whole.TryGetValue(key, out bool kept)
            ? kept
            : whole[key] = Soon(state) == 0
                && SiteRules.Breaches(site, PlanOf(state), from,
                from.PlusYears(new ProofOptions(from, []).CalendarYears).PlusDays(-1)).Count == 0;
    }

    /// <summary>The plan of a state, with the visits of the one found; programs with nothing in them are left out.</summary>
    public Plan PlanOf(ChangeState state) => found with
    {
        Controllers = found.Controllers.Select((c, i) => c with
        {
            Settings = state.Settings[i] with { Programs = state.Settings[i].Programs
                .Where(p => p.StartTimes.Count > 0 || p.RunTimes.Count > 0 || p.Days is not null).ToListOf() },
        }).ToListOf(),
    };
}
