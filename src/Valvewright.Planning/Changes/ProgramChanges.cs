using Valvewright.Engine.Checks;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Values;

namespace Valvewright.Planning.Changes;

/// <summary>The best programs within 1, 2, 3, ... changed settings of those that a site has, and those of a plan made from
/// nothing.</summary>
/// <param name="Found">The programs that the site has, 0 changes.</param>
/// <param name="Steps">By rising number of changes; a number that saves nothing more is left out.</param>
/// <param name="Replanned">A plan made from nothing, set over what is there; null where there is none.</param>
public sealed record ProgramChanges(ChangedPrograms Found, ListOf<ChangedPrograms> Steps, ChangedPrograms? Replanned)
{
    /// <summary>The best within so many changes; null where none keeps every rule.</summary>
    public ChangedPrograms? Within(int changes) =>
        Steps.LastOrDefault(s => s.Changes.Count <= changes) ?? (Found.KeepsRules ? Found : null);

    /// <summary>The part of what all changes save that some programs save already; 1 where there is nothing to save.</summary>
    public double PartOf(ChangedPrograms some)
    {
        ArgumentNullException.ThrowIfNull(some);
        double least = Steps.Append(Found).Min(s => s.CostLitres);
        return Found.CostLitres > least ? (Found.CostLitres - some.CostLitres) / (Found.CostLitres - least) : 1;
    }

    /// <summary>The fewest changes that save most of what can be saved.</summary>
    public ChangedPrograms? Fewest
    {
        get
        {
            const double Most = 0.9;
            return Steps.FirstOrDefault(s => PartOf(s) >= Most) ?? (Found.KeepsRules ? Found : Steps.Count > 0 ? Steps[^1] : null);
        }
    }
}

/// <summary>Programs some changes away from those that a site has.</summary>
/// <param name="Changes">What to set, one setting each.</param>
/// <param name="Plan">The programs, with the visits that the site has.</param>
/// <param name="WaterLitres">Water of a mean year.</param>
/// <param name="UnmetLitres">Use that is not met, over the zones' areas.</param>
/// <param name="CostLitres">Water, weighed unmet use, and what zones lack of the use they must have met.</param>
/// <param name="KeepsRules">Whether no rule of the proof is broken on the calendar of its years.</param>
public sealed record ChangedPrograms(ListOf<ControllerChange> Changes, Plan Plan, double WaterLitres, double UnmetLitres, double CostLitres,
    bool KeepsRules);

/// <summary>A setting of one controller to set.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Change">What to set.</param>
public sealed record ControllerChange(string Controller, KeyChange Change);
