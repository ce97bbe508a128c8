using Valvewright.Engine.Survey;
using Valvewright.Engine.Words;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning;

/// <summary>Says in one or two sentences why there is no plan.</summary>
internal sealed class ObstacleWords(Site site, string supply, ControllerCase[] controllers)
{
    /// <param name="minutes">Permitted minutes that are missing on the busiest day, at least.</param>
    /// <param name="lpm">Flow that is missing, at least.</param>
    /// <param name="status">How far it is proven that there is no plan.</param>
    /// <param name="freed">Changes that free the supply.</param>
    public Sentence Of(int minutes, double lpm, PlanStatus status, IReadOnlyList<SiteChange> freed) =>
        controllers.SelectMany(c => c.Zones.Where(z => z.Choices.Count == 0 && z.Lesser.Count == 0).Select(z => CannotBeKept(c, z)))
            .FirstOrDefault()
        ?? Sentence.Together(Short(minutes, lpm, status, freed), " ");

    private Sentence CannotBeKept(ControllerCase controller, ZoneCase zone)
    {
        string name = controller.Controller.Name;
        int starts = controller.Profile.StartTimesPerProgram;
        if (zone.IsSeedbed && zone.FewestWateringsPerDay > starts)
        {
            return $"{zone.Zone.Name} on {name} is a seedbed that wants {zone.FewestWateringsPerDay} waterings every day, and a program holds {starts} start times.";
        }

        Sentence longest = zone.Need.LongestCycleSeconds is { } seconds ? InWords.Minutes(seconds / 60) : "any length";
        return $"{zone.Zone.Name} on {name} cannot have enough on any watering days that {name} offers and {supply} permits: longest cycle {longest}, {starts} start times, run times up to {InWords.Minutes(controller.Profile.RunTimeLimitSeconds / 60)}.";
    }

    private IEnumerable<Sentence> Short(int minutes, double lpm, PlanStatus status, IReadOnlyList<SiteChange> freed)
    {
        if (minutes > 0)
        {
            yield return freed.OfType<MoreHours>().FirstOrDefault() is { } more && more.Minutes != minutes
                ? (Sentence)$"On the busiest day the permitted hours are short by at least {InWords.Minutes(minutes)}. Adding {InWords.Minutes(more.Minutes)} makes a plan possible."
                : (Sentence)$"On the busiest day the permitted hours are short by at least {InWords.Minutes(minutes)}.";
        }

        if (lpm > 0)
        {
            yield return $"Its flow is short by at least {InWords.Flow(site, lpm)}.";
        }

        if (minutes <= 0 && lpm <= 0)
        {
            yield return status == PlanStatus.Impossible
                ? "No choice of programs, dates and start times keeps within its permitted hours and flow on every date."
                : "No programs, dates and start times were found that keep within its permitted hours and flow on every date.";
        }

        if (!freed.OfType<MoreFlow>().Any())
        {
            yield return "More flow alone does not help, as far as was tested.";
        }
    }
}
