using Valvewright.Planning.Choices;

namespace Valvewright.Planning.Programs;

/// <summary>What a zone asks of the program it is in; kinds are kept apart while there are letters. In the order in which they are
/// parted.</summary>
internal enum ZoneKind
{
    /// <summary>Watered several times a day, for a few weeks.</summary>
    Seedbed,

    /// <summary>Sprinklers over established plants: the hours before sunrise, often.</summary>
    Overhead,

    /// <summary>Deep roots, most of all trees: seldom, and off for more of the year.</summary>
    Deep,

    /// <summary>Drip and bubblers: any hour.</summary>
    Drip,
}

/// <summary>Tells kinds of zones.</summary>
internal static class ZoneKinds
{
    /// <summary>Root zones from here on are those of trees and large shrubs (FAO-56 table 22: turf and beds to 0.6 m, trees 0.6 m and
    /// more).</summary>
    private const double DeepM = 0.6;

    /// <summary>The kind of a zone.</summary>
    public static ZoneKind Of(ZoneCase zone) => zone switch
    {
        { IsSeedbed: true } => ZoneKind.Seedbed,
        { Zone.Planting.RootDepthM: >= DeepM } => ZoneKind.Deep,
        { IsDrip: true } => ZoneKind.Drip,
        _ => ZoneKind.Overhead,
    };
}
