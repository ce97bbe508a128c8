using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Balance;

/// <summary>The water store of a root zone.</summary>
/// <param name="TotalMm">Total available water TAW: from field capacity to wilting point, over the root depth (FAO-56 eq. 82).</param>
/// <param name="ReadilyMm">What may be used before plants use less, RAW = allowed depletion x TAW (FAO-56 eq. 83), at a use of 5
/// mm/day.</param>
public readonly record struct RootZone(double TotalMm, double ReadilyMm)
{
    private const double UseOfTableMm = 5;
    private const double ShiftPerMm = 0.04;
    private const double LeastShare = 0.1;
    private const double LargestShare = 0.8;

    /// <summary>The root zone of a zone's plants in its soil; under drip, of the part of the area that is wetted.</summary>
    public static RootZone Of(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        double total = zone.Soil.AvailableWaterMmPerM * zone.Planting.RootDepthM * zone.Emission.WettedFraction;
        return new RootZone(total, total * zone.Planting.AllowedDepletion);
    }

    /// <summary>RAW on a day of that use: allowed depletion moves by 0.04 per mm/day from 5, within 0.1 to 0.8 (FAO-56 table 22,
    /// footnote).</summary>
    /// <remarks>A share given outside 0.1 to 0.8 stays as it is given.</remarks>
    public double ReadilyMmAt(double useMm)
    {
        double share = TotalMm > 0 ? ReadilyMm / TotalMm : 0;
        double moved = Math.Clamp(
            share + (ShiftPerMm * (UseOfTableMm - useMm)), Math.Min(LeastShare, share), Math.Max(LargestShare, share));
        return TotalMm * moved;
    }

    /// <summary>
    /// One over the depth from a depletion to wilting, 1/mm: the slope of Ks (FAO-56 eq. 84).
    /// A zone allowed to dry out fully has no such depth; a millionth of a millimeter stands for it.
    /// </summary>
    public double SlopeFrom(double readilyMm) => 1 / Math.Max(TotalMm - readilyMm, 1e-6);
}
