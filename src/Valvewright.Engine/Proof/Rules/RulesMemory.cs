using NodaTime;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof.Water;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Proof.Rules;

/// <summary>What one check of the rules leaves for the next of the same site on the same calendar: what unchanged controllers do, and the
/// permitted spans.</summary>
internal sealed class RulesMemory
{
    private readonly Dictionary<string, (ControllerPlan Plan, Watered Watered)> last = [];
    private readonly Dictionary<PermittedTimes, List<(long From, long To)>> spans = [];

    /// <summary>What a controller does on the calendar.</summary>
    public Watered WateredBy(DateTimeZone zone, SiteController controller, ControllerPlan plan, LocalDate from, LocalDate to)
    {
        if (!last.TryGetValue(controller.Name, out (ControllerPlan Plan, Watered Watered) known) || known.Plan != plan)
        {
            last[controller.Name] = known = (plan, Watered.Of(zone, controller, plan, from, to));
        }

        return known.Watered;
    }

    /// <summary>The spans of real time in which water is permitted.</summary>
    public List<(long From, long To)> Spans(DateTimeZone zone, PermittedTimes permitted, LocalDate from, LocalDate to) =>
        spans.TryGetValue(permitted, out List<(long From, long To)>? known) ? known
            : spans[permitted] = PermittedCheck.Spans(zone, permitted, from, to);
}
