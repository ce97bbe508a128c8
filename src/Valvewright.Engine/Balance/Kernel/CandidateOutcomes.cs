using Valvewright.Engine.Sprinklers;

namespace Valvewright.Engine.Balance.Kernel;

/// <summary>What became of every candidate in every year; depths are means over the zone's area, mm in the year.</summary>
public sealed class CandidateOutcomes
{
    private readonly int spots;
    private readonly double[] grossMm;

    internal CandidateOutcomes(int spots, int years, int candidates)
    {
        this.spots = spots;
        Years = years;
        Candidates = candidates;
        grossMm = new double[candidates];
        Lanes = new BalanceLanes[years];
        double[] waterMm = new double[BalanceLanes.LengthFor(spots * candidates)];
        for (int year = 0; year < years; year++)
        {
            Lanes[year] = new BalanceLanes(spots * candidates, waterMm);
        }

        AppliedMm = new double[years, candidates];
        DrainageMm = new double[years, candidates];
        UseMm = new double[years, candidates];
        StressDays = new double[years, candidates];
        WorstSpotStressDays = new double[years, candidates];
    }

    /// <summary>Years replayed.</summary>
    public int Years { get; }

    /// <summary>Candidates replayed.</summary>
    public int Candidates { get; }

    /// <summary>Gross irrigation, by year and candidate.</summary>
    public double[,] AppliedMm { get; }

    /// <summary>Drainage below the root zone, by year and candidate.</summary>
    public double[,] DrainageMm { get; }

    /// <summary>What the plants used, by year and candidate.</summary>
    public double[,] UseMm { get; }

    /// <summary>Days past allowed depletion weighted by depth, mean over spots by area, by year and candidate.</summary>
    public double[,] StressDays { get; }

    /// <summary>The same for the driest spot.</summary>
    public double[,] WorstSpotStressDays { get; }

    /// <summary>One set of lanes a year: candidates side by side, spot after spot; all share one array of water.</summary>
    internal BalanceLanes[] Lanes { get; }

    /// <summary>Mean over the years of one of the figures, for a candidate.</summary>
    public double MeanOf(double[,] figure, int candidate)
    {
        ArgumentNullException.ThrowIfNull(figure);
        double sum = 0;
        for (int year = 0; year < Years; year++)
        {
            sum += figure[year, candidate];
        }

        return sum / Years;
    }

    /// <summary>Gives every lane its candidate's depth at its spot.</summary>
    internal void Spread(ReadOnlySpan<double> candidateMm, Emission emission)
    {
        candidateMm.CopyTo(grossMm);
        ReadOnlySpan<double> share = emission.Spots.Share.AsSpan();
        double reaching = 1 - emission.ApplicationLossFraction;
        for (int spot = 0; spot < spots; spot++)
        {
            for (int candidate = 0; candidate < Candidates; candidate++)
            {
                Lanes[0].WaterMm[spot * Candidates + candidate] = grossMm[candidate] * (share[spot] * reaching);
            }
        }
    }

    /// <summary>Reads a year's outcomes off its lanes; what was used follows from the mass balance.</summary>
    internal void Gather(int year, RootZone root, ZoneDays days, ReadOnlySpan<double> shares, Emission emission, double startDepletionMm)
    {
        ReadOnlySpan<double> weight = emission.Spots.Weight.AsSpan();
        double waterings = 0, rain = 0;
        for (int step = 0; step < shares.Length; step++)
        {
            waterings += shares[step];
            rain += days.RainInMm[step];
        }

        BalanceLanes lanes = Lanes[year];
        for (int candidate = 0; candidate < Candidates; candidate++)
        {
            double drainage = 0, use = 0, stress = 0, worst = 0;
            for (int spot = 0; spot < spots; spot++)
            {
                int lane = spot * Candidates + candidate;
                double spotStress = lanes.StressSteps[lane] / days.StepsPerDay;
                double spotWater = rain + waterings * lanes.WaterMm[lane];
                drainage += weight[spot] * lanes.DrainageMm[lane];
                use += weight[spot] * (spotWater - lanes.DrainageMm[lane] + lanes.DepletionMm[lane] - startDepletionMm);
                stress += weight[spot] * spotStress;
                worst = Math.Max(worst, spotStress);
            }

            AppliedMm[year, candidate] = waterings * grossMm[candidate];
            DrainageMm[year, candidate] = drainage;
            UseMm[year, candidate] = use;
            StressDays[year, candidate] = stress;
            WorstSpotStressDays[year, candidate] = worst;
        }
    }
}
