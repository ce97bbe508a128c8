using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof;

/// <summary>What the proof comes to.</summary>
/// <param name="RulesKept">No rule is broken.</param>
/// <param name="ZonesServed">The low quarter of every zone had what its quality asks for.</param>
/// <param name="Reasons">Why not, a sentence each; empty when both hold.</param>
public sealed record Verdict(bool RulesKept, bool ZonesServed, ListOf<string> Reasons)
{
    /// <summary>Whether the plan passes.</summary>
    public bool Passed => RulesKept && ZonesServed;
}
