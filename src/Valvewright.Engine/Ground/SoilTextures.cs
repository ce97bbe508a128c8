using Valvewright.Engine.Quantities;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Ground;

/// <summary>Soil numbers by texture class.</summary>
/// <remarks>
/// Intake, available water and allowable surface accumulation: not checked against the printed source, attributed to the Irrigation
/// Association's scheduling texts. The available water agrees with the ranges that UC Davis gives in inches per foot (coarse to loamy
/// sand .75-1.25, sandy loam 1.25-1.75, loam 1.50-2.30, clay loam 1.75-2.50, clay 1.60-2.50), sand at the lower end.
/// </remarks>
public static class SoilTextures
{
    private sealed record Row(string Name, double IntakeInPerHour, double AvailableInPerIn, double[] SurfaceIn);

    private static readonly Row[] Table =
    [
        new("clay", .10, .17, [.20, .15, .10, .10]),
        new("silty clay", .15, .17, [.23, .19, .16, .13]),
        new("clay loam", .20, .18, [.26, .22, .18, .15]),
        new("loam", .35, .17, [.30, .25, .21, .17]),
        new("sandy loam", .40, .12, [.33, .29, .24, .20]),
        new("loamy sand", .50, .08, [.36, .30, .26, .22]),
        new("sand", .60, .06, [.40, .35, .30, .25]),
    ];

    /// <summary>The seven classes of the table, finest first.</summary>
    public static ListOf<string> Classes { get; } = Table.Select(row => row.Name).ToListOf();

    /// <summary>The other classes of the texture triangle, each with the class of the table whose numbers it takes.</summary>
    public static IReadOnlyDictionary<string, string> TakenAs { get; } = new Dictionary<string, string>
    {
        ["sandy clay"] = "clay",
        ["silty clay loam"] = "clay loam",
        ["sandy clay loam"] = "clay loam",
        ["silt loam"] = "loam",
        ["silt"] = "loam",
    };

    /// <summary>The soil of a texture class at a slope.</summary>
    /// <param name="texture">One of <see cref="Classes"/>, or a key of <see cref="TakenAs"/>.</param>
    /// <param name="slopePercent">Rise over run, percent; lowers the water that may stand on the surface.</param>
    /// <exception cref="ArgumentException">The texture is not known.</exception>
    public static Soil At(string texture, double slopePercent)
    {
        string known = TakenAs.TryGetValue(texture, out string? other) ? other : texture;
        Row row = Table.FirstOrDefault(r => r.Name == known) ?? throw new ArgumentException(
            $"'{texture}' is not a texture class.", nameof(texture));
        return new Soil(
            texture,
            row.AvailableInPerIn * 1000,
            row.IntakeInPerHour * UsUnits.MmPerInch,
            row.SurfaceIn[SlopeClass(slopePercent)] * UsUnits.MmPerInch);
    }

    /// <summary>0 to 3 for slopes to 3, 6, 12 percent and beyond; a slope between two printed classes falls in the steeper.</summary>
    public static int SlopeClass(double slopePercent) => slopePercent switch { <= 3 => 0, <= 6 => 1, <= 12 => 2, _ => 3 };
}
