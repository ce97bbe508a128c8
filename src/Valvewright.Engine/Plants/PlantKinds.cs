using Valvewright.Engine.Values;

namespace Valvewright.Engine.Plants;

/// <summary>A kind of planting with its usual numbers.</summary>
/// <param name="Name">The word a survey uses.</param>
/// <param name="DryFactor">Plant factor in dry climates; for turf, see <see cref="Turf"/>.</param>
/// <param name="HumidFactor">Plant factor in humid climates.</param>
/// <param name="FactorSource">Where the factor comes from.</param>
/// <param name="RootDepthM">Depth of the roots that are watered when established.</param>
/// <param name="RootSource">Where the depth comes from.</param>
/// <param name="AllowedDepletion">Share of available water that may be used between waterings, 0 to 1.</param>
/// <param name="DepletionSource">Where the share comes from.</param>
/// <param name="Turf">Turf by season, which has coefficients by month; null for other plants.</param>
public sealed record PlantKind(
    string Name,
    double DryFactor,
    double HumidFactor,
    string FactorSource,
    double RootDepthM,
    string RootSource,
    double AllowedDepletion,
    string DepletionSource,
    TurfSeason? Turf = null);

/// <summary>When a grass grows most.</summary>
public enum TurfSeason
{
    /// <summary>Fescue, ryegrass, bluegrass.</summary>
    Cool,

    /// <summary>Bermuda, zoysia, buffalo grass.</summary>
    Warm,
}

/// <summary>The kinds of planting known by name.</summary>
public static class PlantKinds
{
    private const string Standard = "ANSI/ASABE S623";
    private const string StandardUnread = "ANSI/ASABE S623, not checked against the printed standard";
    private const string LawnRoots = "middle of what is common for lawns (UC IPM)";
    private const string WarmRoots = "rule of thumb: a third of the 36 in that bermuda roots reach in deep clay";
    private const string TreeRoots = "middle of where trees take up most water (UC Master Gardeners, Yolo)";
    private const string Practice = "common practice";
    private const double InchM = 0.0254;

    /// <summary>The word for trees.</summary>
    public const string Trees = "trees";

    /// <summary>All kinds.</summary>
    public static ListOf<PlantKind> All { get; } =
    [
        new("cool-season turf", .8, .8, StandardUnread, 7 * InchM, LawnRoots, .40, "FAO-56 table 22, not checked against the printed table",
            TurfSeason.Cool),
        new("warm-season turf", .6, .6, StandardUnread, 12 * InchM, WarmRoots, .50,
            "FAO-56 table 22, not checked against the printed table",
            TurfSeason.Warm),
        new(Trees, .5, .7, Standard, 24 * InchM, TreeRoots, .50, Practice),
        new("shrubs", .5, .7, StandardUnread, 18 * InchM, Practice, .50, Practice),
        new("groundcover", .5, .7, StandardUnread, 12 * InchM, Practice, .50, Practice),
        new("perennials", .5, .7, StandardUnread, 12 * InchM, Practice, .50, Practice),
        new("annual flowers", .8, .8, StandardUnread, 8 * InchM, Practice, .40, Practice),
        new("desert plants", .3, .3, StandardUnread, 24 * InchM, Practice, .60, Practice),
        new("vegetables", 1.0, 1.0, "common practice (mid-season)", 12 * InchM, Practice, .40, Practice),
    ];

    /// <summary>The kind of that name, null where there is none.</summary>
    public static PlantKind? Named(string name) => All.FirstOrDefault(kind => kind.Name == name);
}
