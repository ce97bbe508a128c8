using Valvewright.Engine.Values;

namespace Valvewright.Engine.Checks;

/// <summary>A finding before its effect is known.</summary>
/// <param name="Because">What is wrong, without the times at which it shows.</param>
/// <param name="Outside">What it looks like from outside.</param>
internal sealed record Suspect(
    FindingKind Kind, Certainty Certainty, char? Program, ListOf<int> Stations, string Because, string Outside, ListOf<KeyChange> Mend);
