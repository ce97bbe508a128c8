using Valvewright.App.Texts;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;

namespace Valvewright.App.Pages.Cards;

/// <summary>Whether a controller can take what a plan has for it: surveys are corrected after plans are made.</summary>
public static class CardFit
{
    /// <summary>Why there is no card to set it from; null where there is one.</summary>
    public static ListOf<string>? WhyNot(Site site, Plan plan, string controller, PageWords texts)
    {
        return site.Controllers.FirstOrDefault(c => c.Name == controller) is not { } device ? [texts["cards.notInSurvey"]]
            : Keyable.Breaches(device, plan.For(controller)) is { Count: > 0 } breaches ? breaches.Select(b => b.Where)
                .Distinct().ToListOf()
            : null;
    }
}
