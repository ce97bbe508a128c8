namespace Valvewright.Planning.Choices;

/// <summary>One way to water one zone: on these days, in so many cycles, for so long a cycle.</summary>
/// <param name="Days">The spread of water days.</param>
/// <param name="Cycles">Start times a water day.</param>
/// <param name="RunSeconds">Run time of each cycle.</param>
/// <param name="StressDays">Spot-days of stress a year that the kept training years stay within.</param>
/// <param name="ExcessStress">What of it is beyond the tolerated, in hundredths of a spot-day; 0 when the need is met.</param>
/// <param name="LitresPerYear">Water applied in a mean training year.</param>
internal sealed record Choice(WaterDays Days, int Cycles, int RunSeconds, double StressDays, long ExcessStress, long LitresPerYear);
