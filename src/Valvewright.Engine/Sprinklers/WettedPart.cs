using Valvewright.Engine.Ground;

namespace Valvewright.Engine.Sprinklers;

/// <summary>How much of the planted ground emitters wet.</summary>
public static class WettedPart
{
    /// <summary>Widest wetted circle of one emitter, m: 0.45 in coarse soil, 0.9 in medium, 1.05 in fine.</summary>
    /// <remarks>Uniform soil, roots of 0.75 m, emitters of about 4 L/h; Keller and Bliesner, Sprinkle and Trickle Irrigation (1990), not
    /// checked against the printed table. Layered soil wets wider.</remarks>
    public static double DiameterM(Soil soil)
    {
        ArgumentNullException.ThrowIfNull(soil);
        return soil.Texture switch
        {
            "sand" or "loamy sand" => 0.45,
            { } texture when texture.Contains("clay", StringComparison.Ordinal) => 1.05,
            _ => 0.9,
        };
    }

    /// <summary>Part of the area, above 0, at most 1: circles side by side.</summary>
    /// <param name="emitters">How many emitters there are, at least 1.</param>
    /// <param name="soil">The soil they stand on.</param>
    /// <param name="areaM2">The planted area.</param>
    public static double Of(double emitters, Soil soil, double areaM2) =>
        Math.Min(1, emitters * Math.PI / 4 * DiameterM(soil) * DiameterM(soil) / areaM2);
}
