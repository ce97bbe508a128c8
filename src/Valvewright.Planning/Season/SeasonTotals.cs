namespace Valvewright.Planning.Season;

/// <summary>What settings amount to in a mean year, over zones: liters.</summary>
/// <param name="Water">Water applied.</param>
/// <param name="Unmet">Use not met, over the zones' areas.</param>
/// <param name="Weighed">The same, each zone's by its weight.</param>
/// <param name="Short">What zones lack of the use that they must have met.</param>
internal readonly record struct SeasonTotals(double Water, double Unmet, double Weighed, double Short)
{
    /// <summary>A liter that a zone lacks of the use it must have met weighs more than any water that could bring it.</summary>
    public const double ShortWeight = 25;

    /// <summary>A part of the use that is kept in hand: a plan must meet its goal in years it has not seen.</summary>
    private const double Margin = 0.01;

    /// <summary>
    /// The mean of others, half as many years as those known, lies within one standard deviation of theirs times the root of
    /// (1 + 2) / n; the goal is to be met there too.
    /// </summary>
    private const double YearsUnseen = 3;

    public static SeasonTotals operator +(SeasonTotals a, SeasonTotals b) =>
        new(a.Water + b.Water, a.Unmet + b.Unmet, a.Weighed + b.Weighed, a.Short + b.Short);

    /// <summary>The use that a zone may lack in a mean year, in the unit of its demand.</summary>
    public static double MostUnmet(double leastUseMet, double demand) => Math.Max(0, 1 - leastUseMet - Margin) * demand;

    /// <summary>One zone.</summary>
    /// <param name="areaM2">Its area.</param>
    /// <param name="weight">Its weight of unmet use.</param>
    /// <param name="mostUnmetMm">What it may lack.</param>
    /// <param name="waterMm">Water of a mean year.</param>
    /// <param name="unmetMm">Unmet use, year by year.</param>
    /// <param name="prudence">Standard deviations by which years not seen may be harder.</param>
    public static SeasonTotals Of(
        double areaM2, double weight, double mostUnmetMm, double waterMm, ReadOnlySpan<double> unmetMm, double prudence)
    {
        double mean = 0, deviation = 0;
        foreach (double unmet in unmetMm)
        {
            mean += unmet / unmetMm.Length;
        }

        foreach (double unmet in unmetMm)
        {
            deviation += (unmet - mean) * (unmet - mean) / Math.Max(1, unmetMm.Length - 1);
        }

        double likely = mean + (prudence * Math.Sqrt(deviation * YearsUnseen / unmetMm.Length));
        return new SeasonTotals(areaM2 * waterMm, areaM2 * mean, areaM2 * weight * mean, areaM2 * Math.Max(0, likely - mostUnmetMm));
    }
}
