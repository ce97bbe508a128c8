using Valvewright.Engine.Balance;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Proof;

/// <summary>What the proof comes to.</summary>
/// <param name="RulesKept">No rule is broken.</param>
/// <param name="ZonesServed">Every spot of every zone had enough.</param>
/// <param name="Reasons">Why not, a sentence each; empty when both hold.</param>
public sealed record Verdict(bool RulesKept, bool ZonesServed, ListOf<string> Reasons)
{
    /// <summary>The part of its demand that every spot must have met.</summary>
    /// <remarks>
    /// 80 % is what WaterSense asks of a zone and what research took as acceptable (Davis and Dukes), there as a zone's mean; here every
    /// spot must reach it, so that a wet corner can't make up for a dry one.
    /// </remarks>
    public const double LeastAdequacy = SwatProtocol.LeastAdequacy;

    /// <summary>Whether the plan holds.</summary>
    public bool Passed => RulesKept && ZonesServed;
}
