using Valvewright.Engine.Values;

namespace Valvewright.Engine.Sprinklers;

/// <summary>Spots from a distribution fitted to a distribution uniformity, where no cans were set out.</summary>
/// <remarks>
/// Depths under overlapping sprinklers are close to normal (Hart, W. E. (1961), Agricultural Engineering 42, 354-355: from
/// memory). Twelve spots of equal area stand at the midpoints of twelve equal slices of the distribution. Their
/// spread is set so that the mean of the lowest three over the mean of all is the stated uniformity, exactly, and the mean is 1.
/// Below <see cref="LeastNormal"/> a normal would make the driest spots negative; there a log-normal takes its place.
/// </remarks>
public static class FittedSpots
{
    /// <summary>How many spots a zone without cans has.</summary>
    public const int Count = 12;

    /// <summary>The lowest uniformity that is fitted with a normal distribution.</summary>
    public const double LeastNormal = 0.4;

    // Standard normal quantiles at (i - 1/2) / 12, upper half; the lower half mirrors them. Checked against Math.NET in the tests.
    private static readonly double[] UpperQuantiles =
        [0.10463345561407539, 0.3186393639643752, 0.5485222826980894, 0.8122178014999127, 1.1503493803760079, 1.7316643961222453];

    /// <summary>The quantiles used, rising.</summary>
    public static ListOf<double> Quantiles { get; } = [.. UpperQuantiles.Reverse().Select(z => -z), .. UpperQuantiles];

    /// <summary>The spots of a zone of that low-quarter uniformity.</summary>
    /// <param name="lowQuarterUniformity">Above 0, at most 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">It is not a uniformity.</exception>
    public static SpotShares Of(double lowQuarterUniformity)
    {
        if (!(lowQuarterUniformity > 0 && lowQuarterUniformity <= 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(lowQuarterUniformity), lowQuarterUniformity, "A low-quarter uniformity is above 0 and at most 1.");
        }

        bool normal = lowQuarterUniformity >= LeastNormal;
        double[] shares = normal ? Normal(lowQuarterUniformity) : LogNormal(lowQuarterUniformity);
        return new SpotShares(
            shares.ToListOf(),
            Enumerable.Repeat(1.0 / Count, Count).ToListOf(),
            $"{Count} spots of a {(normal ? "normal" : "log-normal")} distribution with low-quarter uniformity {100 * lowQuarterUniformity:0.#}%");
    }

    private static double[] Normal(double uniformity)
    {
        double spread = (1 - uniformity) / -LowQuarter.MeanOf(Quantiles);
        return [.. Quantiles.Select(z => 1 + (spread * z))];
    }

    private static double[] LogNormal(double uniformity)
    {
        double low = 0;
        double high = 20;
        for (int step = 0; step < 200; step++)
        {
            double middle = (low + high) / 2;
            if (LowQuarter.MeanOf(LogNormalOf(middle)) > uniformity) low = middle;
            else high = middle;
        }

        return LogNormalOf((low + high) / 2);
    }

    private static double[] LogNormalOf(double sigma)
    {
        double mean = Quantiles.Average(z => Math.Exp(sigma * z));
        return [.. Quantiles.Select(z => Math.Exp(sigma * z) / mean)];
    }
}
