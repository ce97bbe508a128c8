using System.Text.Json.Serialization;

namespace Valvewright.Engine.Season;

/// <summary>What a season makes least.</summary>
[JsonDerivedType(typeof(Weigh), "weigh")]
[JsonDerivedType(typeof(UnmetWithin), "unmet within")]
[JsonDerivedType(typeof(WaterWithin), "water within")]
public abstract record Goal
{
    private Goal()
    {
    }

    /// <summary>Water plus a weight times the use that is not met, both as depth on the zone.</summary>
    /// <param name="Weight">Millimeters of water that 1 mm of use is worth at normal quality, above 0.</param>
    public sealed record Weigh(double Weight) : Goal;

    /// <summary>The least water with no more than a part of the use unmet, mean over zones by area and years.</summary>
    /// <param name="Share">Above 0, below 1.</param>
    public sealed record UnmetWithin(double Share) : Goal;

    /// <summary>The least unmet use with no more than so much water in a mean year.</summary>
    /// <param name="CubicMeters">For the controllers that the season is planned for.</param>
    public sealed record WaterWithin(double CubicMeters) : Goal;
}
