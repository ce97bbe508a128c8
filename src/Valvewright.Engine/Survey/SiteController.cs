using Valvewright.Engine.Controllers;
using Valvewright.Engine.Values;

namespace Valvewright.Engine.Survey;

/// <summary>A controller as it stands on a site: what it can do, what it drinks from, what its stations water.</summary>
public sealed record SiteController
{
    /// <summary>The name painted on its lid.</summary>
    public required string Name { get; init; }

    /// <summary>What it can hold and how it behaves.</summary>
    public required Profile Profile { get; init; }

    /// <summary>The name of the supply it drinks from.</summary>
    public required string Supply { get; init; }

    /// <summary>Its zones by rising station number; a station without a zone is not wired.</summary>
    public required ListOf<Zone> Zones { get; init; }

    /// <summary>The zone that a station waters.</summary>
    /// <exception cref="KeyNotFoundException">The station has no zone.</exception>
    public Zone ZoneAt(int station) =>
        Zones.FirstOrDefault(z => z.Station == station) ?? throw new KeyNotFoundException($"Station {station} of '{Name}' has no zone.");
}
