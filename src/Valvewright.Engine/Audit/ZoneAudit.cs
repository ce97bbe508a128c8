using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Survey;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Audit;

/// <summary>All that a catch-can test says of a zone.</summary>
/// <param name="Audit">The test, with rates and uniformities.</param>
/// <param name="Confidence">How well they are known.</param>
/// <param name="Repair">What fixing the worst sprinklers would change.</param>
/// <param name="Ways">The rate by the cans, by flow and area, and by the meter where it was read.</param>
/// <param name="Doubtful">Readings that can hardly be right.</param>
public sealed record ZoneAudit(CatchCanAudit Audit, AuditConfidence Confidence, SprinklerRepair Repair, ListOf<RateEvidence> Ways,
    ListOf<DoubtfulReading> Doubtful)
{
    private const double SurveyOff = 0.15;

    /// <summary>Works it out.</summary>
    /// <param name="zone">The zone, for its flow and area.</param>
    /// <param name="cans">What the cans caught.</param>
    /// <param name="places">Where they stood, in the same order; empty where not known.</param>
    /// <param name="windMps">Mean wind; null where not measured.</param>
    /// <param name="pressureKpa">Pressure at a head; null where not measured.</param>
    /// <param name="meterL">What went through the water meter meanwhile; null where not read.</param>
    public static ZoneAudit Of(Zone zone, CatchCans cans, ListOf<CanPlace> places, double? windMps = null, double? pressureKpa = null,
        double? meterL = null)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(cans);
        double? gross = meterL is { } liters ? PrecipitationRate.FromFlowAndArea(liters / cans.Minutes, zone.AreaM2) : null;
        CatchCanAudit audit = new(cans, places, windMps, pressureKpa, gross);
        List<RateEvidence> ways = [RateEvidence.OfCans(cans),
            new("the survey's flow and area", PrecipitationRate.FromFlowAndArea(zone.Emission.FlowLpm, zone.AreaM2), SurveyOff)];
        if (meterL is { } metered) ways.Add(RateEvidence.OfMeter(metered, cans.Minutes, zone.AreaM2));
        return new ZoneAudit(audit, AuditConfidence.Of(cans), SprinklerRepair.Of(cans), ways.ToListOf(),
            [.. audit.Doubts, .. RateEvidence.Disagreements(ways.ToListOf())]);
    }
}
