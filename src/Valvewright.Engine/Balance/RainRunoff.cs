using Valvewright.Engine.Plants;
using Valvewright.Engine.Quantities;
using Valvewright.Engine.Survey;

namespace Valvewright.Engine.Balance;

/// <summary>The part of a day's rain that runs off before the soil can take it in: the curve number method.</summary>
/// <remarks>
/// USDA NRCS National Engineering Handbook part 630 chapter 10: Q = (P - 0.2 S)^2 / (P + 0.8 S) for P above 0.2 S, else 0, with
/// S = 25400 / CN - 254 mm. Curve numbers of TR-55 (1986) table 2-2a, average moisture: open space with more than 75 % grass
/// (A 39, B 61, C 74, D 80), newly graded without vegetation (77, 86, 91, 94) for seedbeds. Both not checked against the printed handbooks.
/// </remarks>
/// <param name="CurveNumber">From 0 (nothing runs off) to 100 (everything does).</param>
public readonly record struct RainRunoff(double CurveNumber)
{
    private static ReadOnlySpan<double> Grassed => [39, 61, 74, 80];

    private static ReadOnlySpan<double> Bare => [77, 86, 91, 94];

    /// <summary>Everything sinks in.</summary>
    public static RainRunoff None { get; } = new(0);

    /// <summary>The runoff of a zone's soil under its planting.</summary>
    public static RainRunoff Of(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ReadOnlySpan<double> numbers = zone.Planting.Stage == PlantStage.NewlySeeded ? Bare : Grassed;
        return new RainRunoff(numbers[GroupOf(zone.Soil.IntakeMmPerHour)]);
    }

    /// <summary>Hydrologic soil group, 0 for A to 3 for D.</summary>
    /// <remarks>
    /// TR-55 appendix A sorts textures: sand to sandy loam A, loam and silt loam B, sandy clay loam C, clay loam to clay D. The
    /// intake rates that this project gives those textures (sandy loam 0.40 in/h, loam 0.35, clay loam 0.20) put the bounds at 0.375,
    /// 0.30 and 0.225 in/h, so that a measured intake rate counts whatever the texture is called.
    /// </remarks>
    public static int GroupOf(double intakeMmPerHour) => (intakeMmPerHour / UsUnits.MmPerInch) switch
    {
        >= 0.375 => 0,
        >= 0.30 => 1,
        >= 0.225 => 2,
        _ => 3,
    };

    /// <summary>What runs off of a day's rain, mm.</summary>
    public double DepthMm(double rainMm)
    {
        if (CurveNumber <= 0)
        {
            return 0;
        }

        double retention = 25400 / CurveNumber - 254;
        double beyond = rainMm - 0.2 * retention;
        return beyond <= 0 ? 0 : beyond * beyond / (rainMm + 0.8 * retention);
    }
}
