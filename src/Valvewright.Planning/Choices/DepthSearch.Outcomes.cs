namespace Valvewright.Planning.Choices;

/// <summary>What a zone would get, month by month, on given watering days, if a percent could be set to suit it every month.</summary>
/// <param name="MonthMm">Gross depth per watering day, January first; 0 is off.</param>
/// <param name="WaterMm">Gross water of a mean year.</param>
/// <param name="UnmetMm">Unmet use of a mean year.</param>
/// <param name="Waterings">Watering days of a mean year.</param>
internal sealed record MonthlyDepths(double[] MonthMm, double WaterMm, double UnmetMm, double Waterings)
{
    /// <summary>The depth of the month that asks most.</summary>
    public double LargestMm => MonthMm.Max();
}

/// <summary>What depths amount to on the full balance.</summary>
internal sealed partial class DepthSearch
{
    /// <summary>So few waterings per year are not worth a run time.</summary>
    private const int FewWaterings = 3;

    private static readonly double[] Whole = [1];
    private double[,] unmetRoom = new double[0, 0];

    /// <summary>Whether rain and soil carry the zone: never watered, its unmet use weighs less than a few useful waterings per
    /// year.</summary>
    /// <param name="leastMm">The least that is worth giving at a time, gross mm.</param>
    public bool DoesWithout(double leastMm)
    {
        lock (gate)
        {
            double[][] never = [.. years.Select(y => new double[y.Steps])];
            MonthlyDepths none = Outcome(never, new double[Months]);
            return ShortMm(none.UnmetMm) <= 0 && weight * none.UnmetMm <= FewWaterings * leastMm;
        }
    }

    private MonthlyDepths Outcome(double[][] watered, double[] depths) => Outcomes(watered, depths, Whole)[0];

    private MonthlyDepths[] Outcomes(double[][] watered, double[] depths, double[] parts)
    {
        double[][] shares = new double[years.Length][];
        int waterings = 0;
        for (int year = 0; year < years.Length; year++)
        {
            double[] own = watered[year], days = shares[year] = new double[own.Length];
            int[] months = dates.Months[year];
            for (int step = 0; step < days.Length; step++)
            {
                if (own[step] > 0 && depths[months[step]] > 0)
                {
                    days[step] = own[step] * depths[months[step]];
                    waterings += step >= years[year].Lead ? 1 : 0;
                }
            }
        }

        (double[] water, double[] unmet) = ReplayShares(shares, parts);
        return [.. parts.Select((part, i) => new MonthlyDepths(
            [.. depths.Select(d => d * part)], water[i], unmet[i], (double)waterings / years.Length))];
    }

    private (double[] WaterMm, double[] UnmetMm) ReplayShares(double[][] shares, double[] candidates)
    {
        if (unmetRoom.GetLength(1) != candidates.Length)
        {
            unmetRoom = new double[years.Length, candidates.Length];
        }

        double[,] unmet = unmetRoom;
        replay.Run(shares, candidates, unmet);
        double waterings = Enumerable.Range(0, years.Length).Average(y => years[y].Sum(shares[y]));
        return ([.. candidates.Select(c => c * waterings)],
            [.. candidates.Select((_, c) => Enumerable.Range(0, years.Length).Average(y => unmet[y, c]))]);
    }
}
