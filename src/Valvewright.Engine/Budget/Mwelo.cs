using Valvewright.Engine.Sprinklers;

namespace Valvewright.Engine.Budget;

/// <summary>The two yearly water budgets of California's Model Water Efficient Landscape Ordinance (MWELO).</summary>
/// <remarks>
/// California Code of Regulations, title 23, division 2, chapter 2.7 (2015): MAWA = ETo x 0.62 x (ETAF x LA + (1 - ETAF) x SLA), ETWU = ETo
/// x 0.62 x the sum of PF / IE x area; inches, square feet, gallons per year. One inch on one square foot is 0.6234 gal; the ordinance
/// rounds to 0.62, and so do both functions, so that a result agrees with a permit sheet. The exact figure is 0.54% higher.
/// </remarks>
public static class Mwelo
{
    /// <summary>Gallons that the ordinance counts for one inch on one square foot.</summary>
    public const double GallonsPerInchSquareFoot = 0.62;

    /// <summary>Liters that the ordinance counts for one millimeter on one square meter.</summary>
    public const double LPerMmM2 = GallonsPerInchSquareFoot * Quantities.UsUnits.LitresPerGallon
        / (Quantities.UsUnits.MmPerInch * Quantities.UsUnits.MPerFoot * Quantities.UsUnits.MPerFoot);

    /// <summary>Evapotranspiration adjustment factor of the ordinance: how much of ETo a landscape as a whole may use.</summary>
    public static double AdjustmentFactor(LandscapeUse use) => use == LandscapeUse.Residential ? 0.55 : 0.45;

    /// <summary>Irrigation efficiency that the ordinance counts with: 0.75 overhead, 0.81 drip and bubblers.</summary>
    public static double IrrigationEfficiency(EmissionKind kind) => kind is EmissionKind.Drip or EmissionKind.Bubbler ? 0.81 : 0.75;

    /// <summary>Maximum applied water allowance (MAWA), liters per year.</summary>
    /// <param name="etoMm">Reference ET of the year.</param>
    /// <param name="areaM2">All irrigated landscape, special areas included.</param>
    /// <param name="adjustmentFactor">ETAF, 0 to 1: <see cref="AdjustmentFactor"/>, or an older edition's.</param>
    /// <param name="specialAreaM2">Special landscape area (SLA): edibles, recycled water, sports and play turf; its ETAF is 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is negative or not a number, or the special area is larger than the
    /// whole.</exception>
    public static double AllowanceL(double etoMm, double areaM2, double adjustmentFactor, double specialAreaM2 = 0)
    {
        Require(etoMm >= 0, nameof(etoMm), etoMm);
        Require(areaM2 >= 0, nameof(areaM2), areaM2);
        Require(adjustmentFactor is >= 0 and <= 1, nameof(adjustmentFactor), adjustmentFactor);
        Require(specialAreaM2 >= 0 && specialAreaM2 <= areaM2, nameof(specialAreaM2), specialAreaM2);
        return etoMm * LPerMmM2 * ((adjustmentFactor * areaM2) + ((1 - adjustmentFactor) * specialAreaM2));
    }

    /// <summary>Estimated total water use (ETWU), liters per year.</summary>
    /// <param name="etoMm">Reference ET of the year.</param>
    /// <param name="hydrozones">Every irrigated zone.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is negative or not a number, or an efficiency is not above 0.</exception>
    public static double EstimatedUseL(double etoMm, IEnumerable<Hydrozone> hydrozones)
    {
        ArgumentNullException.ThrowIfNull(hydrozones);
        return hydrozones.Sum(zone => EstimatedUseL(etoMm, zone));
    }

    /// <summary>Estimated water use of one zone, liters per year.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A figure is negative or not a number, or the efficiency is not above 0.</exception>
    public static double EstimatedUseL(double etoMm, Hydrozone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        Require(etoMm >= 0, nameof(etoMm), etoMm);
        Require(zone.AreaM2 >= 0, nameof(zone), zone.AreaM2);
        Require(zone.PlantFactor >= 0, nameof(zone), zone.PlantFactor);
        Require(zone.IrrigationEfficiency is > 0 and <= 1, nameof(zone), zone.IrrigationEfficiency);
        return etoMm * LPerMmM2 * zone.PlantFactor / zone.IrrigationEfficiency * zone.AreaM2;
    }

    private static void Require(bool holds, string name, double value)
    {
        if (!holds) throw new ArgumentOutOfRangeException(name, value, "Outside what the ordinance's formula can take.");
    }
}

/// <summary>What a landscape is for, as the ordinance sorts them.</summary>
public enum LandscapeUse
{
    /// <summary>Homes: ETAF 0.55.</summary>
    Residential,

    /// <summary>Everything else: ETAF 0.45.</summary>
    NonResidential,
}

/// <summary>A zone as the ordinance sees it.</summary>
/// <param name="AreaM2">Planted area.</param>
/// <param name="PlantFactor">PF: mean landscape coefficient over ETo; 1 for a special landscape area.</param>
/// <param name="IrrigationEfficiency">IE, above 0 and at most 1: <see cref="Mwelo.IrrigationEfficiency"/> by default.</param>
public sealed record Hydrozone(double AreaM2, double PlantFactor, double IrrigationEfficiency);
