using NodaTime;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Balance.Kernel;

/// <summary>
/// Replays the low-quarter column of a zone under many depths of water at once, over several years. Runoff of irrigation is not in it:
/// candidates are taken to respect cycle and soak.
/// </summary>
public sealed class CandidateReplay
{
    private readonly ZoneDays[] years;
    private readonly RootZone root;
    private readonly double reaching;

    /// <summary>Prepares a zone for years of weather.</summary>
    public CandidateReplay(Zone zone, IReadOnlyList<ZoneDays> years)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(years);
        (Zone, root, reaching) = (zone, RootZone.Of(zone), zone.ReachingShare);
        this.years = [.. years];
    }

    /// <summary>The zone.</summary>
    public Zone Zone { get; }

    /// <summary>How many years are replayed.</summary>
    public int Years => years.Length;

    /// <summary>The days of a year as the zone feels them.</summary>
    public ZoneDays DaysOf(int year) => years[year];

    /// <summary>By year and step, the part of a candidate's depth that falls: 0 without watering. With hourly steps all of it falls in the
    /// first hour.</summary>
    public double[][] SharesOf(Func<LocalDate, double> shareOfDepth)
    {
        ArgumentNullException.ThrowIfNull(shareOfDepth);
        return [.. years.Select(y => Enumerable.Range(0, y.Steps)
            .Select(s => y.StepsPerDay == 1 || s % y.StepsPerDay == 0 ? shareOfDepth(y.DateOf(s)) : 0).ToArray())];
    }

    /// <summary>Replays every candidate.</summary>
    /// <param name="shares">What <see cref="SharesOf"/> gave.</param>
    /// <param name="grossMm">Gross depth of a whole share of each candidate, mean over the zone, mm.</param>
    /// <param name="unmetMm">By year and candidate, use wanted and not met, mm: where the answer goes.</param>
    /// <param name="threads">How many threads share the work; the answer does not depend on it.</param>
    public void Run(double[][] shares, double[] grossMm, double[,] unmetMm, int threads = 1)
    {
        ArgumentNullException.ThrowIfNull(shares);
        ArgumentNullException.ThrowIfNull(grossMm);
        ArgumentNullException.ThrowIfNull(unmetMm);
        if (shares.Length != years.Length || unmetMm.GetLength(0) != years.Length || unmetMm.GetLength(1) != grossMm.Length)
        {
            throw new ArgumentException(
                $"{grossMm.Length} depths and {shares.Length} years of shares, but room for {unmetMm.GetLength(1)} depths in {unmetMm.GetLength(0)} years.");
        }

        if (threads <= 1)
        {
            for (int year = 0; year < years.Length; year++)
            {
                RunYear(year, shares[year], grossMm, unmetMm);
            }
        }
        else
        {
            Parallel.For(0, years.Length, new ParallelOptions { MaxDegreeOfParallelism = threads }, year =>
                RunYear(year, shares[year], grossMm, unmetMm));
        }
    }

    private void RunYear(int year, double[] shares, double[] grossMm, double[,] unmetMm)
    {
        BalanceLanes lanes = new(grossMm.Length);
        lanes.Reset(root.TotalMm);
        for (int candidate = 0; candidate < grossMm.Length; candidate++)
        {
            lanes.WaterMm[candidate] = grossMm[candidate] * reaching;
        }

        ZoneDays days = years[year];
        BalanceKernel.Run(root, days, 0, days.Lead, shares, lanes);
        lanes.ClearSums();
        BalanceKernel.Run(root, days, days.Lead, days.Steps, shares, lanes);
        for (int candidate = 0; candidate < grossMm.Length; candidate++)
        {
            unmetMm[year, candidate] = lanes.UnmetMm[candidate];
        }
    }
}
