namespace Valvewright.Engine.Ground;

/// <summary>The texture class of a soil from its sand and clay.</summary>
/// <remarks>The twelve classes of the USDA Soil Survey Manual (2017), chapter 3, as inequalities in percent.</remarks>
public static class TextureTriangle
{
    /// <summary>The class of a soil.</summary>
    /// <param name="sand">Sand as a share, 0 to 1.</param>
    /// <param name="clay">Clay as a share, 0 to 1.</param>
    public static string ClassOf(double sand, double clay)
    {
        double s = 100 * sand;
        double c = 100 * clay;
        double silt = 100 - s - c;
        if (silt + (1.5 * c) < 15) return "sand";
        if (silt + (2 * c) < 30) return "loamy sand";
        if (c >= 40) return s > 45 ? "sandy clay" : silt >= 40 ? "silty clay" : "clay";
        if (c >= 35 && s > 45) return "sandy clay";
        if (c >= 27) return s <= 20 ? "silty clay loam" : s <= 45 ? "clay loam" : "sandy clay loam";
        if (c >= 20 && silt < 28 && s > 45) return "sandy clay loam";
        if (silt >= 80 && c < 12) return "silt";
        if (silt >= 50) return "silt loam";
        return c >= 7 && s <= 52 ? "loam" : "sandy loam";
    }
}
