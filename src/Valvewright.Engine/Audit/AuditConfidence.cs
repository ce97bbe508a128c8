using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Audit;

/// <summary>An interval that holds the true value in 19 of 20 audits, as far as the cans can tell.</summary>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
public sealed record Interval95(double Low, double High)
{
    /// <summary>Half of its width.</summary>
    public double HalfWidth => (High - Low) / 2;
}

/// <summary>How well an audit knows uniformity and rate, from the number of its cans and their scatter.</summary>
/// <param name="LowQuarterUniformity">Interval of the low-quarter uniformity.</param>
/// <param name="NetRateMmPerHour">Interval of the net rate.</param>
/// <param name="MoreCans">What more cans would buy: expected half width of the uniformity's interval by number of cans.</param>
public sealed record AuditConfidence(Interval95 LowQuarterUniformity, Interval95 NetRateMmPerHour, ListOf<CansAndWidth> MoreCans)
{
    private const int Draws = 2000;
    private static readonly int[] UsualCounts = [16, 24, 32, 48, 64, 96];

    /// <summary>Draws cans again and again, with replacement (bootstrap; Efron 1979, Annals of Statistics 7, 1-26), from a fixed
    /// seed.</summary>
    /// <remarks>
    /// The ends are at 2.5 and 97.5% of the draws, moved by the bias of the draws: a draw repeats cans, so its low quarter comes out
    /// too low. Cans are taken as independent; under overlapping sprinklers, neighbors are alike, so the truth is a little wider.
    /// </remarks>
    public static AuditConfidence Of(CatchCans cans, ulong seed = 1)
    {
        ArgumentNullException.ThrowIfNull(cans);
        double[] readings = [.. cans.Readings];
        (double[] uniformity, double[] mean) = Drawn(readings, readings.Length, seed);
        double perReading = cans.MmPerReading * 60 / cans.Minutes;
        int[] counts = [.. UsualCounts.Where(n => n > readings.Length).Take(3)];
        return new AuditConfidence(
            Moved(uniformity, cans.LowQuarterUniformity),
            new Interval95(perReading * Quantile(mean, 0.025), perReading * Quantile(mean, 0.975)),
            counts.Select(n => new CansAndWidth(
                n, Moved(Drawn(readings, n, seed).Uniformity, cans.LowQuarterUniformity).HalfWidth)).ToListOf());
    }

    private static (double[] Uniformity, double[] Mean) Drawn(double[] readings, int count, ulong seed)
    {
        SeededDraws draws = new(seed);
        double[] uniformity = new double[Draws], mean = new double[Draws];
        double[] drawn = new double[count];
        for (int draw = 0; draw < Draws; draw++)
        {
            for (int i = 0; i < count; i++) drawn[i] = readings[draws.Below(readings.Length)];
            mean[draw] = drawn.Average();
            uniformity[draw] = mean[draw] > 0 ? LowQuarter.MeanOf(drawn) / mean[draw] : 1;
        }

        Array.Sort(uniformity);
        Array.Sort(mean);
        return (uniformity, mean);
    }

    private static Interval95 Moved(double[] sorted, double value)
    {
        double bias = sorted.Average() - value;
        return new Interval95(Math.Max(0, Quantile(sorted, 0.025) - bias), Math.Min(1, Quantile(sorted, 0.975) - bias));
    }

    private static double Quantile(double[] sorted, double share) => sorted[(int)Math.Round(share * (sorted.Length - 1))];
}

/// <summary>How narrow an interval becomes with a number of cans.</summary>
/// <param name="Cans">Number of cans.</param>
/// <param name="HalfWidth">Half width of the uniformity's interval.</param>
public sealed record CansAndWidth(int Cans, double HalfWidth);
