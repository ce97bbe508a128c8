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

    /// <summary>How good the planting must look; sets what unmet use weighs and how much of it a plan may leave.</summary>
    public PlantQuality Quality { get; init; } = PlantQuality.Normal;

    /// <summary>The part of the day's sun that buildings or trees take away, 0 to 1; use falls with it.</summary>
    public double ShadeFraction { get; init; }

    /// <summary>
    /// How far soil and roots even out what cans show: the low quarter receives this plus (1 - this) x DUlq of the mean depth. 0 takes the
    /// cans as they are.
    /// </summary>
    /// <remarks>0.4 is the scheduling multiplier's own figure; docs/plants-and-soil.md has the sources, which disagree.</remarks>
    public double SoilEvening { get; init; } = LowQuarter.UsualSoilEvening;

    /// <summary>What the low quarter receives of the mean depth that reaches the ground, above 0, at most 1.</summary>
    public double LowQuarterShare => LowQuarter.ShareOf(LowQuarter.UniformityOf(Emission.Spots), SoilEvening);

    /// <summary>The part of what reaches the ground that must drain to carry salt away, 0 to 1.</summary>
    public double LeachingFraction { get; init; }

    /// <summary>What of a mean gross depth the low quarter's roots get, above 0, at most 1: its share, less loss and leaching.</summary>
    public double ReachingShare => LowQuarterShare * (1 - Emission.ApplicationLossFraction) * (1 - LeachingFraction);

    /// <summary>Whether it is planned for all year: all but seedbeds, which pass within weeks and have their own waterings.</summary>
    public bool Lasts => Planting.Stage != PlantStage.NewlySeeded;

    /// <summary>The most a rule lets fall in one cycle, NaN where none does.</summary>
    public double LargestDepthPerCycleMm { get; init; } = double.NaN;

    /// <summary>The most a rule lets fall in one day, NaN where none does.</summary>
    public double LargestDepthPerDayMm { get; init; } = double.NaN;
}
