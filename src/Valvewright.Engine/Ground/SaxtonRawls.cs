namespace Valvewright.Engine.Ground;

/// <summary>Soil water from sand, clay and organic matter.</summary>
/// <remarks>
/// Saxton, K. E. and Rawls, W. J. (2006), "Soil water characteristic estimates by texture and organic matter for hydrologic
/// solutions", Soil Science Society of America Journal 70, 1569-1578: equations 1, 2, 3, 5, 15, 16, 18 at normal density,
/// no gravel, no salt. Meant for clay up to 60 percent and organic matter up to 8 percent.
/// </remarks>
public sealed record SaxtonRawls
{
    /// <summary>The estimate for a soil.</summary>
    /// <param name="sand">Sand as a share of the fine earth, 0 to 1.</param>
    /// <param name="clay">Clay as a share, 0 to 1; sand and clay together at most 1.</param>
    /// <param name="organicMatterPercent">Organic matter in percent by weight.</param>
    /// <exception cref="ArgumentOutOfRangeException">The shares are not a soil.</exception>
    public SaxtonRawls(double sand, double clay, double organicMatterPercent)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(sand);
        ArgumentOutOfRangeException.ThrowIfNegative(clay);
        ArgumentOutOfRangeException.ThrowIfNegative(organicMatterPercent);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(sand + clay, 1 + 1e-9);
        double om = organicMatterPercent;
        double wilting = (-0.024 * sand) + (0.487 * clay) + (0.006 * om) + (0.005 * sand * om) - (0.013 * clay * om) + (
            0.068 * sand * clay) + 0.031;
        WiltingPoint = wilting + ((0.14 * wilting) - 0.02);
        double field = (-0.251 * sand) + (0.195 * clay) + (0.011 * om) + (0.006 * sand * om) - (0.027 * clay * om) + (
            0.452 * sand * clay) + 0.299;
        FieldCapacity = field + ((1.283 * field * field) - (0.374 * field) - 0.015);
        double drained = (0.278 * sand) + (0.034 * clay) + (0.022 * om) - (0.018 * sand * om) - (0.027 * clay * om) - (
            0.584 * sand * clay) + 0.078;
        drained += (0.636 * drained) - 0.107;
        Saturation = FieldCapacity + drained - (0.097 * sand) + 0.043;
        double lambda = (Math.Log(FieldCapacity) - Math.Log(WiltingPoint)) / (Math.Log(1500) - Math.Log(33));
        SaturatedConductivityMmPerHour = 1930 * Math.Pow(Saturation - FieldCapacity, 3 - lambda);
    }

    /// <summary>Volumetric share at 1500 kPa.</summary>
    public double WiltingPoint { get; }

    /// <summary>Volumetric share at 33 kPa.</summary>
    public double FieldCapacity { get; }

    /// <summary>Volumetric share at saturation.</summary>
    public double Saturation { get; }

    /// <summary>Conductivity of the saturated, undisturbed soil; a trodden lawn takes in far less.</summary>
    public double SaturatedConductivityMmPerHour { get; }

    /// <summary>
    /// The soil at a slope: water held from the equations, intake and surface storage from the table of its texture class,
    /// since saturated conductivity says little about trodden ground under sprinklers.
    /// </summary>
    public static Soil At(double sand, double clay, double organicMatterPercent, double slopePercent)
    {
        SaxtonRawls water = new(sand, clay, organicMatterPercent);
        string texture = TextureTriangle.ClassOf(sand, clay);
        return SoilTextures.At(texture, slopePercent) with
        {
            AvailableWaterMmPerM = (water.FieldCapacity - water.WiltingPoint) * 1000,
            FieldCapacity = water.FieldCapacity,
            WiltingPoint = water.WiltingPoint,
        };
    }
}
