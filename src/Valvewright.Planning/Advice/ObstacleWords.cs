using Valvewright.Engine.Survey;
using Valvewright.Planning.Choices;

namespace Valvewright.Planning;

/// <summary>Says in one or two sentences why there is no plan.</summary>
internal sealed class ObstacleWords(Site site, string supply, ControllerCase[] controllers)
{
    /// <param name="minutes">Permitted minutes that are missing on the busiest day, at least.</param>
    /// <param name="lpm">Flow that is missing, at least.</param>
    /// <param name="status">How far it is proven that there is no plan.</param>
    /// <param name="freed">Changes that free the supply.</param>
    public string Sentence(int minutes, double lpm, PlanStatus status, IReadOnlyList<SiteChange> freed) => ZoneThatCannotBeKept() ?? Short(minutes, lpm, status, freed);

    private string? ZoneThatCannotBeKept()
    {
        foreach (ControllerCase controller in controllers)
        {
            string name = controller.Controller.Name;
            foreach (ZoneCase zone in controller.Zones.Where(z => z.Choices.Count == 0 && z.Lesser.Count == 0))
            {
                int starts = controller.Profile.StartTimesPerProgram;
                return zone.IsSeedbed && zone.FewestWateringsPerDay > starts
                    ? $"{zone.Zone.Name} on {name} is a seedbed that wants {zone.FewestWateringsPerDay} waterings every day, and a program holds {starts} start times."
                    : zone.FlowTenths > controller.Supply.FlowLpm * 10
                        ? $"{zone.Zone.Name} on {name} draws {InWords.Flow(site, zone.Zone.Emission.FlowLpm)} and {supply} gives {InWords.Flow(site, controller.Supply.FlowLpm)}."
                        : $"{zone.Zone.Name} on {name} cannot be kept from stress on any water days that {name} offers and {supply} permits: longest cycle {(zone.Need.LongestCycleSeconds is { } s ? InWords.Minutes(s / 60) : "any length")}, {starts} start times, run times up to {InWords.Minutes(controller.Profile.RunTimeLimitSeconds / 60)}.";
            }
        }

        return null;
    }

    private string Short(int minutes, double lpm, PlanStatus status, IReadOnlyList<SiteChange> freed)
    {
        List<string> said = [];
        if (minutes > 0)
        {
            string enough = freed.OfType<MoreHours>().FirstOrDefault() is { } more ? more.Minutes == minutes ? "" : $"; {InWords.Minutes(more.Minutes)} more are enough" : "";
            said.Add($"on the busiest day the permitted hours are at least {InWords.Minutes(minutes)} too few{enough}.");
        }

        if (lpm > 0)
        {
            said.Add($"it gives at least {InWords.Flow(site, lpm)} too little at once.");
        }

        if (said.Count == 0)
        {
            said.Add(status == PlanStatus.Impossible
                ? "no choice of programs, dates and start times keeps within its permitted hours and flow on every date."
                : "no programs, dates and start times were found that keep within its permitted hours and flow on every date.");
        }

        if (!freed.OfType<MoreFlow>().Any())
        {
            said.Add("more flow alone was not found to help.");
        }

        return string.Join(' ', said.Select(s => char.ToUpperInvariant(s[0]) + s[1..]));
    }
}
