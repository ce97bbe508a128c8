using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Balance;

/// <summary>Follows the root zone of every spot of a zone through days of weather and irrigation (FAO-56 chapter 8, eq. 84 to 88).</summary>
/// <remarks>
/// The day by day reference: one spot after another, every part of the water counted. <see cref="BalanceKernel"/> does the same sums
/// in the same order for many spots and candidates at once.
/// </remarks>
public static class ZoneReplay
{
    /// <summary>Replays a zone whose spots all start at field capacity.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="climate">Weather of the days.</param>
    /// <param name="appliedMm">Gross irrigation by day, mean over the zone, mm; one value a day of the climate.</param>
    /// <param name="runoffMm">The part of it that runs off the surface; empty for none.</param>
    public static ZoneOutcome Run(Zone zone, Climate climate, ReadOnlySpan<double> appliedMm, ReadOnlySpan<double> runoffMm) =>
        Run(zone, ZoneDays.Of(zone, climate), appliedMm, runoffMm, startDepletionMm: 0);

    /// <summary>Replays a zone through days, or hours, worked out before.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="days">Its days.</param>
    /// <param name="appliedMm">Gross irrigation by step, mean over the zone, mm.</param>
    /// <param name="runoffMm">The part of it that runs off the surface, by step; empty for none.</param>
    /// <param name="startDepletionMm">Depletion of every spot before the first day, 0 to TAW.</param>
    public static ZoneOutcome Run(
        Zone zone, ZoneDays days, ReadOnlySpan<double> appliedMm, ReadOnlySpan<double> runoffMm, double startDepletionMm)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(days);
        if (appliedMm.Length != days.Steps || (!runoffMm.IsEmpty && runoffMm.Length != days.Steps))
        {
            throw new ArgumentException($"{days.Steps} steps of weather, but {appliedMm.Length} of irrigation and {runoffMm.Length} of runoff.");
        }

        ReadOnlySpan<double> share = zone.Emission.Spots.Share.AsSpan();
        ReadOnlySpan<double> weight = zone.Emission.Spots.Weight.AsSpan();
        double reaching = 1 - zone.Emission.ApplicationLossFraction;
        double drainage = 0, use = 0, stress = 0, worst = 0, store = 0;
        RootZone root = RootZone.Of(zone);
        for (int spot = 0; spot < share.Length; spot++)
        {
            SpotStore water = new(root, startDepletionMm);
            for (int step = 0; step < days.Steps; step++)
            {
                double ran = runoffMm.IsEmpty ? 0 : runoffMm[step];
                water.Step(days.RainInMm[step] + (appliedMm[step] - ran) * (share[spot] * reaching), days.WantedMm[step]);
            }

            drainage += weight[spot] * water.DrainageMm;
            use += weight[spot] * water.UseMm;
            stress += weight[spot] * water.StressSteps / days.StepsPerDay;
            worst = Math.Max(worst, water.StressSteps / days.StepsPerDay);
            store += weight[spot] * (startDepletionMm - water.DepletionMm);
        }

        double rain = Sum(days.Climate.RainMm);
        return new ZoneOutcome
        {
            Days = days.Days,
            AppliedMm = Sum(appliedMm),
            RunoffMm = Sum(runoffMm),
            RainMm = rain,
            RainRunoffMm = rain - Sum(days.RainInMm),
            DrainageMm = drainage,
            DemandMm = Sum(days.WantedMm),
            UseMm = use,
            StressDays = stress,
            WorstSpotStressDays = worst,
            StoreChangeMm = store,
        };
    }

    private static double Sum(ReadOnlySpan<double> values)
    {
        double sum = 0;
        foreach (double value in values)
        {
            sum += value;
        }

        return sum;
    }
}
