using Valvewright.Engine.Checks;
using Valvewright.Engine.Plans;
using Valvewright.Engine.Proof;
using Valvewright.Engine.Words;

namespace Valvewright.Records.Jobs;

/// <summary>What was read off one controller, from which its programs are taken.</summary>
/// <param name="Controller">The controller's name.</param>
/// <param name="Text">The reading, in any form that is understood.</param>
/// <param name="ReadOn">The date on which it was read, from which days left count; the day of the request when not given.</param>
public sealed record FoundReading(string Controller, string Text, LocalDate? ReadOn = null);

/// <summary>Programs that a site has, proven, and the best within few changed settings. Nothing of it is in the store: what is wanted is
/// sent as a plan.</summary>
/// <param name="Years">Which years were planned with and proven on.</param>
/// <param name="From">First date on which the programs are in force.</param>
/// <param name="NotRead">Controllers whose programs are those of the plan that was named.</param>
/// <param name="Assumed">What was taken as so because the readings do not say.</param>
/// <param name="Found">The programs that the site has.</param>
/// <param name="FoundVerdict">What their proof says.</param>
/// <param name="Steps">The best within 1, 2, 3, ... changes; a number that saves nothing more is left out.</param>
/// <param name="Replanned">A plan made from nothing, to compare with; null where there is none.</param>
/// <param name="Chosen">What to set: how many of <paramref name="Steps"/>' changes, 0 for none; null where nothing within the changes
/// asked for keeps every rule.</param>
/// <param name="Verdict">What the proof of the chosen programs says; null without them.</param>
public sealed record ProgramsFound(string Years, LocalDate From, ListOf<string> NotRead, ListOf<SentenceParts> Assumed, FoundStep Found,
    Verdict FoundVerdict, ListOf<FoundStep> Steps, FoundStep? Replanned, int? Chosen, Verdict? Verdict);

/// <summary>Programs some changed settings away from those that a site has.</summary>
/// <param name="Changes">What to set, one setting each.</param>
/// <param name="Plan">The programs.</param>
/// <param name="WaterM3">Water of a mean year, m3; null where it was not worked out.</param>
/// <param name="UnmetM3">Use that is not met, over the zones' areas, m3.</param>
/// <param name="Saved">The part of what all changes save that these save, 0 to 1.</param>
/// <param name="KeepsRules">Whether no rule is broken.</param>
public sealed record FoundStep(ListOf<FoundChange> Changes, Plan Plan, double? WaterM3, double? UnmetM3, double? Saved, bool KeepsRules);

/// <summary>A setting of one controller to set.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Change">What to set.</param>
public sealed record FoundChange(string Controller, KeyChange Change);
