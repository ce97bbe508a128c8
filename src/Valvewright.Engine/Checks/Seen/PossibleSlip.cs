using Valvewright.Engine.Readings;

namespace Valvewright.Engine.Checks.Seen;

/// <summary>A slip that a person may have made.</summary>
/// <param name="About">The part of the controller that it touches.</param>
/// <param name="Program">The program; null for the whole controller.</param>
/// <param name="Weight">How common it is compared with the others.</param>
/// <param name="Make">What the controller holds once it is made.</param>
/// <param name="HoldSinceDays">For a rain delay: how long it has been in force; else 0.</param>
internal sealed record PossibleSlip(ReadPart About, char? Program, double Weight, Func<AsFound, AsFound> Make, int HoldSinceDays = 0)
{
    /// <summary>Two slips on the same part are one.</summary>
    public bool Touches(PossibleSlip other) => About == other.About && Program == other.Program;
}
