using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Audit;

/// <summary>Where a can stood, meters from a corner of the zone.</summary>
/// <param name="XM">Along.</param>
/// <param name="YM">Across.</param>
public sealed record CanPlace(double XM, double YM);

/// <summary>A catch-can test with the circumstances in which it was made.</summary>
/// <param name="Cans">Readings, minutes and can opening.</param>
/// <param name="Places">Where the cans stood, in the readings' order; empty where not known.</param>
/// <param name="WindMps">Mean wind; null where not measured.</param>
/// <param name="PressureKpa">Pressure at a head while running; null where not measured.</param>
/// <param name="GrossRateMmPerHour">Rate by flow and area; null where no flow was measured.</param>
public sealed record CatchCanAudit(
    CatchCans Cans, ListOf<CanPlace> Places, double? WindMps = null, double? PressureKpa = null, double? GrossRateMmPerHour = null)
{
    /// <summary>The most wind an audit bears: 5 mph (New Mexico State University Extension, H-510).</summary>
    public const double LargestWindMps = 2.2352;

    private const double ManyTimes = 4;

    /// <summary>Depth in each can.</summary>
    public ListOf<double> DepthsMm => Cans.Readings.Select(r => r * Cans.MmPerReading).ToListOf();

    /// <summary>Low-half distribution uniformity: mean of the lower half over the mean of all; of an odd count the middle can counts
    /// half.</summary>
    public double LowHalfUniformity
    {
        get
        {
            double[] sorted = [.. Cans.Readings.Order()];
            int half = sorted.Length / 2;
            double sum = sorted.Take(half).Sum() + (sorted.Length % 2 == 1 ? sorted[half] / 2 : 0);
            return sum / (sorted.Length / 2.0) / Cans.Mean;
        }
    }

    /// <summary>The driest cans, the driest first: the quarter that the low quarter is made of.</summary>
    public ListOf<int> DriestCans => Enumerable.Range(0, Cans.Readings.Count).OrderBy(i => Cans.Readings[i]).ThenBy(i => i)
        .Take((int)Math.Ceiling(Cans.Readings.Count / 4.0)).ToListOf();

    /// <summary>What is doubtful about the readings, each with its reason.</summary>
    public ListOf<DoubtfulReading> Doubts => [.. OfCans(), .. OfAll()];

    /// <summary>What limits the audit without being wrong.</summary>
    public ListOf<Sentence> Remarks
    {
        get
        {
            List<Sentence> remarks = [];
            int count = Cans.Readings.Count;
            if (count < CatchCans.AdvisedCans) remarks.Add($"{count} cans are few; {CatchCans.AdvisedCans} or more are advised.");
            if (count % 4 != 0) remarks.Add($"{count} cans are no multiple of 4: {Cans.QuarterRule}.");
            if (WindMps is null) remarks
                .Add("Wind was not measured; above 5 mph (8 km/h) cans say more about the wind than about the sprinklers.");
            if (WindMps is { } wind and > LargestWindMps) remarks
                .Add($"Wind {wind:0.0} m/s is above 2.2 m/s (5 mph): repeat the test in calm air.");
            return remarks.ToListOf();
        }
    }

    private IEnumerable<DoubtfulReading> OfCans()
    {
        double[] sorted = [.. Cans.Readings.Order()];
        double median = sorted.Length % 2 == 1 ? sorted[sorted.Length / 2]
            : (sorted[sorted.Length / 2] + sorted[(sorted.Length / 2) - 1]) / 2;
        for (int i = 0; i < Cans.Readings.Count; i++)
        {
            double depth = Cans.Readings[i] * Cans.MmPerReading;
            if (median > 0 && Cans.Readings[i] > ManyTimes * median)
            {
                yield return new DoubtfulReading($"cans/{i + 1}", $"{depth:0.0} mm",
                    $"More than {ManyTimes:0} times the middle can: a leaking head, a drip from a leaf, or a slip of the pen");
            }
        }
    }

    private IEnumerable<DoubtfulReading> OfAll()
    {
        if (GrossRateMmPerHour is { } gross && Cans.NetRateMmPerHour > 1.05 * gross)
        {
            yield return new DoubtfulReading(
                "cans", $"{Cans.NetRateMmPerHour:0.0} mm/h",
                $"More water in the cans than fell: flow over area gives {gross:0.0} mm/h. Check the can opening, the minutes, the flow and the area");
        }
    }

    /// <summary>Why a stated uniformity cannot be; null where it can.</summary>
    /// <param name="share">1 for 100%.</param>
    public static DoubtfulReading? DoubtOfUniformity(double share) => share > 1
        ? new DoubtfulReading("uniformity", $"{100 * share:0.#} %",
            "The lowest quarter never gets more than the mean, so a low-quarter uniformity is 100% at most")
        : null;
}
