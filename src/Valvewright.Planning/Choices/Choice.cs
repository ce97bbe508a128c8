namespace Valvewright.Planning.Choices;

/// <summary>One way to water one zone: on these days, in so many cycles, for so long a cycle.</summary>
/// <param name="Days">The spread of watering days.</param>
/// <param name="Cycles">Start times on a watering day.</param>
/// <param name="RunSeconds">Run time of each cycle at 100 %.</param>
/// <param name="UseMet">The part of the low quarter's use that it meets in the mean of the training years, with a percent set to suit every
/// month.</param>
/// <param name="Shortfall">What is lacking of the use that must be met, L per year; 0 when the need is met.</param>
/// <param name="CostLitres">Water, weighed unmet use and a price on pulses, L per year.</param>
/// <param name="WaterLitres">Water of it.</param>
internal sealed record Choice(WaterDays Days, int Cycles, int RunSeconds, double UseMet, long Shortfall, long CostLitres, long WaterLitres);
