using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Balance;

/// <summary>The water store of a root zone.</summary>
/// <param name="TotalMm">Total available water TAW: from field capacity to wilting point, over the root depth (FAO-56 eq. 82).</param>
/// <param name="ReadilyMm">What may be used before plants are stressed, RAW = allowed depletion x TAW (FAO-56 eq. 83).</param>
public readonly record struct RootZone(double TotalMm, double ReadilyMm)
{
    /// <summary>The root zone of a zone's plants in its soil.</summary>
    public static RootZone Of(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        double total = zone.Soil.AvailableWaterMmPerM * zone.Planting.RootDepthM;
        return new RootZone(total, total * zone.Planting.AllowedDepletion);
    }

    /// <summary>
    /// One over the depth from allowed depletion to wilting, 1/mm: the slope of Ks (FAO-56 eq. 84) and the weight of stress.
    /// A zone allowed to dry out fully has no such depth; a millionth of a millimetre stands for it.
    /// </summary>
    public double PerStressMm => 1 / Math.Max(TotalMm - ReadilyMm, 1e-6);
}
