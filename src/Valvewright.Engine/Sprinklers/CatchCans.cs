using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Sprinklers;

/// <summary>A catch-can test with its raw readings.</summary>
/// <param name="Readings">What each can caught, in any one unit, zero or more; not all zero.</param>
/// <param name="Minutes">How long the station ran.</param>
/// <param name="MmPerReading">Depth of water that one unit of reading stands for.</param>
public sealed record CatchCans(ListOf<double> Readings, double Minutes, double MmPerReading)
{
    /// <summary>Least number of cans that the trade advises (UC Davis CCUH).</summary>
    public const int AdvisedCans = 24;

    /// <summary>Readings in litres from cans of a given opening: 1 L on 1 m2 stands 1 mm deep.</summary>
    /// <remarks>In inches: net rate = 3.66 x mean mL / (minutes x in2), Irrigation Association auditor worksheet.</remarks>
    public static CatchCans OfLitres(ListOf<double> readings, double minutes, double openingM2) => new(readings, minutes, 1 / openingM2);

    /// <summary>Readings as depths in metres.</summary>
    public static CatchCans OfDepths(ListOf<double> depthsM, double minutes) => new(depthsM, minutes, 1000);

    /// <summary>Mean reading, in the readings' unit.</summary>
    public double Mean => Readings.Average();

    /// <summary>Mean rate at which water reaches the ground.</summary>
    public double NetRateMmPerHour => Mean * MmPerReading * 60 / Minutes;

    /// <summary>Low-quarter distribution uniformity: mean of the lowest quarter over the mean of all, 0 to 1.</summary>
    public double LowQuarterUniformity => LowQuarter.MeanOf(Readings) / Mean;

    /// <summary>Christiansen's coefficient of uniformity: 1 - mean absolute deviation / mean.</summary>
    /// <remarks>Christiansen, J. E. (1942), Irrigation by sprinkling, California Agricultural Experiment Station Bulletin 670.</remarks>
    public double ChristiansenUniformity => 1 - (Readings.Average(reading => Math.Abs(reading - Mean)) / Mean);

    /// <summary>How the lowest quarter was taken, in words.</summary>
    public Sentence QuarterRule => Readings.Count % 4 == 0
        ? (Sentence)$"lowest {Readings.Count / 4} of {Readings.Count} cans"
        : (Sentence)$"lowest {Readings.Count / 4.0:0.##} of {Readings.Count} cans, the last one counted in part; use a multiple of 4";

    /// <summary>The cans as spots, each standing for the same area.</summary>
    public SpotShares Spots() => new(
        Readings.Select(reading => reading / Mean).ToListOf(),
        Enumerable.Repeat(1.0 / Readings.Count, Readings.Count).ToListOf(),
        $"{Readings.Count} cans of a catch-can test");
}
