namespace Valvewright.Engine.Plants;

/// <summary>The water that must drain below the roots to carry the salt of irrigation water away.</summary>
/// <remarks>
/// LF = ECw / (5 ECe - ECw), Ayers and Westcot 1985, FAO Irrigation and Drainage Paper 29. It is the low side: a reuse guide asks for
/// 0.2 to 0.3 for many turf grasses at 1.5 dS/m.
/// </remarks>
public static class Leaching
{
    /// <summary>Water below this restricts no use (FAO 29 table 1, as a recycled-water guide prints it) and needs no leaching.</summary>
    public const double FreshDsPerM = 0.7;

    /// <summary>More is not planned for: change the plants or the water (rule of thumb).</summary>
    public const double LargestFraction = 0.30;

    /// <summary>The share of what reaches the ground that must drain, 0 to <see cref="LargestFraction"/>.</summary>
    /// <param name="waterDsPerM">Electrical conductivity of the water (ECw).</param>
    /// <param name="soilDsPerM">Electrical conductivity of the soil's saturation extract that the plants bear (ECe), above 0.</param>
    public static double FractionOf(double waterDsPerM, double soilDsPerM)
    {
        if (waterDsPerM < FreshDsPerM) return 0;
        double room = (5 * soilDsPerM) - waterDsPerM;
        return room <= 0 ? LargestFraction : Math.Min(LargestFraction, waterDsPerM / room);
    }
}
