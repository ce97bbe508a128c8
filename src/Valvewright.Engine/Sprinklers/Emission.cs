using System.Text.Json.Serialization;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Sprinklers;

/// <summary>How water comes out of a zone's sprinklers or drippers.</summary>
/// <param name="Kind">Overhead or drip; drip wets no leaves and may be exempt from rules on hours.</param>
/// <param name="PrecipitationRateMmPerHour">Mean gross rate over the irrigated area.</param>
/// <param name="FlowLpm">Flow while the station is open.</param>
/// <param name="Spots">How evenly it falls.</param>
/// <param name="ApplicationLossFraction">Share lost to wind and evaporation before it reaches the ground, 0 to 1.</param>
public sealed record Emission(
    EmissionKind Kind,
    double PrecipitationRateMmPerHour,
    double FlowLpm,
    SpotShares Spots,
    double ApplicationLossFraction = 0)
{
    /// <summary>The part of the planted area whose root zone drip or bubblers wet and store water in, above 0, at most 1.</summary>
    public double WettedFraction { get; init; } = 1;

    /// <summary>Whether it falls from above and wets leaves.</summary>
    [JsonIgnore]
    public bool IsOverhead => Kind is EmissionKind.Spray or EmissionKind.Rotor;
}

/// <summary>How water is given.</summary>
public enum EmissionKind
{
    /// <summary>Fixed spray heads.</summary>
    Spray,

    /// <summary>Rotating heads.</summary>
    Rotor,

    /// <summary>Emitters on or under the ground.</summary>
    Drip,

    /// <summary>Bubblers into basins.</summary>
    Bubbler,
}

/// <summary>
/// The places of a zone that the balance follows one by one, each with its own share of the water.
/// </summary>
/// <param name="Share">Depth at the spot over the zone's mean depth; weighted mean 1.</param>
/// <param name="Weight">The part of the zone's area that each spot stands for; sums to 1.</param>
/// <param name="Origin">Where they come from: the cans of an audit, or a distribution fitted to a DU.</param>
public sealed record SpotShares(ListOf<double> Share, ListOf<double> Weight, string Origin)
{
    /// <summary>One spot with the mean share: perfectly even.</summary>
    public static SpotShares Even { get; } = new([1.0], [1.0], "perfectly even");
}
