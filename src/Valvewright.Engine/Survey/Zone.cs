using Valvewright.Engine.Ground;
using Valvewright.Engine.Plants;
using Valvewright.Engine.Sprinklers;

namespace Valvewright.Engine.Survey;

/// <summary>The planting that one station waters (a hydrozone), with every number the engine needs.</summary>
public sealed record Zone
{
    /// <summary>What people call it.</summary>
    public required string Name { get; init; }

    /// <summary>The controller's station, from 1.</summary>
    public required int Station { get; init; }

    /// <summary>Irrigated area.</summary>
    public required double AreaM2 { get; init; }

    /// <summary>What grows there and at which stage.</summary>
    public required Planting Planting { get; init; }

    /// <summary>The soil it grows in.</summary>
    public required Soil Soil { get; init; }

    /// <summary>Rise over run of the ground, in percent.</summary>
    public double SlopePercent { get; init; }

    /// <summary>How water comes out: rate, flow and how evenly it falls.</summary>
    public required Emission Emission { get; init; }

    /// <summary>The most a rule lets fall in one cycle, NaN where none does.</summary>
    public double LargestDepthPerCycleMm { get; init; } = double.NaN;

    /// <summary>The most a rule lets fall in one day, NaN where none does.</summary>
    public double LargestDepthPerDayMm { get; init; } = double.NaN;
}
