using Valvewright.Engine.Survey;
using Valvewright.Engine.Weather;

namespace Valvewright.Engine.Balance;

/// <summary>Follows one column of a zone through days of weather and irrigation (FAO-56 chapter 8, eq. 84 to 88).</summary>
/// <remarks>
/// The day by day reference: every part of the water counted. <see cref="Kernel.BalanceKernel"/> does the same sums in the same order for
/// many candidates at once.
/// </remarks>
public static class ZoneReplay
{
    /// <summary>Replays the low-quarter column.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="climate">Weather of the days.</param>
    /// <param name="appliedMm">Gross irrigation by step, mean over the zone, mm; the days before the climate's first included.</param>
    /// <param name="runoffMm">The part of it that runs off the surface; empty for none.</param>
    public static ZoneOutcome Run(Zone zone, Climate climate, ReadOnlySpan<double> appliedMm, ReadOnlySpan<double> runoffMm)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return Run(zone, ZoneDays.Of(zone, climate), appliedMm, runoffMm, zone.LowQuarterShare);
    }

    /// <summary>Replays a column that receives a share of the mean depth.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="days">Its days or hours.</param>
    /// <param name="appliedMm">Gross irrigation by step, mean over the zone, mm.</param>
    /// <param name="runoffMm">The part of it that runs off the surface, by step; empty for none.</param>
    /// <param name="share">What the column receives of the mean depth that reaches the ground.</param>
    /// <param name="startDepletionMm">Depletion before the first step, 0 to TAW.</param>
    public static ZoneOutcome Run(
        Zone zone, ZoneDays days, ReadOnlySpan<double> appliedMm, ReadOnlySpan<double> runoffMm, double share, double startDepletionMm = 0)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(days);
        if (appliedMm.Length != days.Steps || (!runoffMm.IsEmpty && runoffMm.Length != days.Steps))
        {
            throw new ArgumentException(
                $"{days.Steps} steps of weather, but {appliedMm.Length} of irrigation and {runoffMm.Length} of runoff.");
        }

        double part = share * (1 - zone.Emission.ApplicationLossFraction) * (1 - zone.LeachingFraction), reachedMm = 0;
        RootZone root = RootZone.Of(zone);
        SpotStore column = new(root, startDepletionMm), before = column;
        int dry = 0, longest = 0, dryDays = 0;
        for (int step = 0; step < days.Steps; step++)
        {
            before = step == days.Lead ? column : before;
            double net = (appliedMm[step] - (runoffMm.IsEmpty ? 0 : runoffMm[step])) * part;
            column.Step(days, step, net);
            if (step >= days.Lead)
            {
                reachedMm += net;
                bool isDry = column.LeftMm < root.TotalMm - days.ReadilyMm[Math.Min(step + 1, days.Steps - 1)] - 1e-9;
                dryDays += isDry ? 1 : 0;
                dry = isDry ? dry + 1 : 0;
                longest = Math.Max(longest, dry);
            }
        }

        return new ZoneOutcome
        {
            Days = days.Days,
            AppliedMm = days.Sum(appliedMm),
            RunoffMm = days.Sum(runoffMm),
            ReachedMm = reachedMm,
            RainInMm = days.Sum(days.RainInMm) + days.Sum(days.WantedMm) - days.Sum(days.RootUseMm),
            DrainageMm = column.DrainageMm - before.DrainageMm,
            DemandMm = days.DemandMm,
            UseMm = column.UseMm - before.UseMm,
            UnmetMm = column.UnmetMm - before.UnmetMm,
            LeafLossMm = column.LeafLossMm - before.LeafLossMm,
            DryDays = dryDays / days.StepsPerDay,
            LongestDryDays = longest / days.StepsPerDay,
            StoreChangeMm = column.LeftMm - before.LeftMm,
        };
    }
}
