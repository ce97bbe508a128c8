namespace Valvewright.App.Pages.Survey.ZoneParts;

/// <summary>An answer of the test of soil between the fingers.</summary>
public enum Ribbon
{
    /// <summary>No ball holds together.</summary>
    NoBall,

    /// <summary>A ball, but no ribbon.</summary>
    NoRibbon,

    /// <summary>A ribbon that breaks before 2.5 cm (1 in).</summary>
    BreaksSoon,

    /// <summary>2.5 to 5 cm (1 to 2 in).</summary>
    BreaksLater,

    /// <summary>5 cm (2 in) or more.</summary>
    HangsOn,
}

/// <summary>How a very wet pinch of it feels.</summary>
public enum Feel
{
    /// <summary>Grains scratch.</summary>
    Gritty,

    /// <summary>Like flour.</summary>
    Smooth,

    /// <summary>Neither more than the other.</summary>
    Neither,
}

/// <summary>Soil texture by feel.</summary>
/// <remarks>
/// USDA Natural Resources Conservation Service, "Guide to Texture by Feel", modified from S. J. Thien (1979), "A flow diagram for teaching
/// texture-by-feel analysis", Journal of Agronomic Education 8:54-55. Silt is not told from silt loam there.
/// </remarks>
public static class FeelTest
{
    /// <summary>The texture class; null while the second answer is needed and missing.</summary>
    public static string? Texture(Ribbon ribbon, Feel? feel) => (ribbon, feel) switch
    {
        (Ribbon.NoBall, _) => "sand",
        (Ribbon.NoRibbon, _) => "loamy sand",
        (_, null) => null,
        (Ribbon.BreaksSoon, Feel.Gritty) => "sandy loam",
        (Ribbon.BreaksSoon, Feel.Smooth) => "silt loam",
        (Ribbon.BreaksSoon, _) => "loam",
        (Ribbon.BreaksLater, Feel.Gritty) => "sandy clay loam",
        (Ribbon.BreaksLater, Feel.Smooth) => "silty clay loam",
        (Ribbon.BreaksLater, _) => "clay loam",
        (_, Feel.Gritty) => "sandy clay",
        (_, Feel.Smooth) => "silty clay",
        _ => "clay",
    };

    /// <summary>Whether the feel of a wet pinch is asked after this answer.</summary>
    public static bool AsksFeel(Ribbon ribbon) => ribbon is Ribbon.BreaksSoon or Ribbon.BreaksLater or Ribbon.HangsOn;
}
