using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof.Rules;

/// <summary>The rules of a proof without its years of weather: what a controller can hold, permitted times, flow, runoff, lost
/// starts.</summary>
public static class SiteRules
{
    /// <summary>Every rule that a plan breaks on the dates given, both included.</summary>
    public static ListOf<Breach> Breaches(Site site, Plan plan, LocalDate from, LocalDate to)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(plan);
        return RulesCheck.Of(site, plan, from, to).Breaches;
    }
}
