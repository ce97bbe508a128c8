using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Balance;

/// <summary>Adequacy and excess as the climatological controller test of the Irrigation Association (SWAT protocol) defines them; not
/// checked against the printed source.</summary>
/// <remarks>
/// The protocol keeps one figure a zone, the moisture balance: it starts full at the root zone's working storage; rain and net irrigation
/// are added, crop use is taken off; what would go above the storage is surplus, what would go below nothing is deficit. Adequacy = (use -
/// deficit) / use; excess = scheduling losses (runoff of irrigation and surplus from irrigation) / use.
/// </remarks>
public static class SwatProtocol
{
    /// <summary>A zone passes from this adequacy on (WaterSense, not checked against the printed source).</summary>
    public const double LeastAdequacy = 0.80;

    /// <summary>Keeps the protocol's balance.</summary>
    /// <param name="workingStorageMm">What the root zone holds that may be used (for a surveyed zone: RAW).</param>
    /// <param name="useMm">Crop use, by step.</param>
    /// <param name="rainInMm">Rain that sinks in, by step.</param>
    /// <param name="irrigationInMm">Net irrigation that sinks in, by step.</param>
    /// <param name="runoffMm">Irrigation that ran off, by step, net like the irrigation; empty for none.</param>
    /// <exception cref="ArgumentException">The series differ in length.</exception>
    public static SwatScore Score(
        double workingStorageMm,
        ReadOnlySpan<double> useMm,
        ReadOnlySpan<double> rainInMm,
        ReadOnlySpan<double> irrigationInMm,
        ReadOnlySpan<double> runoffMm)
    {
        if (useMm.Length != rainInMm.Length || useMm.Length != irrigationInMm.Length
            || (!runoffMm.IsEmpty && useMm.Length != runoffMm.Length))
        {
            throw new ArgumentException(
                $"{useMm.Length} steps of use, {rainInMm.Length} of rain, {irrigationInMm.Length} of irrigation, {runoffMm.Length} of runoff.");
        }

        double balance = workingStorageMm, use = 0, deficit = 0, surplus = 0, runoff = 0;
        for (int step = 0; step < useMm.Length; step++)
        {
            double after = balance + rainInMm[step] + irrigationInMm[step] - useMm[step];
            surplus += Math.Min(Math.Max(after - workingStorageMm, 0), irrigationInMm[step]);
            deficit += Math.Max(-after, 0);
            balance = Math.Clamp(after, 0, workingStorageMm);
            use += useMm[step];
            runoff += runoffMm.IsEmpty ? 0 : runoffMm[step];
        }

        return new SwatScore(use, deficit, surplus, runoff);
    }

    /// <summary>The same for the low quarter of a surveyed zone.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="days">Its days or hours.</param>
    /// <param name="appliedMm">Gross irrigation by step, mean over the zone.</param>
    /// <param name="runoffMm">The part of it that ran off; empty for none.</param>
    public static SwatScore Score(Zone zone, ZoneDays days, ReadOnlySpan<double> appliedMm, ReadOnlySpan<double> runoffMm)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(days);
        double part = zone.ReachingShare;
        double[] netIn = new double[days.Steps - days.Lead], netOff = new double[runoffMm.IsEmpty ? 0 : netIn.Length];
        for (int step = 0; step < netIn.Length; step++)
        {
            double ran = runoffMm.IsEmpty ? 0 : runoffMm[days.Lead + step];
            netIn[step] = (appliedMm[days.Lead + step] - ran) * part;
            if (netOff.Length > 0)
            {
                netOff[step] = ran * part;
            }
        }

        return Score(RootZone.Of(zone).ReadilyMm, days.WantedMm.AsSpan(days.Lead), days.RainInMm.AsSpan(days.Lead), netIn, netOff);
    }
}

/// <summary>How a zone or spot did by the SWAT protocol; depths over all steps, mm.</summary>
/// <param name="UseMm">Crop use when nothing is lacking.</param>
/// <param name="DeficitMm">The part of it that was not met.</param>
/// <param name="SurplusMm">Irrigation beyond what the root zone could hold.</param>
/// <param name="RunoffMm">Irrigation that ran off.</param>
public readonly record struct SwatScore(double UseMm, double DeficitMm, double SurplusMm, double RunoffMm)
{
    /// <summary>The part of the use that was met, 0 to 1; 1 where there was none.</summary>
    public double Adequacy => UseMm > 0 ? (UseMm - DeficitMm) / UseMm : 1;

    /// <summary>Losses of irrigation over use; infinite where water was lost and none was used.</summary>
    public double Excess => UseMm > 0 ? (SurplusMm + RunoffMm) / UseMm : SurplusMm + RunoffMm > 0 ? double.PositiveInfinity : 0;

    /// <summary>Sums of two, weighted alike.</summary>
    public static SwatScore operator +(SwatScore a, SwatScore b) =>
        new(a.UseMm + b.UseMm, a.DeficitMm + b.DeficitMm, a.SurplusMm + b.SurplusMm, a.RunoffMm + b.RunoffMm);

    /// <summary>Sums of two, weighted alike.</summary>
    public static SwatScore Add(SwatScore left, SwatScore right) => left + right;
}
