using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof.Rules;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof;

/// <summary>Whether a controller can hold what a plan wants set, without replaying anything.</summary>
public static class Keyable
{
    /// <summary>Everything in a controller's plan that it can't hold; none: a card can be made of it.</summary>
    public static ListOf<Breach> Breaches(SiteController controller, ControllerPlan plan)
    {
        ArgumentNullException.ThrowIfNull(controller);
        ArgumentNullException.ThrowIfNull(plan);
        BreachList breaches = new();
        KeyableCheck.Run(controller, plan, breaches);
        return breaches.ToListOf();
    }
}
