using Valvewright.Engine.Sprinklers;
using Valvewright.Engine.Supply;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Faults;

/// <summary>What a trace needs to know of a site.</summary>
/// <remarks>
/// Copper: 18 AWG 20.94 ohm/km at 20 degrees C (two independent tables), 0.39 % more per degree (rule of thumb). Coil of a two-wire
/// latching valve 6 ohm (rule of thumb; best judged against a sister valve of the site). Cell under the load of a pulse 1.5 V new (rule of
/// thumb).
/// </remarks>
public sealed record TraceFacts
{
    private const double CopperPerDegree = 0.0039;
    private const double NewCellVolts = 1.55;

    /// <summary>Stations that are wired.</summary>
    public int Stations { get; init; } = 4;

    /// <summary>Whether a rain sensor can be connected.</summary>
    public bool HasSensor { get; init; }

    /// <summary>Whether the controller starts a pump.</summary>
    public bool HasPump { get; init; }

    /// <summary>Whether water comes out of drip or bubblers at the station.</summary>
    public bool Drips { get; init; }

    /// <summary>Whether the water is reclaimed.</summary>
    public bool IsReclaimed { get; init; }

    /// <summary>Whether fertilizer or chemicals are injected.</summary>
    public bool IsDosed { get; init; }

    /// <summary>Whether people stand in or near traffic there.</summary>
    public bool IsAtRoad { get; init; }

    /// <summary>Cells of 1.5 V in the battery.</summary>
    public int Cells { get; init; } = 6;

    /// <summary>A good coil, ohm.</summary>
    public double CoilOhms { get; init; } = 6;

    /// <summary>Wire from controller to valve, m, one way.</summary>
    public double WireM { get; init; } = 10;

    /// <summary>Resistance of one conductor at 20 degrees C, ohm/km.</summary>
    public double WireOhmsPerKm { get; init; } = 20.94;

    /// <summary>Temperature of wire and coil, degrees C.</summary>
    public double AirC { get; init; } = 20;

    /// <summary>Pressure of the supply with everything shut, kPa.</summary>
    public double StaticKpa { get; init; } = 400;

    /// <summary>Pressure at the last head while the station runs, kPa.</summary>
    public double RunningKpa { get; init; } = 250;

    /// <summary>What a meter should read.</summary>
    public double Of(Expected quantity)
    {
        double warm = 1 + (CopperPerDegree * (AirC - 20));
        return quantity switch
        {
            Expected.BatteryVolts => Cells * NewCellVolts,
            Expected.CoilOhms => CoilOhms * warm,
            Expected.LoopOhms => (CoilOhms + (2 * WireM * WireOhmsPerKm / 1000)) * warm,
            Expected.StaticPressure => StaticKpa,
            _ => RunningKpa,
        };
    }

    /// <summary>The conditions that a model may name.</summary>
    public static IReadOnlyList<string> Conditions { get; } = ["several stations", "sensor", "pump", "drip", "sprinklers"];

    /// <summary>Whether a condition of the model holds.</summary>
    public bool Holds(string condition) => condition switch
    {
        "several stations" => Stations > 1,
        "sensor" => HasSensor,
        "pump" => HasPump,
        "drip" => Drips,
        "sprinklers" => !Drips,
        _ => throw new ArgumentException($"No condition is named '{condition}'.", nameof(condition)),
    };

    /// <summary>What the survey tells of a station; what it does not tell stays as it is by rule of thumb.</summary>
    public static TraceFacts Of(Site site, SiteController controller, int? station)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(controller);
        Zone? zone = controller.Zones.FirstOrDefault(z => z.Station == station);
        WaterSupply? supply = site.Supplies.FirstOrDefault(s => s.Name == controller.Supply);
        TraceFacts facts = new()
        {
            Stations = Math.Max(1, controller.Zones.Select(z => z.Station).Distinct().Count()),
            HasSensor = controller.Profile.HasSensorInput,
            HasPump = controller.Profile.Pump is not null,
            IsReclaimed = supply?.IsReclaimed ?? false,
            Drips = zone?.Emission.Kind is EmissionKind.Drip or EmissionKind.Bubbler,
        };
        return supply is { StaticPressureKpa: > 0 and var kpa }
            ? facts with { StaticKpa = kpa, RunningKpa = Math.Min(facts.RunningKpa, 0.75 * kpa) } : facts;
    }
}
