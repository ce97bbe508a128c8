using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;
using Valvewright.Engine.Words;

namespace Valvewright.Engine.Audit;

/// <summary>A precipitation rate found one way.</summary>
/// <param name="Way">How.</param>
/// <param name="RateMmPerHour">The rate.</param>
/// <param name="Off">How far it may be off, as a share.</param>
/// <param name="IsNet">Whether it is what reaches the ground; otherwise what leaves the sprinklers.</param>
public sealed record RateEvidence(Sentence Way, double RateMmPerHour, double Off, bool IsNet = false)
{
    /// <summary>Drift and evaporation take at most this share of overhead water at dawn; more is doubted (common practice).</summary>
    private const double LargestLoss = 0.3;

    /// <summary>A water meter read before and after.</summary>
    public static RateEvidence OfMeter(double liters, double minutes, double areaM2) =>
        new("water meter before and after", PrecipitationRate.FromFlowAndArea(liters / minutes, areaM2), 0.05);

    /// <summary>Flow of a full-circle nozzle on a grid of heads.</summary>
    public static RateEvidence OfNozzles(double nozzleLpm, double alongM, double betweenM) =>
        new("nozzle flow and spacing", PrecipitationRate.FromSpacing(nozzleLpm, alongM, betweenM), 0.15);

    /// <summary>Drip emitters on a grid.</summary>
    public static RateEvidence OfEmitters(double emitterLpm, double alongM, double betweenM) =>
        new("emitter flow and spacing", PrecipitationRate.FromSpacing(emitterLpm, alongM, betweenM), 0.1);

    /// <summary>Catch cans.</summary>
    public static RateEvidence OfCans(CatchCans cans)
    {
        ArgumentNullException.ThrowIfNull(cans);
        AuditConfidence confidence = AuditConfidence.Of(cans);
        return new RateEvidence("catch cans", cans.NetRateMmPerHour,
            Math.Max(0.03, confidence.NetRateMmPerHour.HalfWidth / cans.NetRateMmPerHour), IsNet: true);
    }

    /// <summary>Where ways disagree by more than they may be off.</summary>
    public static ListOf<DoubtfulReading> Disagreements(ListOf<RateEvidence> evidence)
    {
        ArgumentNullException.ThrowIfNull(evidence);
        List<DoubtfulReading> doubts = [];
        for (int i = 0; i < evidence.Count; i++)
        {
            for (int j = i + 1; j < evidence.Count; j++)
            {
                if (Disagreement(evidence[i], evidence[j]) is { } doubt) doubts.Add(doubt);
            }
        }

        return doubts.ToListOf();
    }

    private static DoubtfulReading? Disagreement(RateEvidence one, RateEvidence other)
    {
        if (one.IsNet && !other.IsNet) return Disagreement(other, one);
        double room = Math.Sqrt((one.Off * one.Off) + (other.Off * other.Off));
        double ratio = other.RateMmPerHour / one.RateMmPerHour;
        bool mixed = other.IsNet && !one.IsNet;
        double least = mixed ? (1 - LargestLoss) * (1 - room) : 1 / (1 + room);
        return ratio >= least && ratio <= 1 + room ? null : new DoubtfulReading(
            "rate", $"{one.RateMmPerHour:0.0} and {other.RateMmPerHour:0.0} mm/h",
            $"'{one.Way}' and '{other.Way}' disagree by more than they may be off; measure again the one you trust less");
    }
}
